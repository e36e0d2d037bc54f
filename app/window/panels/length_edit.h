// SPDX-License-Identifier: GPL-3.0-or-later
// A field for one length, typed as a maker writes it. What is not understood stays in the field,
// marked, with the reason beside it; nothing changes until it is mended.
#pragma once

#include <QLineEdit>
#include <functional>
#include <optional>

#include "core/base/length.h"
#include "core/trade/thickness.h"

namespace rackside {

class LengthEdit : public QLineEdit {
  Q_OBJECT
 public:
  explicit LengthEdit(QWidget* parent = nullptr);
  void setStyle(const LengthStyle& style);
  void setValue(std::optional<double> mm);                // empty: an empty field
  std::optional<double> value() const { return value_; }  // the latest that was understood
  void setExample(double mm) { exampleMm_ = mm; }         // shown while the field is empty
  void setLeast(double mm) { leastMm_ = mm; }
  void setTakesQuarters(bool takes) { takesQuarters_ = takes; }  // "8/4", of a thickness
  const std::string& said() const { return said_; }  // what was typed so; empty: a length

  void take();                           // what is typed, as when the field is left
  void forget() { setModified(false); }  // what is typed and was not understood

 signals:
  void entered(std::optional<double> mm);
  void mistaken(const QString& why);  // empty when mended

 private:
  Result<SaidThickness> readTyped(const std::string& typed) const;
  void showMistake(const QString& why);

  LengthStyle style_;
  std::optional<double> value_;
  double leastMm_ = 0;
  double exampleMm_ = 27;
  bool takesQuarters_ = false;
  std::string said_;
};

}  // namespace rackside
