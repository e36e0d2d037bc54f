// SPDX-License-Identifier: GPL-3.0-or-later
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>
#include <cstdlib>

#include "app/sheets/gui_session.h"
#include "tests/core/support/temporary_folder.h"

int main(int argc, char** argv) {
  // What is read off pictures goes into a cache of its own.
  const rackside::tests::TemporaryFolder cache;
  setenv("RACKSIDE_CACHE", cache.path().c_str(), 1);
  const rackside::sheets::GuiSession gui;
  return Catch::Session().run(argc, argv);
}
