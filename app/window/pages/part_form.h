// SPDX-License-Identifier: GPL-3.0-or-later
// The selected part beside the table: a small picture of it, the look it should have chosen from
// pictures, and what is wished for more rarely than a size.
#pragma once

#include <QButtonGroup>
#include <QLabel>
#include <QWidget>
#include <map>

#include "app/window/pages/parts_model.h"

namespace rackside {

// Columns that stand in the form and not in the table.
bool isRareColumn(int column);

// The part to scale, with its grain.
class PartPicture : public QWidget {
  Q_OBJECT
 public:
  explicit PartPicture(QWidget* parent = nullptr);
  void show(const Part* part, const LengthStyle& style);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  std::optional<Part> part_;
  LengthStyle style_;
};

class PartForm : public QWidget {
  Q_OBJECT
 public:
  PartForm(PartsModel& model, Document& document, QWidget* parent = nullptr);
  void setRow(int row);

 private:
  void build();
  QWidget* fieldFor(int column);
  QWidget* buildLooks();
  void refresh();

  PartsModel& model_;
  Document& document_;
  int row_ = 0;
  QLabel title_, mistake_;
  PartPicture picture_;
  QButtonGroup looks_;
  std::map<int, QWidget*> fields_;
};

}  // namespace rackside
