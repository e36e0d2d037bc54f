// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panels/length_edit.h"

#include <QStyle>

#include "app/window/look/text.h"
#include "app/window/look/theme.h"

namespace rackside {

LengthEdit::LengthEdit(QWidget* parent) : QLineEdit(parent) {
  connect(this, &QLineEdit::editingFinished, this, &LengthEdit::take);
}

// What is typed and not yet taken over was meant in the units of that moment.
void LengthEdit::setStyle(const LengthStyle& style) {
  if (style.system != style_.system) take();
  style_ = style;
  setPlaceholderText(tr("e.g. %1").arg(lengthText(exampleMm_, style_)));
  setValue(value_);
}

void LengthEdit::setValue(std::optional<double> mm) {
  value_ = mm;
  if (isModified()) return;  // never over what was typed
  setText(mm ? lengthText(*mm, style_) : QString());
  setModified(false);
  showMistake({});
}

Result<SaidThickness> LengthEdit::readTyped(const std::string& typed) const {
  if (takesQuarters_) return parseThickness(typed, style_.system);
  const auto mm = parseLengthMm(typed, style_.system);
  if (!mm) return mm.error();
  return SaidThickness{*mm, {}};
}

void LengthEdit::take() {
  if (!isModified()) return;
  const QString typed = text().trimmed();
  if (typed.isEmpty()) {
    setModified(false);
    showMistake({});
    value_.reset();
    emit entered(std::nullopt);
    return;
  }
  const Result<SaidThickness> read = readTyped(plain(typed));
  const Result<double> mm = read ? Result<double>(read->mm) : Result<double>(read.error());
  if (read) said_ = read->said;
  if (!mm) return showMistake(qt(mm.error().message));
  if (*mm < leastMm_)
    return showMistake(tr("At least %1 is needed.").arg(lengthText(leastMm_, style_)));
  setModified(false);
  showMistake({});
  value_ = *mm;
  setText(lengthText(*mm, style_));
  emit entered(*mm);
}

void LengthEdit::showMistake(const QString& why) {
  setToolTip(why);
  setStyleSheet(why.isEmpty() ? QString()
                              : QStringLiteral("border: 2px solid %1;").arg(colours().bad.name()));
  emit mistaken(why);
}

}  // namespace rackside
