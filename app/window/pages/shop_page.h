// SPDX-License-Identifier: GPL-3.0-or-later
// The shop's settings: each with its unit, its default and why it matters. A shop can be kept as a
// file and used for another rack.
#pragma once

#include <QLabel>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>
#include <QWidget>
#include <functional>
#include <vector>

#include "app/window/document/document.h"
#include "app/window/pages/shop_fields.h"
#include "app/window/panels/length_edit.h"

class QGridLayout;

namespace rackside {

class ShopPage : public QWidget {
  Q_OBJECT
 public:
  explicit ShopPage(Document& document, QWidget* parent = nullptr);
  void saveShopTo(const QString& file);
  void useShopFrom(const QString& file);

 signals:
  void said(const QString& text, bool bad);

 private:
  // One setting: how it is read from a shop and put into one.
  struct Setting {
    ShopField::Unit unit;
    QLineEdit* edit;
    QLabel* usual;
    QToolButton* reset;
    std::function<double(const Shop&)> get;
    std::function<void(Shop&, double)> put;
  };
  void build();
  void addGroup(QVBoxLayout& column, const ShopGroup& group);
  void addClearances(QVBoxLayout& column);
  void addSetting(QGridLayout& grid, ShopField::Unit unit, const QString& label, const QString& why,
                  std::function<double(const Shop&)> get, std::function<void(Shop&, double)> put);
  void enter(size_t setting, double value);
  void refresh();
  void resetAll();
  void chooseSave();
  void chooseUse();

  Document& document_;
  QPushButton reset_, save_, use_;
  QLabel mistake_;
  std::vector<Setting> settings_;
};

}  // namespace rackside
