// SPDX-License-Identifier: GPL-3.0-or-later
// The board, large: its picture, what lies over it, rulers, and the tool in hand.
#pragma once

#include <QElapsedTimer>
#include <QWidget>
#include <functional>
#include <memory>
#include <optional>

#include "app/window/document/choice.h"
#include "app/window/document/document.h"
#include "app/window/face/face_camera.h"
#include "app/window/face/face_scene.h"
#include "app/window/face/picture_source.h"
#include "app/window/tools/tool.h"

namespace rackside {

class FaceView : public QWidget {
  Q_OBJECT
 public:
  FaceView(Document& document, Choice& choice, QWidget* parent = nullptr);
  ~FaceView() override;

  Document& document() const { return document_; }
  Choice& choice() const { return choice_; }
  const Board* board() const { return document_.rack().findBoard(choice_.board()); }
  const FaceCamera& camera() const { return camera_; }
  const FaceScene& scene() const { return scene_; }

  // Where the plan to show comes from; without it the rack's own is shown.
  void setPlanSource(std::function<const Plan*()> source);
  void refreshPlan() { rebuild({}); }

  void setTool(Tool* tool);  // not owned
  Tool* tool() const { return tool_; }
  const FaceLayers& layers() const { return layers_; }
  void setLayers(const FaceLayers& layers);

  void fitBoard();
  void fitRect(const Rect& board);
  void zoom(double factor);  // about the middle
  void panBy(QPointF pixels);
  void turnOver(bool over);  // as it lies, or in the frame of face A

  double mmPerScreenPx() const { return 1 / camera_.pxPerMm(); }
  double hitToleranceMm() const { return 6 * mmPerScreenPx(); }
  // The nearest point of the outline within a few pixels.
  std::optional<Point> snapToOutline(Point board) const;
  // One standard deviation of a point set by hand here: half a screen pixel or half a picture
  // pixel, whichever is coarser.
  double pointingSigmaMm() const;

  // The tiles of the picture in view, null while there are none, and where they lie.
  std::shared_ptr<const TilePyramid> tiles() const;
  const std::array<double, 6>& boardFromPicture() const { return boardFromPicture_; }

  // False until the picture is there as sharp as it can be shown.
  bool sharp() const { return sharp_; }
  double lastFrameMs() const { return lastFrameMs_; }
  void showHint();

 signals:
  void hintChanged(const QString& hint);
  void layersChanged();
  void cursorMoved(std::optional<rackside::Point> board);
  void viewMoved();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void keyReleaseEvent(QKeyEvent* event) override;
  void leaveEvent(QEvent* event) override;
  bool event(QEvent* event) override;

 private:
  void changeBoard();
  void changePicture();
  void rebuild(const ChangeEvents& events);
  void moved();
  ToolPoint toolPoint(QPointF at, Qt::KeyboardModifiers keys, bool down) const;
  bool moveKeyCursor(const QKeyEvent& event);
  bool pressWithKey(const QKeyEvent& event);
  void paintEmpty(QPainter& painter) const;
  void paintPicture(QPainter& painter);
  void paintPictureThrough(QPainter& painter, const FaceCamera& camera);
  std::optional<FaceCamera> closeLook();  // its camera, where there is room for one
  void paintCloseLook(QPainter& painter, const FaceCamera& close);
  void paintRulers(QPainter& painter, const std::optional<FaceCamera>& close);
  void paintKeyCursor(QPainter& painter) const;
  Rect boardBox() const;

  Document& document_;
  Choice& choice_;
  FaceCamera camera_;
  FaceScene scene_;
  std::function<const Plan*()> planSource_;
  FaceLayers layers_;
  std::unique_ptr<PictureSource> picture_;
  std::array<double, 6> boardFromPicture_{};
  QString pictureFile_;
  Tool* tool_ = nullptr;
  std::optional<Point> cursor_;     // of the mouse, board mm
  std::optional<Point> keyCursor_;  // of the arrow keys
  std::optional<QPointF> panFrom_;
  double closeX_ = 0;  // where the close look looks, board mm
  bool sharp_ = false;
  bool spaceHeld_ = false;
  bool fitted_ = false;  // until the maker zooms, a new size fits the board again
  double lastFrameMs_ = 0;
};

}  // namespace rackside
