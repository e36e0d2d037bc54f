// SPDX-License-Identifier: GPL-3.0-or-later
// The one page (page/, built into the program as one file) and what a browser may do on it.
#pragma once

#include "app/serve/answer.h"

namespace rackside::serve {

// With a content security policy that lets run the page's own script and style, by their hashes,
// and nothing else.
Answer page();

}  // namespace rackside::serve
