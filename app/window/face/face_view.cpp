// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/face/face_view.h"

#include <QPainter>
#include <cmath>

#include "app/window/face/ruler.h"
#include "app/window/look/text.h"
#include "app/window/look/theme.h"

namespace rackside {

namespace {

constexpr double kFitMarginPx = 40;
constexpr double kSnapPx = 7;

Point nearestOn(const Segment& s, Point p) {
  const Point d = s.to - s.from;
  const double square = dot(d, d);
  const double t = square > 0 ? std::clamp(dot(p - s.from, d) / square, 0.0, 1.0) : 0;
  return s.from + t * d;
}

}  // namespace

FaceView::FaceView(Document& document, Choice& choice, QWidget* parent)
    : QWidget(parent), document_(document), choice_(choice) {
  setObjectName(QStringLiteral("faceView"));
  setMouseTracking(true);
  setFocusPolicy(Qt::StrongFocus);
  setAttribute(Qt::WA_OpaquePaintEvent);
  setMinimumSize(320, 180);
  setAccessibleName(tr("The board's face"));
  connect(&document_, &Document::opened, this, &FaceView::changeBoard);
  connect(&document_, &Document::changed, this, &FaceView::rebuild);
  connect(&choice_, &Choice::boardChosen, this, &FaceView::changeBoard);
  connect(&choice_, &Choice::faceChanged, this, [this] { rebuild({}); });
  connect(&choice_, &Choice::thingChosen, this, [this] {
    if (const auto middle = scene_.middleOf(choice_.mark(), choice_.piece())) closeX_ = middle->x;
    update();
  });
  connect(&Theme::instance(), &Theme::changed, this, [this] { update(); });
}

FaceView::~FaceView() = default;

void FaceView::setPlanSource(std::function<const Plan*()> source) {
  planSource_ = std::move(source);
  rebuild({});
}

void FaceView::setTool(Tool* tool) {
  if (tool_) tool_->cancel();
  tool_ = tool;
  keyCursor_.reset();
  if (tool_) setCursor(tool_->cursor());
  showHint();
  update();
}

void FaceView::showHint() {
  emit hintChanged(tool_ && board() ? tool_->hint() : QString());
}

void FaceView::setLayers(const FaceLayers& layers) {
  if (layers == layers_) return;
  layers_ = layers;
  emit layersChanged();
  update();
}

void FaceView::changeBoard() {
  if (tool_) tool_->cancel();
  keyCursor_.reset();
  rebuild({});
  fitBoard();
}

void FaceView::rebuild(const ChangeEvents& events) {
  const bool ours = events.empty() || std::any_of(events.begin(), events.end(), [&](const auto& e) {
                      return e.board.empty() || e.board == choice_.board();
                    });
  if (!ours) return;
  const auto& own = document_.rack().plan;
  const Plan* plan = planSource_ ? planSource_() : own ? &*own : nullptr;
  scene_.rebuild(document_.rack(), plan, choice_.board(), choice_.face());
  changePicture();
  if (tool_) tool_->refresh();
  showHint();
  update();
}

void FaceView::changePicture() {
  const Board* now = board();
  const Picture* picture = now ? now->newestPicture(choice_.face()) : nullptr;
  const QString file = picture ? qtPath(document_.pictureFile(*now, *picture)) : QString();
  if (picture) boardFromPicture_ = picture->boardFromPicture;
  if (file == pictureFile_) return;
  pictureFile_ = file;
  picture_.reset();
  if (file.isEmpty()) return;
  picture_ = std::make_unique<PictureSource>(file);
  connect(picture_.get(), &PictureSource::arrived, this, [this] { update(); });
}

Rect FaceView::boardBox() const {
  const Board* now = board();
  if (!now || now->outline.vertices.empty()) return {0, 0, 1000, 200};
  return bounds(now->outline.polygon());
}

void FaceView::moved() {
  camera_.keepNear(boardBox());
  update();
  emit viewMoved();
}

void FaceView::fitRect(const Rect& rect) {
  camera_.fit(rect, kFitMarginPx);
  fitted_ = false;
  moved();
}

void FaceView::fitBoard() {
  fitRect(boardBox());
  // With a close look below it, a long board lies in the upper part of the view.
  if (boardBox().height() * camera_.pxPerMm() < 0.3 * camera_.viewport().height()) {
    camera_.panBy({0, -0.22 * camera_.viewport().height()});
    update();
  }
  fitted_ = true;
}

void FaceView::zoom(double factor) {
  camera_.zoomAt(camera_.viewport().center(), factor);
  fitted_ = false;
  moved();
}

void FaceView::panBy(QPointF pixels) {
  camera_.panBy(pixels);
  fitted_ = false;
  moved();
}

void FaceView::turnOver(bool over) {
  camera_.setTurnedOver(over);
  moved();
}

std::optional<Point> FaceView::snapToOutline(Point p) const {
  const Board* now = board();
  if (!now) return std::nullopt;
  const auto& v = now->outline.vertices;
  std::optional<Point> best;
  double bestMm = kSnapPx * mmPerScreenPx();
  for (size_t i = 0; i < v.size(); ++i) {
    const Point q = nearestOn({v[i].at, v[(i + 1) % v.size()].at}, p);
    if (norm(q - p) > bestMm) continue;
    bestMm = norm(q - p);
    best = q;
  }
  return best;
}

double FaceView::pointingSigmaMm() const {
  const Board* now = board();
  const Picture* picture = now ? now->newestPicture(choice_.face()) : nullptr;
  return 0.5 * std::max(mmPerScreenPx(), picture ? picture->mmPerPx : 1.0);
}

std::shared_ptr<const TilePyramid> FaceView::tiles() const {
  return picture_ ? picture_->tiles() : nullptr;
}

void FaceView::paintEvent(QPaintEvent*) {
  QElapsedTimer timer;
  timer.start();
  QPainter painter(this);
  painter.fillRect(rect(), colours().stage);
  if (!board()) {
    paintEmpty(painter);
    return;
  }
  painter.setClipRect(camera_.viewport());
  sharp_ = true;
  if (layers_.picture) paintPicture(painter);
  painter.setRenderHint(QPainter::Antialiasing);
  scene_.paint(painter, camera_, layers_, choice_.mark(), choice_.piece(), document_.lengths());
  if (tool_) tool_->paintOver(painter);
  paintKeyCursor(painter);
  const auto close = closeLook();
  if (close) paintCloseLook(painter, *close);
  painter.setClipping(false);
  paintRulers(painter, close);
  if (hasFocus()) {
    painter.setPen(QPen(colours().accent, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(QRectF(rect()).adjusted(1, 1, -1, -1));
  }
  lastFrameMs_ = static_cast<double>(timer.nsecsElapsed()) / 1e6;
}

void FaceView::paintPicture(QPainter& painter) {
  if (!picture_) {
    painter.setPen(colours().faint);
    painter.drawText(camera_.viewport().adjusted(0, 8, 0, 0), Qt::AlignHCenter | Qt::AlignTop,
                     tr("Face %1 has not been photographed: it is unseen, not clear.")
                         .arg(choice_.face() == Face::A ? "A" : "B"));
    return;
  }
  if (!picture_->failure().isEmpty()) {
    painter.setPen(colours().bad);
    painter.drawText(camera_.viewport().adjusted(0, 8, 0, 0), Qt::AlignHCenter | Qt::AlignTop,
                     picture_->failure());
  }
  paintPictureThrough(painter, camera_);
}

// Stored for pixel centres at integers; the painter counts corners, half a pixel away.
void FaceView::paintPictureThrough(QPainter& painter, const FaceCamera& camera) {
  if (!picture_) return;
  const auto& m = boardFromPicture_;
  const QTransform boardFromPixel(m[0], m[3], m[1], m[4], m[2], m[5]);
  const QTransform t =
      QTransform::fromTranslate(-0.5, -0.5) * boardFromPixel * camera.screenFromBoard();
  picture_->paint(painter, t, camera.viewport(), true);
  sharp_ = sharp_ && (picture_->sharp() || !picture_->failure().isEmpty());
}

// A long board is a thin line across the view. Below it, where nothing else is, a stretch of it is
// shown large: the place under the pointer, or the mark or piece in hand.
std::optional<FaceCamera> FaceView::closeLook() {
  const QRectF v = camera_.viewport();
  const Rect b = boardBox();
  const double bottom = camera_.toScreen({0, b.y0}).y();
  QRectF band(v.left() + 14, bottom + 34, v.width() - 28, v.bottom() - bottom - 48);
  band.setHeight(std::min(band.height(), 0.42 * v.height()));
  if (!fitted_ || band.height() < 110) return std::nullopt;
  if (cursor_ && cursor_->y > b.y0 - 30 / camera_.pxPerMm()) closeX_ = cursor_->x;
  FaceCamera close = camera_;
  close.setViewport(band);
  const double halfMm = 0.5 * band.width() * 1.16 * b.height() / band.height();
  if (2 * halfMm > 0.8 * b.width()) return std::nullopt;  // no closer than the board itself
  const double x = std::clamp(closeX_, b.x0 + halfMm - 20, b.x1 - halfMm + 20);
  close.fit({x - halfMm, b.y0 - 0.08 * b.height(), x + halfMm, b.y1 + 0.08 * b.height()}, 0);
  return close;
}

void FaceView::paintCloseLook(QPainter& painter, const FaceCamera& close) {
  const QRectF band = close.viewport();
  const Rect b = boardBox(), seen = close.visible();
  painter.save();
  painter.setPen(QPen(colours().accent, 1.5));
  painter.setBrush(Qt::NoBrush);
  const QRectF where(camera_.toScreen({seen.x0, b.y1}), camera_.toScreen({seen.x1, b.y0}));
  painter.drawRect(where.normalized().adjusted(0, -7, 0, 7));
  painter.setClipRect(band, Qt::IntersectClip);
  painter.fillRect(band, colours().page);
  if (layers_.picture) paintPictureThrough(painter, close);
  scene_.paint(painter, close, layers_, choice_.mark(), choice_.piece(), document_.lengths());
  painter.setPen(QPen(colours().accent, 1.5));
  painter.setBrush(Qt::NoBrush);
  painter.drawRect(band.adjusted(1, 1, -1, -1));
  painter.restore();
}

// The left ruler is the board's down to the close look and the close look's beside it: each has its
// own scale.
void FaceView::paintRulers(QPainter& painter, const std::optional<FaceCamera>& close) {
  painter.setFont(font());  // items leave theirs
  const auto cursor = keyCursor_ ? keyCursor_ : cursor_;
  const Ruler whole{camera_, document_.lengths(), cursor};
  const QRectF v = camera_.viewport();
  QRectF left(0, v.top(), kRulerPx, v.height());
  painter.fillRect(left, colours().card);
  if (close) {
    const QRectF band = close->viewport();
    left.setBottom(band.top() - 17);
    paintLeftRuler(painter, {0, band.top(), kRulerPx, band.height()},
                   {*close, document_.lengths(), cursor});
  }
  paintLeftRuler(painter, left, whole);
  paintTopRuler(painter, {kRulerPx, 0, v.width(), kRulerPx}, whole);
  paintRulerCorner(painter, document_.lengths());
}

void FaceView::paintEmpty(QPainter& painter) const {
  painter.setPen(colours().faint);
  painter.drawText(rect(), Qt::AlignCenter, tr("Choose a board in the list on the left."));
}

void FaceView::paintKeyCursor(QPainter& painter) const {
  if (!keyCursor_) return;
  const QPointF at = camera_.toScreen(*keyCursor_);
  for (const auto& [colour, width] :
       {std::pair(QColor(0, 0, 0, 150), 4.0), std::pair(QColor(Qt::white), 1.5)}) {
    painter.setPen(QPen(colour, width));
    painter.drawLine(at - QPointF(14, 0), at + QPointF(14, 0));
    painter.drawLine(at - QPointF(0, 14), at + QPointF(0, 14));
  }
}

void FaceView::resizeEvent(QResizeEvent*) {
  camera_.setViewport(QRectF(rect()).adjusted(kRulerPx, kRulerPx, 0, 0));
  if (fitted_) fitBoard();
}

}  // namespace rackside
