// SPDX-License-Identifier: GPL-3.0-or-later
// What lies over the face picture: one item mirrors one object of the document. Items are rebuilt
// when their object changes and know nothing of edits.
#pragma once

#include <QPainter>
#include <QPainterPath>
#include <memory>

#include "app/window/face/face_camera.h"
#include "core/document/rack.h"

namespace rackside {

struct ItemPaint {
  QPainter& painter;  // in the view's units
  const FaceCamera& camera;
  bool chosen = false;
  LengthStyle lengths;
};

class FaceItem {
 public:
  virtual ~FaceItem() = default;
  virtual void paint(const ItemPaint& paint) const = 0;
  virtual bool hit(Point board, double toleranceMm) const = 0;
  const Rect& box() const { return box_; }

 protected:
  void setPath(QPainterPath path);
  const QPainterPath& path() const { return path_; }  // board mm
  bool pathHit(Point board, double toleranceMm, bool inside) const;

 private:
  QPainterPath path_;
  Rect box_;
};

class OutlineItem : public FaceItem {
 public:
  explicit OutlineItem(const Outline& outline);
  void paint(const ItemPaint& paint) const override;
  bool hit(Point board, double toleranceMm) const override;

 private:
  Outline outline_;
};

class MarkItem : public FaceItem {
 public:
  // As it shows on `face`; a mark that is only on the other face is drawn as seen through the wood.
  MarkItem(const Mark& mark, Face face);
  void paint(const ItemPaint& paint) const override;
  bool hit(Point board, double toleranceMm) const override;
  const Mark& mark() const { return mark_; }
  bool onThisFace() const { return here_; }

 private:
  void paintTag(const ItemPaint& paint) const;
  Mark mark_;
  bool here_;
};

class PieceItem : public FaceItem {
 public:
  PieceItem(const Piece& piece, const Blank* blank, QString label, bool pinned);
  void paint(const ItemPaint& paint) const override;
  bool hit(Point board, double toleranceMm) const override;
  const Piece& piece() const { return piece_; }

 private:
  Piece piece_;
  QPainterPath blank_;
  QString label_;
  bool pinned_;
};

class CutItem : public FaceItem {
 public:
  explicit CutItem(const Cut& cut);
  void paint(const ItemPaint& paint) const override;
  bool hit(Point board, double toleranceMm) const override;

 private:
  Cut cut_;
};

QPainterPath pathOf(const Polygon& polygon);
QPainterPath pathOf(const Polygons& polygons);
// A short text on a plate that stays legible over any wood. `at` is its middle.
void paintPlate(QPainter& painter, QPointF at, const QString& text, const QColor& ink,
                const QColor& plate);

}  // namespace rackside
