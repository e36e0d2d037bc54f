// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/shop_page.h"

#include <QFileDialog>
#include <QGridLayout>
#include <QLocale>
#include <QScrollArea>
#include <cmath>
#include <nlohmann/json.hpp>

#include "app/window/look/mark_look.h"
#include "app/window/look/text.h"
#include "app/window/pages/flow_layout.h"
#include "core/document/edits.h"
#include "core/storage/atomic_file.h"
#include "core/storage/json_forms.h"

namespace rackside {

namespace {

constexpr int kFieldWidth = 120;

// Kerfs and allowances are finer than what a board is measured to.
LengthStyle fine(LengthStyle style) {
  style.decimals = std::max(style.decimals, 1);
  style.denominator = 64;
  return style;
}

QString numberText(double value, ShopField::Unit unit, const LengthStyle& style) {
  if (unit == ShopField::Unit::length) return lengthText(value, fine(style));
  const QString text = QLocale().toString(value, 'g', 4);
  return unit == ShopField::Unit::percent ? QObject::tr("%1 %").arg(text) : text;
}

QLabel* label(const QString& text, const char* role) {
  auto* made = new QLabel(text);
  made->setWordWrap(true);
  made->setProperty("role", QString::fromLatin1(role));
  return made;
}

}  // namespace

ShopPage::ShopPage(Document& document, QWidget* parent) : QWidget(parent), document_(document) {
  build();
  connect(&document_, &Document::opened, this, &ShopPage::refresh);
  connect(&document_, &Document::changed, this, [this](const ChangeEvents& events) {
    for (const ChangeEvent& event : events)
      if (event.what == ChangeEvent::What::shop) return refresh();
  });
  refresh();
}

void ShopPage::build() {
  auto* inside = new QWidget;
  auto* column = new QVBoxLayout(inside);
  column->setContentsMargins(18, 14, 18, 14);
  column->setSpacing(10);
  column->addWidget(label(tr("The shop"), "title"));
  column->addWidget(
      label(tr("Plans and sheets go by these figures. They are kept with the rack; save "
               "them to use the same shop for another one."),
            "faint"));
  auto* buttons = new QWidget;
  auto* flow = new FlowLayout(buttons);
  flow->setContentsMargins(0, 0, 0, 0);
  save_.setText(tr("Save this shop as …"));
  use_.setText(tr("Use another shop …"));
  reset_.setText(tr("Reset all to default"));
  for (QPushButton* button : {&save_, &use_, &reset_}) flow->addWidget(button);
  column->addWidget(buttons);
  mistake_.setProperty("role", QStringLiteral("bad"));
  mistake_.setWordWrap(true);
  mistake_.hide();
  column->addWidget(&mistake_);
  for (const ShopGroup& group : shopGroups()) addGroup(*column, group);
  addClearances(*column);
  column->addStretch(1);
  connect(&save_, &QPushButton::clicked, this, &ShopPage::chooseSave);
  connect(&use_, &QPushButton::clicked, this, &ShopPage::chooseUse);
  connect(&reset_, &QPushButton::clicked, this, &ShopPage::resetAll);

  auto* scroll = new QScrollArea;
  scroll->setWidget(inside);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 0, 0, 0);
  all->addWidget(scroll);
}

void ShopPage::addGroup(QVBoxLayout& column, const ShopGroup& group) {
  column.addWidget(label(group.title, "group"));
  if (!group.lead.isEmpty()) column.addWidget(label(group.lead, "faint"));
  auto* grid = new QGridLayout;
  grid->setColumnStretch(3, 1);
  for (const ShopField& field : group.fields)
    addSetting(
        *grid, field.unit, field.label, field.why,
        [member = field.member](const Shop& shop) { return shop.*member; },
        [member = field.member](Shop& shop, double value) { shop.*member = value; });
  column.addLayout(grid);
}

void ShopPage::addClearances(QVBoxLayout& column) {
  column.addWidget(label(tr("Clearance round marks"), "group"));
  column.addWidget(label(tr("How far a part stays from each kind of mark; past the tips of checks "
                            "and splits, which run on unseen."),
                         "faint"));
  auto* grid = new QGridLayout;
  grid->setColumnStretch(3, 1);
  for (const MarkKind kind : allMarkKinds())
    addSetting(
        *grid, ShopField::Unit::length, markLook(kind).label, markLook(kind).meaning,
        [kind](const Shop& shop) { return shop.clearance(kind); },
        [kind](Shop& shop, double value) { shop.clearanceMm[kind] = value; });
  column.addLayout(grid);
}

void ShopPage::addSetting(QGridLayout& grid, ShopField::Unit unit, const QString& text,
                          const QString& why, std::function<double(const Shop&)> get,
                          std::function<void(Shop&, double)> put) {
  const int row = grid.rowCount();
  const size_t at = settings_.size();
  auto* name = new QLabel(text);
  name->setMinimumWidth(170);
  QLineEdit* edit = nullptr;
  if (unit == ShopField::Unit::length) {
    auto* length = new LengthEdit;
    connect(length, &LengthEdit::entered, this, [this, at](std::optional<double> mm) {
      enter(at, mm.value_or(settings_[at].get(Shop{})));
    });
    connect(length, &LengthEdit::mistaken, this, [this](const QString& fault) {
      mistake_.setText(fault);
      mistake_.setVisible(!fault.isEmpty());
    });
    edit = length;
  } else {
    edit = new QLineEdit;
    connect(edit, &QLineEdit::editingFinished, this, [this, at, edit] {
      if (!edit->isModified()) return;
      edit->setModified(false);
      bool number = false;
      QString typed = edit->text().remove(QLatin1Char('%')).trimmed();
      const double value = typed.replace(QLatin1Char(','), QLatin1Char('.')).toDouble(&number);
      number ? enter(at, value) : refresh();
    });
  }
  edit->setFixedWidth(kFieldWidth);
  edit->setAccessibleName(text);
  edit->setToolTip(why);
  name->setBuddy(edit);
  auto* usual = label({}, "faint");
  usual->setWordWrap(false);
  auto* reset = new QToolButton;
  reset->setText(tr("Reset"));
  reset->setAccessibleName(tr("Reset %1 to its default").arg(text));
  connect(reset, &QToolButton::clicked, this, [this, at] { enter(at, settings_[at].get(Shop{})); });
  auto* reason = label(why, "faint");
  grid.addWidget(name, row, 0);
  grid.addWidget(edit, row, 1);
  grid.addWidget(reset, row, 2);
  grid.addWidget(reason, row, 3);
  grid.addWidget(usual, row, 4);
  settings_.push_back({unit, edit, usual, reset, std::move(get), std::move(put)});
}

void ShopPage::enter(size_t at, double value) {
  Shop shop = document_.rack().shop;
  if (settings_[at].get(shop) == value) return refresh();
  settings_[at].put(shop, value);
  if (!document_.perform(changeShop(std::move(shop)))) refresh();
}

void ShopPage::refresh() {
  const Shop& shop = document_.rack().shop;
  const Shop usual;
  const LengthStyle style = document_.lengths();
  for (const Setting& s : settings_) {
    const double value = s.get(shop);
    if (auto* length = qobject_cast<LengthEdit*>(s.edit)) {
      length->setStyle(fine(style));
      length->setValue(value);
    } else if (!s.edit->isModified()) {
      s.edit->setText(numberText(value, s.unit, style));
    }
    s.usual->setText(tr("default %1").arg(numberText(s.get(usual), s.unit, style)));
    s.reset->setEnabled(std::abs(value - s.get(usual)) > 1e-9);
  }
  setEnabled(document_.isOpen());
}

void ShopPage::resetAll() {
  Shop shop = document_.rack().shop;
  const Shop usual;
  for (const Setting& s : settings_) s.put(shop, s.get(usual));
  (void)document_.perform(changeShop(std::move(shop)));
}

void ShopPage::chooseSave() {
  const QString file = QFileDialog::getSaveFileName(this, tr("Save this shop"), tr("shop.json"),
                                                    tr("Shop (*.json)"));
  if (!file.isEmpty()) saveShopTo(file);
}

void ShopPage::saveShopTo(const QString& file) {
  const Status done =
      writeFileAtomically(pathOf(file), toJson(document_.rack().shop).dump(2) + "\n");
  done ? emit said(tr("Saved to %1.").arg(file), false) : emit said(qt(done.error().message), true);
}

void ShopPage::chooseUse() {
  const QString file =
      QFileDialog::getOpenFileName(this, tr("Use another shop"), {}, tr("Shop (*.json)"));
  if (!file.isEmpty()) useShopFrom(file);
}

void ShopPage::useShopFrom(const QString& file) {
  const auto bytes = readFile(pathOf(file));
  if (!bytes) return emit said(qt(bytes.error().message), true);
  const auto json = nlohmann::json::parse(*bytes, nullptr, false);
  auto shop = shopFromJson(json.is_discarded() ? nlohmann::json() : json);
  if (!shop) return emit said(qt(shop.error().message), true);
  shop.value().show = document_.lengths();  // units are the maker's, not the shop's
  if (document_.perform(changeShop(*shop)))
    emit said(tr("This rack now goes by the shop of %1.").arg(file), false);
}

}  // namespace rackside
