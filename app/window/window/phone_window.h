// SPDX-License-Identifier: GPL-3.0-or-later
// The page for phones at the rack: started and stopped here, with the code that lets a phone in.
// Closing this window goes on serving; the button that opens it says so.
#pragma once

#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QPushButton>
#include <memory>

#include "app/serve/phone_server.h"
#include "app/window/document/plan_session.h"
#include "app/window/document/served_document.h"

namespace rackside {

class PhoneWindow : public QDialog {
  Q_OBJECT
 public:
  PhoneWindow(Document& document, const PlanSession& plans, QWidget* parent = nullptr);
  bool serving() const { return server_ != nullptr; }
  const serve::PhoneServer* server() const { return server_.get(); }
  void start(const QString& address);
  void stop();

 signals:
  void servingChanged();

 private:
  void build();
  void listNetworks();
  void showState();

  Document& document_;
  ServedDocument rack_;
  std::unique_ptr<serve::PhoneServer> server_;
  QComboBox networks_;
  QPushButton startStop_;
  QLabel message_, code_, address_;
};

}  // namespace rackside
