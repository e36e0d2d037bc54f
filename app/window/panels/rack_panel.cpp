// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panels/rack_panel.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QVBoxLayout>

#include "app/window/face/face_item.h"
#include "app/window/look/text.h"
#include "app/window/look/theme.h"
#include "core/geometry/polygon.h"

namespace rackside {

namespace {

constexpr int kPad = 8;
constexpr int kBoardHeight = 34;  // room for a board 300 mm wide at the list's usual scale

QString sizeText(const BoardFacts& f, const LengthStyle& style) {
  QString text =
      QStringLiteral("%1 × %2").arg(lengthText(f.lengthMm, style), lengthText(f.widthMm, style));
  if (f.thicknessMm > 0) text += QStringLiteral(" × %1").arg(lengthText(f.thicknessMm, style));
  return text;
}

}  // namespace

BoardDelegate::BoardDelegate(Document& document, RackFilter& filter, Thumbnails& thumbnails,
                             QObject* parent)
    : QStyledItemDelegate(parent), document_(document), filter_(filter), thumbnails_(thumbnails) {}

const RackRow& BoardDelegate::rowAt(const QModelIndex& index) const {
  return filter_.rack().row(filter_.mapToSource(index).row());
}

QSize BoardDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const {
  return {200, 3 * option.fontMetrics.height() + kBoardHeight + 2 * kPad + 6};
}

// All boards of the list share one scale, so that long and wide are told at a glance.
void BoardDelegate::paintBoard(QPainter& painter, const QRectF& box, const RackRow& row) const {
  if (row.outline.size() < 3) return;
  const double scale = box.width() / std::max(filter_.rack().longestMm(), 1.0);
  const Rect b = bounds(row.outline);
  const double high = std::min(scale, box.height() / std::max(b.height(), 1.0));
  const QTransform screenFromBoard(scale, 0, 0, -high, box.left() - scale * b.x0,
                                   box.center().y() + high * (b.y0 + b.y1) / 2);
  const QPainterPath shape = screenFromBoard.map(pathOf(row.outline));
  painter.save();
  painter.setPen(Qt::NoPen);
  painter.setBrush(colours().line);
  painter.drawPath(shape);
  const QPixmap picture = thumbnails_.of(row.pictureFile);
  if (!picture.isNull() && !row.pictureSize.isEmpty()) {
    painter.setClipPath(shape, Qt::IntersectClip);
    const auto& m = row.boardFromPicture;
    const QTransform boardFromPixel(m[0], m[3], m[1], m[4], m[2], m[5]);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.setTransform(
        QTransform::fromScale(row.pictureSize.width() / double(picture.width()),
                              row.pictureSize.height() / double(picture.height())) *
            boardFromPixel * screenFromBoard,
        true);
    painter.drawPixmap(0, 0, picture);
  }
  painter.restore();
}

void BoardDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
  const RackRow& row = rowAt(index);
  const Colours& c = colours();
  const bool chosen = option.state.testFlag(QStyle::State_Selected);
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  painter->setClipRect(option.rect);
  if (chosen) {
    QColor wash = c.accent;
    wash.setAlpha(Theme::instance().dark() ? 60 : 34);
    painter->fillRect(option.rect, wash);
    painter->fillRect(QRect(option.rect.topLeft(), QSize(4, option.rect.height())), c.accent);
  }
  const QRect in = option.rect.adjusted(kPad + 4, kPad, -kPad, -kPad);
  const int line = option.fontMetrics.height();

  QFont bold = option.font;
  bold.setBold(true);
  painter->setFont(bold);
  painter->setPen(c.ink);
  const QString feet = tr("%1 bd ft").arg(row.facts.boardFeet, 0, 'f', 1);
  const int feetWidth = QFontMetrics(option.font).horizontalAdvance(feet) + 8;
  QString title = row.facts.name;
  if (row.facts.tag && title != QString::number(*row.facts.tag))
    title = QStringLiteral("%1 · %2").arg(*row.facts.tag).arg(title);
  const QRect top(in.left(), in.top(), in.width(), line);
  painter->drawText(top.adjusted(0, 0, -feetWidth, 0), Qt::AlignLeft | Qt::AlignVCenter,
                    QFontMetrics(bold).elidedText(title, Qt::ElideRight, top.width() - feetWidth));
  painter->setFont(option.font);
  painter->drawText(top, Qt::AlignRight | Qt::AlignVCenter, feet);

  paintBoard(*painter, QRectF(in.left(), in.top() + line + 3, in.width(), kBoardHeight), row);

  painter->setPen(c.faint);
  const QRect second(in.left(), in.top() + line + kBoardHeight + 6, in.width(), line);
  QString size = sizeText(row.facts, document_.lengths());
  if (!row.facts.species.isEmpty()) size = row.facts.species + QStringLiteral("  ") + size;
  painter->drawText(second, Qt::AlignLeft | Qt::AlignVCenter,
                    option.fontMetrics.elidedText(size, Qt::ElideRight, second.width()));
  QString third;
  if (!row.facts.state.isEmpty()) {
    painter->setPen(c.bad);
    third = row.facts.state;
  } else if (!row.lacks.isEmpty()) {
    painter->setPen(c.warn);
    third = tr("missing: %1").arg(row.lacks.join(QStringLiteral(", ")));
  } else if (row.facts.pieces > 0) {
    painter->setPen(c.good);
    third = row.facts.pieces == 1 ? tr("1 piece planned")
                                  : tr("%1 pieces planned").arg(row.facts.pieces);
  }
  const QRect last = second.translated(0, line);
  painter->drawText(last, Qt::AlignLeft | Qt::AlignVCenter,
                    option.fontMetrics.elidedText(third, Qt::ElideRight, last.width()));
  painter->setPen(c.line);
  painter->drawLine(option.rect.bottomLeft(), option.rect.bottomRight());
  painter->restore();
}

RackPanel::RackPanel(Document& document, Choice& choice, QWidget* parent)
    : QWidget(parent), document_(document), choice_(choice), model_(document), filter_(model_) {
  build();
  connect(&choice_, &Choice::boardChosen, this, &RackPanel::follow);
  connect(list_.selectionModel(), &QItemSelectionModel::currentChanged, this,
          [this](const QModelIndex& now) {
            if (now.isValid())
              choice_.setBoard(model_.row(filter_.mapToSource(now).row()).facts.id);
          });
  connect(&thumbnails_, &Thumbnails::arrived, this, [this] { list_.viewport()->update(); });
  connect(&model_, &QAbstractItemModel::modelReset, this, [this] {
    follow();
    count();
  });
  connect(&model_, &QAbstractItemModel::dataChanged, this, &RackPanel::count);
  connect(&filter_, &QAbstractItemModel::rowsInserted, this, &RackPanel::count);
  connect(&filter_, &QAbstractItemModel::rowsRemoved, this, &RackPanel::count);
  count();
}

void RackPanel::build() {
  setMinimumWidth(230);
  search_.setPlaceholderText(tr("Find: tag, name, species, location"));
  search_.setClearButtonEnabled(true);
  search_.setAccessibleName(tr("Find boards"));
  search_.setObjectName(QStringLiteral("rackSearch"));
  connect(&search_, &QLineEdit::textChanged, &filter_, &RackFilter::setWords);

  order_.addItem(tr("by number"), static_cast<int>(RackOrder::number));
  order_.addItem(tr("longest first"), static_cast<int>(RackOrder::length));
  order_.addItem(tr("widest first"), static_cast<int>(RackOrder::width));
  order_.addItem(tr("most board feet"), static_cast<int>(RackOrder::boardFeet));
  order_.addItem(tr("thickest first"), static_cast<int>(RackOrder::thickness));
  order_.addItem(tr("most missing"), static_cast<int>(RackOrder::missing));
  order_.setAccessibleName(tr("Order of the boards"));
  connect(&order_, &QComboBox::currentIndexChanged, this,
          [this] { filter_.setOrder(static_cast<RackOrder>(order_.currentData().toInt())); });
  show_.addItem(tr("all boards"), static_cast<int>(RackShow::all));
  show_.addItem(tr("something missing"), static_cast<int>(RackShow::missing));
  show_.addItem(tr("in the plan"), static_cast<int>(RackShow::used));
  show_.addItem(tr("not in the plan"), static_cast<int>(RackShow::unused));
  show_.addItem(tr("sold, reserved or set aside"), static_cast<int>(RackShow::spokenFor));
  show_.setAccessibleName(tr("Which boards are shown"));
  connect(&show_, &QComboBox::currentIndexChanged, this,
          [this] { filter_.setShow(static_cast<RackShow>(show_.currentData().toInt())); });

  list_.setModel(&filter_);
  list_.setItemDelegate(new BoardDelegate(document_, filter_, thumbnails_, this));
  list_.setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  list_.setUniformItemSizes(true);
  list_.setObjectName(QStringLiteral("rackList"));
  list_.setAccessibleName(tr("Boards of the rack"));
  list_.setFrameShape(QFrame::NoFrame);
  list_.setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);

  auto* head = new QVBoxLayout;
  head->setContentsMargins(10, 10, 10, 6);
  head->addWidget(&search_);
  auto* row = new QHBoxLayout;
  row->addWidget(&order_, 1);
  row->addWidget(&show_, 1);
  head->addLayout(row);
  for (QComboBox* box : {&order_, &show_})
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  total_.setProperty("role", QStringLiteral("faint"));
  total_.setContentsMargins(10, 4, 10, 6);
  total_.setWordWrap(true);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addLayout(head);
  column->addWidget(&list_, 1);
  column->addWidget(&total_);
}

void RackPanel::follow() {
  const int row = model_.rowOf(choice_.board());
  if (row < 0) return list_.clearSelection();
  const QModelIndex at = filter_.mapFromSource(model_.index(row));
  if (at.isValid() && at != list_.currentIndex()) list_.setCurrentIndex(at);
}

void RackPanel::step(int by) {
  const int rows = filter_.rowCount();
  if (rows == 0) return;
  const int at = list_.currentIndex().isValid() ? list_.currentIndex().row() + by : 0;
  list_.setCurrentIndex(filter_.index(std::clamp(at, 0, rows - 1), 0));
}

void RackPanel::count() {
  double feet = 0;
  for (int i = 0; i < filter_.rowCount(); ++i)
    feet += model_.row(filter_.mapToSource(filter_.index(i, 0)).row()).facts.boardFeet;
  const QString boards =
      filter_.rowCount() == 1 ? tr("1 board") : tr("%1 boards").arg(filter_.rowCount());
  total_.setText(filter_.rowCount() == model_.rowCount()
                     ? tr("%1, %2 board feet").arg(boards).arg(feet, 0, 'f', 1)
                     : tr("%1 of %2 shown, %3 board feet")
                           .arg(boards)
                           .arg(model_.rowCount())
                           .arg(feet, 0, 'f', 1));
}

}  // namespace rackside
