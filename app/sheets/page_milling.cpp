// SPDX-License-Identifier: GPL-3.0-or-later
// From rough blank to finished part, step by step; blanks that go the same way share one list.
#include <QStringList>
#include <algorithm>
#include <cmath>

#include "app/sheets/table.h"
#include "core/trade/milling_route.h"

namespace rackside::sheets {
namespace {

struct Way {
  QStringList parts;                                    // names, each once
  std::vector<std::pair<QString, QStringList>> pieces;  // by board: "A + B" of one blank, "C"
  MillingRoute route;
  std::string fault;  // instead of a route
};

bool sameWay(const Way& a, const Way& b) {
  if (a.fault != b.fault || a.route.steps.size() != b.route.steps.size()) return false;
  for (size_t i = 0; i < a.route.steps.size(); ++i)
    if (a.route.steps[i].what != b.route.steps[i].what) return false;
  return true;
}

void join(Way& way, const Way& more) {
  for (const auto& [board, codes] : more.pieces)
    if (way.pieces.back().first == board) {
      way.pieces.back().second << codes;
    } else {
      way.pieces.emplace_back(board, codes);
    }
}

// "Bench rail: Board 7 A, B; Board 8 C + D"
QString title(const Way& way) {
  QStringList boards;
  for (const auto& [board, codes] : way.pieces) boards << board + " " + codes.join(", ");
  return way.parts.join(", ") + ": " + boards.join("; ");
}

// A blank's pieces in the order they lie along it.
Way wayOf(const PackInput& in, const Board& board, const Blank& blank, const BoardWork& work) {
  Way way;
  std::vector<const PieceLine*> lines;
  for (const PieceLine& line : work.pieces)
    if (line.blank == &blank) lines.push_back(&line);
  const Pose toBlank = blank.boardFromBlank;
  const auto along = [&toBlank](const PieceLine* l) {
    const Point p = l->piece->outline.front() - toBlank.origin;
    return p.x * std::cos(toBlank.angleRad) + p.y * std::sin(toBlank.angleRad);
  };
  std::stable_sort(lines.begin(), lines.end(),
                   [&](const PieceLine* a, const PieceLine* b) { return along(a) < along(b); });
  QStringList codes;
  std::vector<Piece> pieces;
  for (const PieceLine* line : lines) {
    codes << QString::fromStdString(line->code);
    pieces.push_back(*line->piece);
    const QString part = line->part ? QString::fromStdString(line->part->name) : QString();
    if (!part.isEmpty() && !way.parts.contains(part)) way.parts << part;
  }
  way.pieces = {{wordForBoard(board), {codes.join(" + ")}}};
  Shop shop = in.rack.shop;
  shop.show = in.options.lengths;
  auto route = millingRoute(board, blank, pieces, in.rack.parts, shop);
  if (route) {
    way.route = std::move(route.value());
  } else {
    way.fault = route.error().message;
  }
  return way;
}

std::vector<Way> waysOf(const PackInput& in) {
  std::vector<Way> ways;
  for (size_t b = 0; b < in.works.size(); ++b) {
    const Board& board = in.rack.boards[b];
    for (const Blank& blank : in.rack.plan->blanks) {
      if (blank.board != board.id) continue;
      Way way = wayOf(in, board, blank, in.works[b]);
      const auto like =
          std::find_if(ways.begin(), ways.end(), [&way](const Way& w) { return sameWay(w, way); });
      if (like == ways.end()) {
        ways.push_back(std::move(way));
      } else {
        join(*like, way);
      }
    }
  }
  return ways;
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

void addSteps(const PackInput& in, const Way& way, Cautions& cautions, Table& table) {
  const QString pieces = title(way);
  if (!way.fault.empty())
    table.rows.push_back({pieces, "", QString::fromStdString(way.fault), "", ""});
  for (size_t i = 0; i < way.route.steps.size(); ++i) {
    const MillingStep& step = way.route.steps[i];
    table.rows.push_back({i == 0 ? pieces : QString(), QString::number(i + 1),
                          QString::fromStdString(step.what), cautions.letterOf(step.caution),
                          in.length(step.after.lengthMm, false) + " × " +
                              in.length(step.after.widthMm, false) + " × " +
                              in.length(step.after.thicknessMm, false)});
  }
}

}  // namespace

std::vector<Page> millingPages(const std::shared_ptr<const PackInput>& input) {
  if (!input->rack.plan) return {};
  Table t;
  t.title = "Milling";
  t.subtitle =
      QString(
          "From the rough blank to the finished part; the sizes are length × width × "
          "thickness in %1 once the step is done. Common practice, no source.")
          .arg(input->options.lengths.system == UnitSystem::inches ? "inches" : "millimetres");
  t.columns = {{"Pieces", 3.2}, {"", 0.5, true}, {"Step", 7.5}, {"Mind", 0.7}, {"Then", 3.0, true}};
  t.carryFirstCell = true;
  Cautions cautions;
  for (const Way& way : waysOf(*input)) addSteps(*input, way, cautions, t);
  t.foot = cautions.foot() + "  " + millingCaution();
  return tablePages(input, {std::move(t)});
}

}  // namespace rackside::sheets
