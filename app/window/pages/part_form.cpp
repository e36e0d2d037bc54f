// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/part_form.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLineEdit>
#include <QPainter>
#include <QPainterPath>
#include <QScrollArea>
#include <QToolButton>
#include <QVBoxLayout>
#include <cmath>

#include "app/window/look/text.h"
#include "app/window/look/theme.h"
#include "app/window/pages/flow_layout.h"

namespace rackside {

namespace {

const QColor kWood(0xD9, 0xB3, 0x82), kGrain(0xA9, 0x7A, 0x45);

int columnOf(const char* heading) {
  return PartsRow::columnNamed(QLatin1String(heading));
}

QString lookTitle(Look look) {
  switch (look) {
    case Look::straight:
      return QObject::tr("straight grain");
    case Look::archCentred:
      return QObject::tr("arch in the middle");
    case Look::lively:
      return QObject::tr("lively");
    case Look::evenColour:
      return QObject::tr("even colour");
    case Look::any:
      break;
  }
  return QObject::tr("any");
}

// What a face of that look is like, in a few strokes.
QPixmap lookPicture(Look look) {
  constexpr int kWide = 64, kHigh = 34;
  QPixmap picture(kWide, kHigh);
  picture.fill(kWood);
  QPainter p(&picture);
  p.setRenderHint(QPainter::Antialiasing);
  p.setPen(QPen(kGrain, 1.2));
  const double middle = kHigh / 2.0;
  for (int i = -4; i <= 4; ++i) {
    QPainterPath line;
    if (look == Look::archCentred) {
      line.moveTo(4, middle - 3.6 * std::abs(i));
      line.cubicTo(kWide * 0.6, middle - 3.6 * std::abs(i), kWide - 6.0 * (5 - std::abs(i)),
                   middle - 1.0 * std::abs(i), kWide - 6.0 * (5 - std::abs(i)), middle);
      p.drawPath(line);
      p.drawPath(line * QTransform(1, 0, 0, -1, 0, kHigh));
      continue;
    }
    const double bend = look == Look::lively ? 5 : look == Look::any ? 1.5 : 0;
    line.moveTo(0, middle + 4 * i);
    for (int x = 4; x <= kWide; x += 4)
      line.lineTo(x, middle + 4 * i + bend * std::sin(x * 0.25 + i * (look == Look::any ? 1 : 0)));
    if (look != Look::evenColour) p.drawPath(line);
  }
  p.setPen(QPen(colours().line, 1));
  p.drawRect(0, 0, kWide - 1, kHigh - 1);
  return picture;
}

}  // namespace

bool isRareColumn(int column) {
  static const std::vector<int> usual{columnOf("name"),  columnOf("copies"),    columnOf("length"),
                                      columnOf("width"), columnOf("thickness"), columnOf("species"),
                                      columnOf("shows"), columnOf("glue up"),   columnOf("note")};
  return std::find(usual.begin(), usual.end(), column) == usual.end();
}

PartPicture::PartPicture(QWidget* parent) : QWidget(parent) {
  setMinimumHeight(96);
  setAccessibleName(tr("The selected part"));
}

void PartPicture::show(const Part* part, const LengthStyle& style) {
  part_ = part ? std::optional(*part) : std::nullopt;
  style_ = style;
  update();
}

void PartPicture::paintEvent(QPaintEvent*) {
  if (!part_) return;
  QPainter p(this);
  p.setRenderHint(QPainter::Antialiasing);
  const int line = fontMetrics().height();
  const QRectF room = QRectF(rect()).adjusted(2, 2, -2, -line - 4);
  const double scale = std::min(room.width() / part_->lengthMm, room.height() / part_->widthMm);
  const QSizeF size(part_->lengthMm * scale, part_->widthMm * scale);
  const QRectF box(QPointF(room.left(), room.center().y() - size.height() / 2), size);
  QPainterPath shape;
  if (part_->outline) {
    QPolygonF polygon;
    for (const Point q : *part_->outline)
      polygon << QPointF(box.left() + q.x * scale, box.bottom() - q.y * scale);
    shape.addPolygon(polygon);
    shape.closeSubpath();
  } else {
    shape.addRect(box);
  }
  p.fillPath(shape, kWood);
  p.setClipPath(shape);
  p.setPen(QPen(kGrain, 1));
  if (part_->grain == GrainRule::along)
    for (double y = box.top() + 4; y < box.bottom(); y += 6)
      p.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
  p.setClipping(false);
  p.setPen(QPen(colours().ink, 1));
  p.drawPath(shape);
  p.drawText(QRectF(rect()).adjusted(2, 0, 0, 0), Qt::AlignLeft | Qt::AlignBottom,
             QStringLiteral("%1 × %2 × %3")
                 .arg(lengthText(part_->lengthMm, style_), lengthText(part_->widthMm, style_),
                      lengthText(part_->thicknessMm, style_)));
}

PartForm::PartForm(PartsModel& model, Document& document, QWidget* parent)
    : QWidget(parent), model_(model), document_(document) {
  build();
  connect(&model_, &QAbstractItemModel::dataChanged, this, &PartForm::refresh);
  connect(&model_, &QAbstractItemModel::modelReset, this, &PartForm::refresh);
  refresh();
}

QWidget* PartForm::buildLooks() {
  auto* box = new QWidget;
  auto* flow = new FlowLayout(box);
  flow->setContentsMargins(0, 0, 0, 0);
  for (const Look look :
       {Look::any, Look::straight, Look::archCentred, Look::lively, Look::evenColour}) {
    auto* button = new QToolButton;
    button->setIcon(lookPicture(look));
    button->setIconSize({64, 34});
    button->setText(lookTitle(look));
    button->setToolButtonStyle(Qt::ToolButtonTextUnderIcon);
    button->setCheckable(true);
    button->setAccessibleName(tr("Look: %1").arg(lookTitle(look)));
    looks_.addButton(button, static_cast<int>(look));
    flow->addWidget(button);
  }
  connect(&looks_, &QButtonGroup::idClicked, this, [this](int id) {
    model_.setData(model_.index(row_, columnOf("look")), qt(name(static_cast<Look>(id))),
                   Qt::EditRole);
  });
  return box;
}

QWidget* PartForm::fieldFor(int column) {
  const QStringList choices = model_.choices(column);
  const auto type = [this, column](const QString& text) {
    model_.setData(model_.index(row_, column), text, Qt::EditRole);
  };
  if (choices.isEmpty()) {
    auto* edit = new QLineEdit;
    connect(edit, &QLineEdit::editingFinished, this, [edit, type] {
      if (!edit->isModified()) return;
      edit->setModified(false);
      type(edit->text());
    });
    return edit;
  }
  auto* box = new QComboBox;
  box->addItems(choices);
  connect(box, &QComboBox::textActivated, this, type);
  return box;
}

void PartForm::build() {
  title_.setProperty("role", QStringLiteral("group"));
  title_.setWordWrap(true);
  mistake_.setProperty("role", QStringLiteral("bad"));
  mistake_.setWordWrap(true);
  auto* inside = new QWidget;
  auto* column = new QVBoxLayout(inside);
  column->setContentsMargins(12, 4, 4, 4);
  column->addWidget(&title_);
  column->addWidget(&picture_);
  column->addWidget(new QLabel(tr("Look")));
  column->addWidget(buildLooks());
  auto* form = new QFormLayout;
  form->setRowWrapPolicy(QFormLayout::WrapLongRows);
  for (int at = 0; at < model_.columnCount(); ++at) {
    if (!isRareColumn(at) || at == columnOf("look")) continue;
    QWidget* field = fieldFor(at);
    field->setAccessibleName(PartsRow::title(at));
    form->addRow(PartsRow::title(at), field);
    fields_[at] = field;
  }
  column->addLayout(form);
  column->addWidget(&mistake_);
  column->addStretch(1);
  auto* scroll = new QScrollArea;
  scroll->setWidget(inside);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 0, 0, 0);
  all->addWidget(scroll);
}

// What is still being typed belongs to the row it was typed for.
void PartForm::setRow(int row) {
  if (row == row_ || row < 0) return;
  for (const auto& [column, field] : fields_)
    if (auto* edit = qobject_cast<QLineEdit*>(field); edit && edit->isModified())
      emit edit->editingFinished();
  row_ = row;
  refresh();
}

void PartForm::refresh() {
  const PartsRow* row = model_.rowAt(row_);
  const bool there = row && !row->blank();
  setEnabled(there);
  const QString part = there ? row->text(columnOf("name"), document_.lengths()) : QString();
  title_.setText(there ? part : tr("Select a part to see what else it may ask for."));
  picture_.show(there ? row->part() : nullptr, document_.lengths());
  QString mistake;
  for (const auto& [column, field] : fields_) {
    const QString text = there ? row->text(column, document_.lengths()) : QString();
    if (auto* edit = qobject_cast<QLineEdit*>(field)) {
      if (!edit->isModified()) edit->setText(text);
    } else if (auto* box = qobject_cast<QComboBox*>(field)) {
      box->setCurrentIndex(box->findText(text));
    }
    if (there && mistake.isEmpty()) mistake = row->mistake(column);
  }
  mistake_.setText(mistake);
  mistake_.setVisible(!mistake.isEmpty());
  const auto look =
      there ? lookFromName(plain(row->text(columnOf("look"), document_.lengths()))) : std::nullopt;
  if (QAbstractButton* button = looks_.button(static_cast<int>(look.value_or(Look::any))))
    button->setChecked(true);
}

}  // namespace rackside
