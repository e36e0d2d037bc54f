// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/board_labels.h"

#include <algorithm>
#include <cmath>

#include "app/sheets/cut_tree.h"
#include "app/sheets/hatch.h"
#include "app/sheets/lanes.h"

namespace rackside::sheets {
namespace {

constexpr double kRingMm = 4.6;
constexpr double kLaneMm = 5.6;
constexpr int kLanesAbove = 3;
constexpr double kWordLaneMm = 4.0;
constexpr int kLanesBelow = 3;
constexpr double kWordMm = 3.0;
const TextLook kFigure{3.6, true, 3.0};

bool shows(const Strip& strip, double x) {
  return x >= strip.x0 - 1e-6 && x <= strip.x1 + 1e-6;
}

class Labels {
 public:
  Labels(Sheet& sheet, const Strip& strip, const Board& board, const BoardWork& work,
         const DrawingOptions& options)
      : sheet_(sheet), strip_(strip), board_(board), work_(work), options_(options) {}

  void draw() {
    runningDimensions();
    innerCutRings();
    pieceNames();
    offcutWords();
    markWords();
  }

 private:
  double left() const { return Sheet::kMarginMm; }
  double right() const { return sheet_.area().right(); }

  // Above: the cut's number in a ring and its distance from the fresh end.
  void runningDimensions() {
    std::vector<const CutStep*> steps;
    std::vector<QString> figures;
    std::vector<LaneLabel> labels;
    for (const CutStep& step : work_.steps) {
      if (!step.runningMm || !shows(strip_, middleOf(step.cut->line).x)) continue;
      QString figure =
          QString::fromStdString(formatLength(*step.runningMm, options_.lengths, false));
      if (work_.trimmed && *step.runningMm < 1e-6) figure = "0 fresh end";
      const double width = kRingMm + 1 + Sheet::textSize(figure, kFigure).width() + 0.5;
      labels.push_back({strip_.at(middleOf(step.cut->line)).x() + width / 2 - kRingMm / 2, width});
      steps.push_back(&step);
      figures.push_back(figure);
    }
    placeInLanes(labels, kLanesAbove, left(), right(), 1.5);
    const double top = strip_.box().top();
    for (size_t i = 0; i < labels.size(); ++i) {
      if (labels[i].lane < 0) continue;
      const double y = top - 3.4 - labels[i].lane * kLaneMm;
      const QPointF ring(labels[i].x + kRingMm / 2, y);
      const double xCut = strip_.at(middleOf(steps[i]->cut->line)).x();
      sheet_.line({xCut, top + 0.5}, {xCut, top - 1}, 0.25);
      sheet_.line({xCut, top - 1}, ring, 0.25);
      leaders_.push_back({ring, figures[i], int(steps[i]->cut->order), labels[i].width});
    }
    for (const Leader& l : leaders_) {
      sheet_.ring(l.ring, kRingMm, QString::number(l.order));
      sheet_.text(QRectF(l.ring.x() + kRingMm / 2 + 0.7, l.ring.y() - 2.5, l.width - kRingMm, 5),
                  l.figure, kFigure);
    }
  }

  bool free(const QRectF& r) const {
    return std::none_of(taken_.begin(), taken_.end(),
                        [&](const QRectF& t) { return t.intersects(r); });
  }

  // On the line itself for cuts inside a section: the first place along it that is free.
  void innerCutRings() {
    const QRectF box = strip_.box();
    for (const CutStep& step : work_.steps) {
      if (step.runningMm) continue;
      const QPointF a = strip_.at(step.cut->line.from), b = strip_.at(step.cut->line.to);
      const QPointF start = a.x() <= b.x() ? a : b, end = a.x() <= b.x() ? b : a;
      const double length = std::hypot(end.x() - start.x(), end.y() - start.y());
      for (double s = std::min(kRingMm, length / 2); s <= length; s += 1.5) {
        const QPointF c = start + (end - start) * (length > 0 ? s / length : 0);
        const QRectF r(c.x() - kRingMm / 2, c.y() - kRingMm / 2, kRingMm, kRingMm);
        if (c.x() < box.left() || c.x() > box.right() || !free(r)) continue;
        sheet_.ring(c, kRingMm, QString::number(step.cut->order));
        taken_.push_back(r.adjusted(-0.3, -0.3, 0.3, 0.3));
        break;
      }
    }
  }

  // The widest stretch of `band` that no ring covers.
  QRectF widestFree(const QRectF& band) const {
    std::vector<std::pair<double, double>> covered;
    for (const QRectF& t : taken_)
      if (t.intersects(band)) covered.emplace_back(t.left(), t.right());
    std::sort(covered.begin(), covered.end());
    covered.emplace_back(band.right(), band.right());
    double from = band.left();
    QRectF best(band.left(), band.top(), 0, band.height());
    for (const auto& [l, r] : covered) {
      if (l - from > best.width()) best = QRectF(from, band.top(), l - from, band.height());
      from = std::max(from, r);
    }
    return best;
  }

  void pieceNames() {
    for (const PieceLine& line : work_.pieces) {
      const Rect b = bounds(line.piece->outline);
      if (b.x1 < strip_.x0 || b.x0 > strip_.x1) continue;
      const QRectF box = QRectF(strip_.at({std::max(b.x0, strip_.x0), b.y1}),
                                strip_.at({std::min(b.x1, strip_.x1), b.y0}))
                             .adjusted(0.8, 0.4, -0.8, -0.4);
      nameIn(box, line);
    }
  }

  void nameIn(const QRectF& box, const PieceLine& line) {
    const bool twoLines = box.height() >= 9;
    const double height = std::min(box.height(), 4.8);
    const double firstTop = twoLines ? box.center().y() - 4.4 : box.center().y() - height / 2;
    const QRectF band = widestFree(QRectF(box.left(), firstTop, box.width(), height));
    const QString code = QString::fromStdString(line.code);
    const QString full = code + "  " + QString::fromStdString(line.title());
    TextLook look{std::min(3.8, height * 0.95), true, 2.5};
    look.leastMm = std::min(look.leastMm, look.sizeMm);
    const double needed = Sheet::textSize(full, {look.leastMm, true}).width();
    sheet_.text(band, needed <= band.width() ? full : code, look, Qt::AlignCenter);
    if (!twoLines) return;
    const QString size =
        QString::fromStdString(formatLength(line.piece->lengthMm, options_.lengths, false) + " × " +
                               formatLength(line.piece->widthMm, options_.lengths, false));
    const QRectF second = widestFree(QRectF(box.left(), box.center().y() + 0.3, box.width(), 4.2));
    if (Sheet::textSize(size, {2.4}).width() <= second.width())
      sheet_.text(second, size, {3.0, false, 2.4}, Qt::AlignCenter);
  }

  void offcutWords() {
    for (const Polygon& p : work_.offcuts) {
      const Rect b = bounds(p);
      if (b.x1 < strip_.x0 || b.x0 > strip_.x1) continue;
      const QRectF box = QRectF(strip_.at({std::max(b.x0, strip_.x0), b.y1}),
                                strip_.at({std::min(b.x1, strip_.x1), b.y0}));
      const QRectF band =
          widestFree(QRectF(box.left() + 1, box.center().y() - 2.2, box.width() - 2, 4.4));
      TextLook look{3.2, false, 2.4};
      look.plate = true;
      sheet_.text(band,
                  "keep " + QString::fromStdString(
                                formatLength(b.width(), options_.lengths, false) + " × " +
                                formatLength(b.height(), options_.lengths, false)),
                  look, Qt::AlignCenter);
    }
  }

  void markWords() {
    std::vector<LaneLabel> labels;
    std::vector<QString> words;
    std::vector<QPointF> tips;
    for (const Mark& mark : board_.marks) {
      const bool here = mark.on(options_.face).has_value();
      const Polygons shape =
          polygonsOf(here ? *mark.on(options_.face) : *mark.on(otherFace(options_.face)));
      if (shape.empty()) continue;
      const Rect b = bounds(shape.front());
      const double x = std::clamp((b.x0 + b.x1) / 2, strip_.x0, strip_.x1);
      if (b.x1 < strip_.x0 || b.x0 > strip_.x1) continue;
      QString word = wordFor(mark);
      if (mark.through) word += ", through";
      if (!here) word += " (far face)";
      if (!mark.confirmed) word += " ?";
      labels.push_back({strip_.at({x, 0}).x(), Sheet::textSize(word, {kWordMm}).width() + 0.5});
      words.push_back(word);
      tips.push_back(strip_.at({x, (b.y0 + b.y1) / 2}));
    }
    placeInLanes(labels, kLanesBelow, left(), right(), 2);
    const double bottom = strip_.box().bottom();
    for (size_t i = 0; i < labels.size(); ++i) {
      if (labels[i].lane < 0) continue;
      const double y = bottom + 1.4 + labels[i].lane * kWordLaneMm;
      sheet_.line(tips[i], {tips[i].x(), bottom + 0.6}, 0.15);
      sheet_.line({tips[i].x(), bottom + 0.6},
                  {std::clamp(tips[i].x(), labels[i].x, labels[i].x + labels[i].width), y}, 0.15);
    }
    for (size_t i = 0; i < labels.size(); ++i) {
      if (labels[i].lane < 0) continue;
      TextLook look{kWordMm, false, kWordMm};
      look.plate = true;  // over the leaders of the rows below
      sheet_.text(QRectF(labels[i].x, bottom + 1.4 + labels[i].lane * kWordLaneMm, labels[i].width,
                         kWordLaneMm),
                  words[i], look);
    }
  }

  struct Leader {
    QPointF ring;
    QString figure;
    int order;
    double width;
  };

  Sheet& sheet_;
  const Strip& strip_;
  const Board& board_;
  const BoardWork& work_;
  const DrawingOptions& options_;
  std::vector<QRectF> taken_;
  std::vector<Leader> leaders_;
};

}  // namespace

void drawLabels(Sheet& sheet, const Strip& strip, const Board& board, const BoardWork& work,
                const DrawingOptions& options) {
  Labels(sheet, strip, board, work, options).draw();
}

}  // namespace rackside::sheets
