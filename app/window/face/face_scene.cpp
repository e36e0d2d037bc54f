// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/face/face_scene.h"

#include "app/window/look/text.h"
#include "core/document/pinned.h"

namespace rackside {

namespace {

double boxArea(const FaceItem& item) {
  return item.box().width() * item.box().height();
}

const Blank* blankOf(const Plan& plan, const BlankId& id) {
  for (const Blank& blank : plan.blanks)
    if (blank.id == id) return &blank;
  return nullptr;
}

QString labelOf(const Rack& rack, const Piece& piece) {
  const Part* part = rack.findPart(piece.part);
  QString label = part ? qt(part->name) : QStringLiteral("part no longer wanted");
  if (part && part->copies > 1) label += QStringLiteral(" %1/%2").arg(piece.copy).arg(part->copies);
  if (piece.kind == PieceKind::panelStrip) label += QStringLiteral(", strip %1").arg(piece.strip);
  return label;
}

bool overlaps(const Rect& a, const Rect& b) {
  return a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
}

template <class Item>
std::vector<const Item*> leftToRight(const std::vector<std::unique_ptr<Item>>& items) {
  std::vector<const Item*> sorted;
  sorted.reserve(items.size());
  for (const auto& item : items) sorted.push_back(item.get());
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const Item* a, const Item* b) { return a->box().x0 < b->box().x0; });
  return sorted;
}

}  // namespace

void FaceScene::rebuild(const Rack& rack, const Plan* plan, const BoardId& id, Face face) {
  outline_.reset();
  marks_.clear();
  pieces_.clear();
  cuts_.clear();
  const Board* board = rack.findBoard(id);
  if (!board) return;
  if (!board->outline.vertices.empty()) outline_ = std::make_unique<OutlineItem>(board->outline);
  for (const Mark& mark : board->marks) marks_.push_back(std::make_unique<MarkItem>(mark, face));
  // Large marks first, so that a knot in a stretch of sapwood lies on top of it.
  std::stable_sort(marks_.begin(), marks_.end(),
                   [](const auto& a, const auto& b) { return boxArea(*a) > boxArea(*b); });
  if (!plan) return;
  for (const Piece& piece : plan->pieces)
    if (piece.board == id)
      pieces_.push_back(std::make_unique<PieceItem>(
          piece, blankOf(*plan, piece.blank), labelOf(rack, piece), isPinned(*plan, piece.id)));
  for (const Cut& cut : plan->cuts)
    if (cut.board == id) cuts_.push_back(std::make_unique<CutItem>(cut));
}

void FaceScene::paint(QPainter& painter, const FaceCamera& camera, const FaceLayers& layers,
                      const MarkId& mark, const PieceId& piece, const LengthStyle& lengths) const {
  const Rect seen = camera.visible();
  const auto paintItem = [&](const FaceItem& item, bool chosen) {
    const double reach = 60 / camera.pxPerMm();  // tags stand outside their item
    const Rect near{seen.x0 - reach, seen.y0 - reach, seen.x1 + reach, seen.y1 + reach};
    if (!overlaps(item.box(), near)) return;
    painter.save();
    item.paint({painter, camera, chosen, lengths});
    painter.restore();
  };
  if (layers.outline && outline_) paintItem(*outline_, false);
  if (layers.pieces)
    for (const auto& item : pieces_) paintItem(*item, item->piece().id == piece);
  if (layers.cuts)
    for (const auto& item : cuts_) paintItem(*item, false);
  if (!layers.marks) return;
  for (const auto& item : marks_)
    if (item->mark().id != mark) paintItem(*item, false);
  for (const auto& item : marks_)
    if (item->mark().id == mark) paintItem(*item, true);
}

std::optional<MarkId> FaceScene::markAt(Point board, double toleranceMm) const {
  for (auto it = marks_.rbegin(); it != marks_.rend(); ++it)
    if ((*it)->hit(board, toleranceMm)) return (*it)->mark().id;
  return std::nullopt;
}

std::optional<PieceId> FaceScene::pieceAt(Point board, double toleranceMm) const {
  for (auto it = pieces_.rbegin(); it != pieces_.rend(); ++it)
    if ((*it)->hit(board, toleranceMm)) return (*it)->piece().id;
  return std::nullopt;
}

std::optional<Point> FaceScene::middleOf(const MarkId& mark, const PieceId& piece) const {
  const auto middle = [](const Rect& r) { return Point{(r.x0 + r.x1) / 2, (r.y0 + r.y1) / 2}; };
  for (const auto& item : marks_)
    if (item->mark().id == mark) return middle(item->box());
  for (const auto& item : pieces_)
    if (item->piece().id == piece) return middle(item->box());
  return std::nullopt;
}

std::vector<MarkId> FaceScene::marksInOrder() const {
  std::vector<MarkId> ids;
  for (const MarkItem* item : leftToRight(marks_))
    if (item->onThisFace()) ids.push_back(item->mark().id);
  return ids;
}

std::vector<PieceId> FaceScene::piecesInOrder() const {
  std::vector<PieceId> ids;
  for (const PieceItem* item : leftToRight(pieces_)) ids.push_back(item->piece().id);
  return ids;
}

}  // namespace rackside
