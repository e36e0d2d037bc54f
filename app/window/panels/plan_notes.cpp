// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panels/plan_notes.h"

#include <QLocale>
#include <QObject>
#include <QStringList>
#include <algorithm>
#include <map>
#include <set>

#include "app/window/document/part_drafts.h"
#include "app/window/look/text.h"
#include "core/document/plan_state.h"
#include "core/wood/looked_over.h"

namespace rackside {
namespace {

QString safe(const std::string& text) {
  return qt(text).toHtmlEscaped();
}

QString boardLink(const Rack& rack, const BoardId& id) {
  const Board* board = rack.findBoard(id);
  return QStringLiteral("<a href=\"%1\">%2</a>")
      .arg(safe(id.text), QObject::tr("board %1").arg(board ? safe(board->name) : safe(id.text)));
}

QString partWord(const Rack& rack, const PartId& id) {
  const Part* part = rack.findPart(id);
  return part ? safe(part->name) : QObject::tr("part deleted");
}

const Piece* findPiece(const Plan& plan, const PieceId& id) {
  for (const Piece& piece : plan.pieces)
    if (piece.id == id) return &piece;
  return nullptr;
}

QString paragraph(const QString& text) {
  return QStringLiteral("<p style=\"margin-top:2px;margin-bottom:4px\">%1</p>").arg(text);
}

QString spareWords(const Rack& rack, const Spare& spare, const LengthStyle& style) {
  if (!spare.board) return QObject::tr("none; nothing that is left would hold it.");
  if (spare.wholeBoard)
    return QObject::tr("%1, on which nothing is planned.").arg(boardLink(rack, *spare.board));
  return QObject::tr("%1, in the offcut from %2 along, %3 in.")
      .arg(boardLink(rack, *spare.board), lengthText(spare.place.x0, style),
           lengthText(spare.place.y0, style));
}

QString stripWords(const Rack& rack, const Piece& piece, bool turned) {
  QString text =
      boardLink(rack, piece.board) +
      (piece.showFace == Face::A ? QObject::tr(", face A up") : QObject::tr(", face B up"));
  return turned ? text + QObject::tr(", end for end") : text;
}

}  // namespace

QString placedWords(const PlanFigures& f) {
  return f.placed == f.wanted ? QObject::tr("All %1 pieces placed.").arg(f.wanted)
                              : QObject::tr("%1 of %2 pieces placed.").arg(f.placed).arg(f.wanted);
}

QString figuresWords(const PlanFigures& f) {
  QStringList words{
      f.boards == 1 ? QObject::tr("1 board opened") : QObject::tr("%1 boards opened").arg(f.boards),
      f.cuts == 1 ? QObject::tr("1 cut") : QObject::tr("%1 cuts").arg(f.cuts),
      QObject::tr("%1 % of the wood used").arg(qRound(100 * f.yieldShare))};
  if (f.cost > 0) words << QObject::tr("wood for %1").arg(QLocale().toString(f.cost, 'f', 2));
  if (f.worstLook)
    words << QObject::tr("poorest look %1 of 100 (%2)")
                 .arg(qRound(100 * *f.worstLook))
                 .arg(f.worstPart.toHtmlEscaped());
  return words.join(QStringLiteral(", ")) + QLatin1Char('.');
}

QString planStateWords(const Rack& rack) {
  const PlanState state = planState(rack);
  if (!state.holds()) {
    const size_t more = state.broken.size() - 1;
    const QString why = qt(state.broken.front().why);
    return (more == 0   ? QObject::tr("This plan no longer holds: %1.").arg(why)
            : more == 1 ? QObject::tr("This plan no longer holds: %1, and one board more.").arg(why)
                        : QObject::tr("This plan no longer holds: %1, and %2 boards more.")
                              .arg(why)
                              .arg(more)) +
           QLatin1Char(' ') + QObject::tr("Plan again; cuts that were made are kept.");
  }
  if (state.changed.empty()) return {};
  QStringList changed;
  for (const std::string& what : state.changed) changed << qt(what);
  return QObject::tr("Changed since this plan: %1. Plan again to take it in.").arg(listed(changed));
}

QStringList planCautions(const Rack& rack, const Plan& plan) {
  QStringList cautions;
  if (const QString words = planStateWords(rack); !words.isEmpty()) cautions << words;
  const auto drafts = partDrafts(rack).size();
  if (drafts > 0)
    cautions << (drafts == 1
                     ? QObject::tr("1 row of the parts list is unfinished and not planned.")
                     : QObject::tr("%1 rows of the parts list are unfinished and not planned.")
                           .arg(drafts));
  QStringList boards;
  for (const Board& board : rack.boards) {
    const bool cut = std::any_of(plan.pieces.begin(), plan.pieces.end(),
                                 [&](const Piece& p) { return p.board == board.id; });
    if (!cut || board.cutUp) continue;
    QStringList faces;
    for (const Face face : facesToLookOver(board)) faces << qt(name(face));
    if (!faces.isEmpty()) boards << QObject::tr("%1 (face %2)").arg(qt(board.name), listed(faces));
  }
  if (!boards.isEmpty())
    cautions << QObject::tr("Nobody has looked over: board %1.").arg(listed(boards));
  return cautions;
}

// Shares of the whole: the numbers themselves tell nobody anything.
QString scoreNotes(const Plan& plan) {
  QString rows;
  double whole = 0;
  for (const ScoreTerm& t : plan.score) whole += std::max(0.0, t.value);
  for (const ScoreTerm& t : plan.score) {
    if (t.value == 0 && t.name != "parts") continue;
    rows += QStringLiteral(
                "<tr><td align=\"right\" style=\"padding-right:8px\">%1 %</td><td>%2</td></tr>")
                .arg(whole > 0 ? qRound(100 * t.value / whole) : 0)
                .arg(safe(t.words));
  }
  return rows.isEmpty() ? QString() : QStringLiteral("<table>%1</table>").arg(rows);
}

QString spareNotes(const Rack& rack, const Plan& plan, const LengthStyle& style) {
  QString html;
  std::set<PartId> told;
  for (const Spare& spare : plan.spares)
    if (const Piece* piece = findPiece(plan, spare.piece); piece && told.insert(piece->part).second)
      html += paragraph(QStringLiteral("<b>%1</b>: %2")
                            .arg(partWord(rack, piece->part), spareWords(rack, spare, style)));
  return html;
}

QString panelNotes(const Rack& rack, const Plan& plan, const LengthStyle& style) {
  QString html;
  for (const PlannedPanel& panel : plan.panels) {
    QString text = QStringLiteral("<b>%1 %2</b>").arg(partWord(rack, panel.part)).arg(panel.copy);
    for (size_t i = 0; i < panel.strips.size(); ++i)
      if (const Piece* piece = findPiece(plan, panel.strips[i]))
        text += QStringLiteral("<br>%1. %2")
                    .arg(i + 1)
                    .arg(stripWords(
                        rack, *piece,
                        std::count(panel.turned.begin(), panel.turned.end(), piece->id) > 0));
    for (const std::string& remark : panel.remarks)
      text += QStringLiteral("<br>") + safe(inOwnUnits(remark, style)) + QLatin1Char('.');
    html += paragraph(text);
  }
  return html;
}

QString remarkNotes(const Rack& rack, const Plan& plan, const LengthStyle& style) {
  QString html;
  for (const std::string& remark : plan.remarks) html += paragraph(safe(inOwnUnits(remark, style)));
  std::map<std::pair<BoardId, std::string>, int> blanks;
  for (const Blank& blank : plan.blanks)
    for (const std::string& remark : blank.remarks) ++blanks[{blank.board, remark}];
  for (const auto& [where, count] : blanks)
    html += paragraph(
        QObject::tr("%1, %2: %3.")
            .arg(boardLink(rack, where.first),
                 count == 1 ? QObject::tr("one blank") : QObject::tr("%1 blanks").arg(count),
                 safe(inOwnUnits(where.second, style))));
  return html;
}

}  // namespace rackside
