// SPDX-License-Identifier: GPL-3.0-or-later
// A tool: what the mouse and the keys mean over the face view while it is in hand.
#pragma once

#include <QCursor>
#include <QKeyEvent>
#include <QObject>
#include <QPainter>

#include "core/geometry/shapes.h"

namespace rackside {

class FaceView;

struct ToolPoint {
  Point board;     // mm
  QPointF screen;  // the view's pixels
  Qt::KeyboardModifiers keys = Qt::NoModifier;
  bool down = false;  // the button (or its key) is held
};

class Tool : public QObject {
  Q_OBJECT
 public:
  explicit Tool(FaceView& view) : view_(view) {}

  virtual const char* id() const = 0;  // never translated: for icons and object names
  virtual QString name() const = 0;
  // One line below the view: what to do next.
  virtual QString hint() const = 0;
  virtual QCursor cursor() const { return Qt::CrossCursor; }

  virtual void press(const ToolPoint&) {}
  virtual void move(const ToolPoint&) {}
  virtual void release(const ToolPoint&) {}
  virtual void doubleClick(const ToolPoint&) {}
  // True when the key meant something to this tool.
  virtual bool key(const QKeyEvent&) { return false; }
  // Places points where the arrow keys have moved the cross to, instead of panning.
  virtual bool usesKeyCursor() const { return true; }
  // Drops what is half done.
  virtual void cancel() {}
  // Drawn above everything else.
  virtual void paintOver(QPainter&) const {}
  // The document changed under the tool (undo, another board).
  virtual void refresh() {}

 protected:
  FaceView& view() const { return view_; }

 private:
  FaceView& view_;
};

}  // namespace rackside
