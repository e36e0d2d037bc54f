// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/addresses.h"

#include <QHostAddress>
#include <QNetworkInterface>

namespace rackside::serve {
namespace {

bool ofWorkshop(const QHostAddress& address) {
  for (const char* net : {"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16"})
    if (address.isInSubnet(QHostAddress::parseSubnet(QString::fromLatin1(net)))) return true;
  return false;
}

std::string listed(const std::vector<LocalAddress>& all) {
  std::string text;
  for (const LocalAddress& one : all) text += "\n  " + one.address + " (" + one.interfaceName + ")";
  return text;
}

}  // namespace

std::vector<LocalAddress> localAddresses() {
  std::vector<LocalAddress> all;
  for (const QNetworkInterface& one : QNetworkInterface::allInterfaces()) {
    if (!(one.flags() & QNetworkInterface::IsRunning)) continue;
    for (const QNetworkAddressEntry& entry : one.addressEntries())
      if (entry.ip().protocol() == QAbstractSocket::IPv4Protocol && ofWorkshop(entry.ip()))
        all.push_back({entry.ip().toString().toStdString(), one.name().toStdString()});
  }
  return all;
}

Result<std::string> addressToServe(const std::string& wish) {
  const std::vector<LocalAddress> all = localAddresses();
  if (wish.empty() && all.size() == 1) return all.front().address;
  if (wish.empty() && all.empty())
    return Error{"This computer is on no workshop network: connect it to the one the phone is on."};
  const QHostAddress typed(QString::fromStdString(wish));
  if (typed.isLoopback() && typed.protocol() == QAbstractSocket::IPv4Protocol) return wish;
  if (all.empty())
    return Error{"\"" + wish + "\" is no workshop network of this computer; it is on none."};
  for (const LocalAddress& one : all)
    if (one.address == wish || one.interfaceName == wish) return one.address;
  return Error{(wish.empty()
                    ? "This computer is on several networks. Say which one the phone is on:"
                    : "\"" + wish + "\" is no workshop network of this computer. These are:") +
               listed(all)};
}

}  // namespace rackside::serve
