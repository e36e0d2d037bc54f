// SPDX-License-Identifier: GPL-3.0-or-later
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>

#include "app/sheets/gui_session.h"

int main(int argc, char** argv) {
  const rackside::sheets::GuiSession gui;
  return Catch::Session().run(argc, argv);
}
