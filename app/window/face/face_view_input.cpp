// SPDX-License-Identifier: GPL-3.0-or-later
// Mouse, wheel and keys of the face view: panning and zooming here, the rest to the tool in hand.
#include <QGestureEvent>
#include <QMouseEvent>
#include <QNativeGestureEvent>
#include <QWheelEvent>
#include <cmath>

#include "app/window/face/face_view.h"

namespace rackside {

namespace {
constexpr double kKeyStepPx = 10;
constexpr double kKeyPanPx = 80;
constexpr double kKeyZoom = 1.25;
}  // namespace

ToolPoint FaceView::toolPoint(QPointF at, Qt::KeyboardModifiers keys, bool down) const {
  return {camera_.toBoard(at), at, keys, down};
}

void FaceView::mousePressEvent(QMouseEvent* event) {
  setFocus(Qt::MouseFocusReason);
  keyCursor_.reset();
  const bool pans = event->button() == Qt::MiddleButton || event->button() == Qt::RightButton ||
                    (event->button() == Qt::LeftButton && spaceHeld_);
  if (pans) {
    panFrom_ = event->position();
    setCursor(Qt::ClosedHandCursor);
    return;
  }
  if (event->button() == Qt::LeftButton && tool_ && board())
    tool_->press(toolPoint(event->position(), event->modifiers(), true));
}

void FaceView::mouseMoveEvent(QMouseEvent* event) {
  if (panFrom_) {
    panBy(event->position() - *panFrom_);
    panFrom_ = event->position();
    return;
  }
  if (!board()) return;
  cursor_ = camera_.toBoard(event->position());
  emit cursorMoved(cursor_);
  if (tool_)
    tool_->move(toolPoint(event->position(), event->modifiers(),
                          event->buttons().testFlag(Qt::LeftButton)));
  update();
}

void FaceView::mouseReleaseEvent(QMouseEvent* event) {
  if (panFrom_) {
    panFrom_.reset();
    setCursor(tool_ ? tool_->cursor() : QCursor(Qt::ArrowCursor));
    return;
  }
  if (event->button() == Qt::LeftButton && tool_ && board())
    tool_->release(toolPoint(event->position(), event->modifiers(), false));
  update();
}

void FaceView::mouseDoubleClickEvent(QMouseEvent* event) {
  if (event->button() == Qt::LeftButton && tool_ && board())
    tool_->doubleClick(toolPoint(event->position(), event->modifiers(), false));
  update();
}

// A wheel zooms about the pointer; two fingers on a touchpad pan, with Ctrl they zoom.
void FaceView::wheelEvent(QWheelEvent* event) {
  if (!event->pixelDelta().isNull() && !event->modifiers().testFlag(Qt::ControlModifier)) {
    panBy(event->pixelDelta());
  } else if (event->modifiers().testFlag(Qt::ShiftModifier)) {
    panBy(QPointF(event->angleDelta().y() + event->angleDelta().x(), 0) * 0.5);
  } else {
    camera_.zoomAt(event->position(), std::pow(2.0, event->angleDelta().y() / 480.0));
    fitted_ = false;
    moved();
  }
  event->accept();
}

void FaceView::leaveEvent(QEvent*) {
  cursor_.reset();
  emit cursorMoved(std::nullopt);
  update();
}

bool FaceView::event(QEvent* event) {
  if (event->type() == QEvent::NativeGesture) {
    const auto* gesture = static_cast<QNativeGestureEvent*>(event);
    if (gesture->gestureType() == Qt::ZoomNativeGesture) {
      camera_.zoomAt(gesture->position(), 1 + gesture->value());
      fitted_ = false;
      moved();
      return true;
    }
  }
  // Tab walks through the marks or pieces while the tool wants it, and leaves the view otherwise.
  if (event->type() == QEvent::KeyPress && tool_ && board()) {
    const auto* key = static_cast<QKeyEvent*>(event);
    if ((key->key() == Qt::Key_Tab || key->key() == Qt::Key_Backtab) && tool_->key(*key)) {
      update();
      return true;
    }
  }
  return QWidget::event(event);
}

bool FaceView::moveKeyCursor(const QKeyEvent& event) {
  QPointF step;
  switch (event.key()) {
    case Qt::Key_Left:
      step = {-1, 0};
      break;
    case Qt::Key_Right:
      step = {1, 0};
      break;
    case Qt::Key_Up:
      step = {0, -1};
      break;
    case Qt::Key_Down:
      step = {0, 1};
      break;
    default:
      return false;
  }
  if (!tool_ || !tool_->usesKeyCursor() || event.modifiers().testFlag(Qt::ControlModifier)) {
    panBy(-kKeyPanPx * step);
    return true;
  }
  const double px = event.modifiers().testFlag(Qt::ShiftModifier) ? 1 : kKeyStepPx;
  QPointF at = keyCursor_ ? camera_.toScreen(*keyCursor_) + px * step : camera_.viewport().center();
  const QRectF v = camera_.viewport();
  if (!v.contains(at)) {
    panBy(-kKeyPanPx * step);
    at -= kKeyPanPx * step;
  }
  keyCursor_ = camera_.toBoard(at);
  emit cursorMoved(keyCursor_);
  tool_->move(toolPoint(at, Qt::NoModifier, false));
  update();
  return true;
}

bool FaceView::pressWithKey(const QKeyEvent& event) {
  const bool enter = event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter;
  if (!enter || !keyCursor_ || !tool_) return false;
  const QPointF at = camera_.toScreen(*keyCursor_);
  const auto keys = event.modifiers() & ~Qt::KeypadModifier;
  if (keys.testFlag(Qt::ControlModifier)) {
    tool_->doubleClick(toolPoint(at, Qt::NoModifier, false));
  } else {
    tool_->press(toolPoint(at, keys, true));
    tool_->release(toolPoint(at, keys, false));
  }
  update();
  return true;
}

void FaceView::keyPressEvent(QKeyEvent* event) {
  if (!board()) return QWidget::keyPressEvent(event);
  if (event->key() == Qt::Key_Space && !event->isAutoRepeat()) {
    spaceHeld_ = true;
    setCursor(Qt::OpenHandCursor);
    return;
  }
  if (event->key() == Qt::Key_Escape && keyCursor_) keyCursor_.reset();
  update();
  if (pressWithKey(*event)) return;
  if (tool_ && tool_->key(*event)) return;
  if (moveKeyCursor(*event)) return;
  switch (event->key()) {
    case Qt::Key_Plus:
    case Qt::Key_Equal:
      return zoom(kKeyZoom);
    case Qt::Key_Minus:
      return zoom(1 / kKeyZoom);
    case Qt::Key_0:
      return fitBoard();
    default:
      QWidget::keyPressEvent(event);
  }
}

void FaceView::keyReleaseEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Space && !event->isAutoRepeat()) {
    spaceHeld_ = false;
    setCursor(tool_ ? tool_->cursor() : QCursor(Qt::ArrowCursor));
  }
  QWidget::keyReleaseEvent(event);
}

}  // namespace rackside
