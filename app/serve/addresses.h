// SPDX-License-Identifier: GPL-3.0-or-later
// The one address that the page is served on.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"

namespace rackside::serve {

struct LocalAddress {
  std::string address;        // "192.168.1.20"
  std::string interfaceName;  // "wlan0"
};

// This machine's IPv4 addresses on networks of a workshop (private ones, RFC 1918, and link-local);
// those that face the open internet are left out.
std::vector<LocalAddress> localAddresses();

// `wish`: an address or the name of an interface of this machine; empty: the only one there is.
// Fails, naming those there are, when the wish is none of them or there are several.
Result<std::string> addressToServe(const std::string& wish);

}  // namespace rackside::serve
