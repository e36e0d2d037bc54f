// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/board_labels.h"

#include <algorithm>
#include <cmath>

#include "core/plan/cut_tree.h"

namespace rackside::sheets {
namespace {

constexpr double kRingStepMm = 1.5;  // between the places tried along a cut

class Labels {
 public:
  Labels(Sheet& sheet, const Strip& strip, const Board& board, const BoardWork& work,
         const DrawingOptions& options)
      : sheet_(sheet), strip_(strip), board_(board), work_(work), options_(options) {}

  void draw() {
    const StripLabels labels = labelsFor(strip_, board_, work_, options_.face, options_.lengths,
                                         sheet_.area().left(), sheet_.area().right());
    markLeaders(labels.below);
    innerCutRings();
    pieceNames();
    offcutWords();
    markWords(labels.below);
    runningDimensions(labels.above);
  }

 private:
  // Above: the cut's number in a ring and its distance from the fresh end.
  void runningDimensions(const std::vector<StripLabel>& labels) {
    const double top = strip_.box().top();
    const auto ringOf = [&](const StripLabel& l) {
      return QPointF(l.place.x + kRingMm / 2, top - 3.4 - l.place.lane * kAboveLaneMm);
    };
    for (const StripLabel& l : labels) {
      if (l.place.lane < 0) continue;
      sheet_.line({l.tip.x(), top + 0.5}, {l.tip.x(), top - 1}, 0.25);
      sheet_.line({l.tip.x(), top - 1}, ringOf(l), 0.25);
    }
    for (const StripLabel& l : labels) {
      if (l.place.lane < 0) continue;
      const QPointF ring = ringOf(l);
      sheet_.ring(ring, kRingMm, QString::number(l.cutOrder));
      sheet_.text(
          QRectF(ring.x() + kRingMm / 2 + 0.7, ring.y() - 2.5, l.place.width - kRingMm - 0.7, 5),
          l.text, kDimensionLook);
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
      const double first = std::min(kRingMm, length / 2);
      const int tries = static_cast<int>((length - first) / kRingStepMm);
      for (int i = 0; i <= tries; ++i) {
        const double s = first + i * kRingStepMm;
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
    look.plate = true;
    const double needed = Sheet::textSize(full, {look.leastMm, true}).width();
    sheet_.text(band, needed <= band.width() ? full : code, look, Qt::AlignCenter);
    if (!twoLines) return;
    const QString size =
        QString::fromStdString(formatLength(line.piece->lengthMm, options_.lengths, false) + " × " +
                               formatLength(line.piece->widthMm, options_.lengths, false));
    const QRectF second = widestFree(QRectF(box.left(), box.center().y() + 0.3, box.width(), 4.2));
    if (Sheet::textSize(size, {2.4}).width() <= second.width())
      sheet_.text(second, size, {3.0, false, 2.4, Qt::black, true}, Qt::AlignCenter);
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
                  "keep, about " + QString::fromStdString(
                                       formatLength(b.width(), options_.lengths, false) + " × " +
                                       formatLength(b.height(), options_.lengths, false)),
                  look, Qt::AlignCenter);
    }
  }

  QRectF wordBox(const StripLabel& l) const {
    return {l.place.x, strip_.box().bottom() + 1.4 + l.place.lane * kBelowLaneMm, l.place.width,
            kBelowLaneMm};
  }

  void markLeaders(const std::vector<StripLabel>& labels) {
    const double bottom = strip_.box().bottom() + 0.6;
    for (const StripLabel& l : labels) {
      if (l.place.lane < 0) continue;
      const QRectF word = wordBox(l);
      sheet_.line(l.tip, {l.tip.x(), bottom}, 0.15);
      sheet_.line({l.tip.x(), bottom},
                  {std::clamp(l.tip.x(), word.left(), word.right()), word.top()}, 0.15);
    }
  }

  void markWords(const std::vector<StripLabel>& labels) {
    TextLook look{kMarkWordMm, false, kMarkWordMm};
    look.plate = true;  // over the leaders to the lanes below
    for (const StripLabel& l : labels)
      if (l.place.lane >= 0) sheet_.text(wordBox(l), l.text, look);
  }

  Sheet& sheet_;
  const Strip& strip_;
  const Board& board_;
  const BoardWork& work_;
  const DrawingOptions& options_;
  std::vector<QRectF> taken_;
};

}  // namespace

void drawLabels(Sheet& sheet, const Strip& strip, const Board& board, const BoardWork& work,
                const DrawingOptions& options) {
  Labels(sheet, strip, board, work, options).draw();
}

}  // namespace rackside::sheets
