// SPDX-License-Identifier: GPL-3.0-or-later
// From rough blanks to finished parts, batch by batch: all that end at one thickness go through the
// machines together, equal widths share one setting of the fence, equal lengths one stop.
#include <QStringList>
#include <algorithm>
#include <cmath>
#include <map>

#include "app/sheets/table.h"
#include "core/trade/milling_route.h"

namespace rackside::sheets {
namespace {

// Blanks are milled together when they end within this of each other.
constexpr double kSameThicknessMm = 0.05;

struct Milled {
  QString name;    // "8 A", "8 A + B" of one blank
  QString remark;  // of a fault, instead of a route
  MillingRoute route;
  std::vector<std::pair<QString, const Piece*>> pieces;  // "8 A"
};

struct Batch {
  double thicknessMm = 0;
  bool square = false;  // legs, by turns from all four sides
  std::vector<Milled> blanks;
};

QString shortWord(const Board& board) {
  return board.tag ? QString::number(*board.tag) : QString::fromStdString(board.name);
}

Milled milledOf(const PackInput& in, const Board& board, const Blank& blank,
                const BoardWork& work) {
  Milled m;
  std::vector<Piece> pieces;
  QStringList codes;
  for (const PieceLine& line : work.pieces) {
    if (line.blank != &blank) continue;
    const QString code = QString::fromStdString(line.code);
    codes << code;
    m.pieces.emplace_back(shortWord(board) + " " + code, line.piece);
    pieces.push_back(*line.piece);
  }
  m.name = shortWord(board) + " " + codes.join(" + ");
  Shop shop = in.rack.shop;
  shop.show = in.options.lengths;
  auto route = millingRoute(board, blank, pieces, in.rack.parts, shop);
  if (route)
    m.route = std::move(route.value());
  else
    m.remark = QString::fromStdString(route.error().message);
  return m;
}

bool isSquared(const Milled& m) {
  return std::any_of(m.route.steps.begin(), m.route.steps.end(),
                     [](const MillingStep& s) { return s.kind == MillingStepKind::square; });
}

std::vector<Batch> batchesOf(const PackInput& in) {
  std::vector<Batch> batches;
  for (size_t b = 0; b < in.works.size(); ++b)
    for (const Blank& blank : in.rack.plan->blanks) {
      if (blank.board != in.rack.boards[b].id) continue;
      Milled m = milledOf(in, in.rack.boards[b], blank, in.works[b]);
      const bool square = isSquared(m);
      auto found = std::find_if(batches.begin(), batches.end(), [&](const Batch& batch) {
        return batch.square == square &&
               std::abs(batch.thicknessMm - blank.finishedThicknessMm) < kSameThicknessMm;
      });
      if (found == batches.end())
        found = batches.insert(found, {blank.finishedThicknessMm, square, {}});
      found->blanks.push_back(std::move(m));
    }
  std::stable_sort(batches.begin(), batches.end(), [](const Batch& a, const Batch& b) {
    return a.thicknessMm > b.thicknessMm;  // the planer's bed goes one way
  });
  return batches;
}

// Each caution once, at the foot; a step names it by its letter.
class Cautions {
 public:
  QString letterOf(const std::string& caution) {
    if (caution.empty()) return {};
    const QString text = QString::fromStdString(caution);
    qsizetype i = texts_.indexOf(text);
    if (i < 0) {
      i = texts_.size();
      texts_ << text;
    }
    return QString(QChar('a' + int(i)));
  }
  QString foot() const {
    QStringList lines;
    for (qsizetype i = 0; i < texts_.size(); ++i)
      lines << QString("%1: %2").arg(QChar('a' + int(i)), texts_[i]);
    return lines.join("  ");
  }

 private:
  QStringList texts_;
};

// One step of a batch: what is said of it, and for which blanks.
struct BatchStep {
  MillingStepKind kind;
  QString what;
  QStringList cautions;
  QStringList blanks;
};

// How much comes off differs from blank to blank, and the machine shows it.
QString wordsOf(const MillingStep& step) {
  QString what = QString::fromStdString(step.what);
  if (const qsizetype amount = what.indexOf("; takes about"); amount >= 0)
    what = what.left(amount) + ".";
  return what;
}

// The sizes have a row of their own.
bool isBySize(const Batch& batch, MillingStepKind kind) {
  return kind == MillingStepKind::roughCut || kind == MillingStepKind::length ||
         (kind == MillingStepKind::rip && !batch.square);
}

// In the order of the longest route; what is said alike is one step.
std::vector<BatchStep> stepsOf(const Batch& batch, Cautions& cautions) {
  std::vector<const Milled*> order;
  for (const Milled& m : batch.blanks) order.push_back(&m);
  std::stable_sort(order.begin(), order.end(), [](const Milled* a, const Milled* b) {
    return a->route.steps.size() > b->route.steps.size();
  });
  std::vector<BatchStep> all;
  for (const Milled* m : order) {
    size_t at = 0;  // behind the latest step of this blank
    for (const MillingStep& step : m->route.steps) {
      if (isBySize(batch, step.kind)) continue;
      const QString what = wordsOf(step);
      auto found =
          std::find_if(all.begin(), all.end(), [&](const BatchStep& s) { return s.what == what; });
      if (found == all.end())
        found =
            all.insert(all.begin() + static_cast<std::ptrdiff_t>(at), {step.kind, what, {}, {}});
      at = static_cast<size_t>(found - all.begin()) + 1;
      if (const QString letter = cautions.letterOf(step.caution);
          !letter.isEmpty() && !found->cautions.contains(letter))
        found->cautions << letter;
      if (!found->blanks.contains(m->name)) found->blanks << m->name;
    }
  }
  return all;
}

// "85 mm: 2 A, 4 A; 48 mm: 8 A", the greatest first.
QString bySize(const PackInput& in, const Batch& batch, double Piece::*size) {
  std::map<long, QStringList, std::greater<>> sizes;  // 1/100 mm
  for (const Milled& m : batch.blanks)
    for (const auto& [name, piece] : m.pieces) sizes[std::lround(100 * piece->*size)] << name;
  QStringList words;
  for (const auto& [hundredths, names] : sizes)
    words << in.length(double(hundredths) / 100) + ": " + names.join(", ");
  return words.join(";  ");
}

QStringList cautionsOfKind(const Batch& batch, MillingStepKind kind, Cautions& cautions) {
  QStringList letters;
  for (const Milled& m : batch.blanks)
    for (const MillingStep& step : m.route.steps)
      if (const QString letter = step.kind == kind ? cautions.letterOf(step.caution) : QString();
          !letter.isEmpty() && !letters.contains(letter))
        letters << letter;
  return letters;
}

// The rows of one batch; steps in a row that all its blanks take are said in one.
class BatchRows {
 public:
  BatchRows(QString title, Table& table) : title_(std::move(title)), table_(table) {}
  void add(const QString& what, const QString& which, const QStringList& mind) {
    flush();
    put(what, which, mind);
  }
  void addForAll(const QString& what, const QStringList& mind) {
    words_ << what;
    for (const QString& letter : mind)
      if (!mind_.contains(letter)) mind_ << letter;
  }
  void flush() {
    if (!words_.isEmpty()) put(words_.join(" "), "all", mind_);
    words_.clear(), mind_.clear();
  }

 private:
  void put(const QString& what, const QString& which, const QStringList& mind) {
    table_.rows.push_back({title_, what, which, mind.join(", ")});
    title_.clear();
  }
  QString title_;
  Table& table_;
  QStringList words_, mind_;
};

void addBatch(const PackInput& in, const Batch& batch, Cautions& cautions, Table& table) {
  QStringList names;
  for (const Milled& m : batch.blanks) names << m.name;
  BatchRows rows(in.length(batch.thicknessMm) + (batch.square ? " square" : " thick"), table);
  rows.add(names.size() == 1 ? "One rough piece."
                             : QString("Bring these %1 rough pieces together.").arg(names.size()),
           names.join(", "), {});
  const auto addSteps = [&](bool last) {
    for (const BatchStep& s : stepsOf(batch, cautions)) {
      const bool isLast = s.kind == MillingStepKind::relabel || s.kind == MillingStepKind::taper;
      if (isLast != last) continue;
      if (s.blanks.size() == names.size())
        rows.addForAll(s.what, s.cautions);
      else
        rows.add(s.what, s.blanks.join(", "), s.cautions);
    }
  };
  addSteps(false);
  if (!batch.square)
    rows.add("Rip to width, the true edge along the fence; equal widths at one setting.",
             bySize(in, batch, &Piece::widthMm),
             cautionsOfKind(batch, MillingStepKind::rip, cautions));
  addSteps(true);
  rows.add("Square one end, then cut to length against a stop, equal lengths together.",
           bySize(in, batch, &Piece::lengthMm),
           cautionsOfKind(batch, MillingStepKind::length, cautions));
  for (const Milled& m : batch.blanks)
    if (!m.remark.isEmpty()) rows.add(m.remark, m.name, {});
}

}  // namespace

std::vector<Page> millingPages(const std::shared_ptr<const PackInput>& input) {
  if (!input->rack.plan) return {};
  Table t;
  t.title = "Milling, batch by batch";
  t.subtitle =
      "All that end at one thickness together, thickest first. A piece is named by its board and "
      "its letter; A + B are milled as one and parted last. Common practice, no source.";
  t.columns = {{"Batch", 1.3}, {"Step", 7.5}, {"Pieces", 6.5}, {"Mind", 0.7}};
  t.carryFirstCell = true;
  Cautions cautions;
  for (const Batch& batch : batchesOf(*input)) addBatch(*input, batch, cautions, t);
  t.foot = cautions.foot() + "  " + millingCaution();
  return tablePages(input, {std::move(t)});
}

}  // namespace rackside::sheets
