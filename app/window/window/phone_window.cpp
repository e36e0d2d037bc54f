// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/window/phone_window.h"

#include <QCoreApplication>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QPixmap>
#include <QVBoxLayout>

#include "app/serve/addresses.h"
#include "app/serve/qr_code.h"
#include "app/window/look/text.h"

namespace rackside {

namespace {
constexpr int kCodePx = 300;  // a phone's camera reads 6 px a module from half a metre
}

PhoneWindow::PhoneWindow(Document& document, const PlanSession& plans, QWidget* parent)
    : QDialog(parent), document_(document), rack_(document, [&plans] { return plans.running(); }) {
  setWindowTitle(tr("Phone at the rack"));
  build();
  listNetworks();
  showState();
  connect(&startStop_, &QPushButton::clicked, this, [this] {
    if (serving()) return stop();
    start(networks_.currentData().toString());
  });
  // The phones were let in to that rack, not to another one.
  connect(&document_, &Document::opened, this, &PhoneWindow::stop);
}

void PhoneWindow::build() {
  auto* lead = new QLabel(tr(
      "Photograph boards with the phone, see them measured where they stand, mark them and tick "
      "cuts. While it is on, phones on the same network that bring the code below can do that on "
      "this rack. Nothing is encrypted: use it on a network of your own with a password, not "
      "where strangers are."));
  for (QLabel* label : {lead, &message_, &address_}) label->setWordWrap(true);
  message_.setProperty("role", QStringLiteral("bad"));
  address_.setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  address_.setObjectName(QStringLiteral("phoneAddress"));
  code_.setAlignment(Qt::AlignCenter);
  code_.setAccessibleName(tr("The code that lets one phone in"));
  startStop_.setObjectName(QStringLiteral("phoneStart"));
  auto* form = new QFormLayout;
  form->addRow(tr("&Network"), &networks_);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::close);
  auto* column = new QVBoxLayout(this);
  column->addWidget(lead);
  column->addLayout(form);
  column->addWidget(&startStop_);
  column->addWidget(&message_);
  column->addWidget(&code_);
  column->addWidget(&address_);
  column->addWidget(buttons);
  setMinimumWidth(440);
}

void PhoneWindow::listNetworks() {
  for (const serve::LocalAddress& one : serve::localAddresses())
    networks_.addItem(QStringLiteral("%1 (%2)").arg(qt(one.address), qt(one.interfaceName)),
                      qt(one.address));
}

void PhoneWindow::start(const QString& address) {
  message_.clear();
  if (!document_.isOpen()) {
    message_.setText(tr("First open a rack: what the phone sends needs a place."));
    return showState();
  }
  serve::ServeOptions options;
  options.address = plain(address);
  options.ports = {serve::kUsualPort, 0};
  options.workerProgram = plain(QCoreApplication::applicationFilePath());
  auto started = serve::PhoneServer::start(rack_, options);
  if (started) {
    server_ = std::move(started).value();
    server_->onNewEntrance = [this] { showState(); };
  } else {
    message_.setText(qt(started.error().message));
  }
  showState();
  emit servingChanged();
}

void PhoneWindow::stop() {
  server_.reset();
  showState();
  emit servingChanged();
}

void PhoneWindow::showState() {
  const bool none = networks_.count() == 0;
  if (none && message_.text().isEmpty())
    message_.setText(
        tr("This computer is on no network: connect it to the one the phone is on, "
           "then open this again."));
  message_.setVisible(!message_.text().isEmpty());
  networks_.setEnabled(!serving() && !none);
  startStop_.setEnabled(serving() || !none);
  startStop_.setText(serving() ? tr("&Stop") : tr("&Start"));
  code_.setVisible(serving());
  address_.setVisible(serving());
  if (!serving()) return adjustSize();
  const QImage code = serve::qrImage(server_->entrance());
  const int scale = std::max(1, kCodePx / code.width());
  code_.setPixmap(QPixmap::fromImage(code.scaled(code.size() * scale)));
  const auto phones = static_cast<int>(server_->phones());
  const QString lead =
      phones == 0   ? tr("Scan this with the phone, or type it there:")
      : phones == 1 ? tr("One phone is connected. One more phone needs this code:")
                    : tr("%1 phones are connected. One more phone needs this code:").arg(phones);
  address_.setText(lead + QLatin1Char('\n') + qt(server_->entrance()));
  adjustSize();
}

}  // namespace rackside
