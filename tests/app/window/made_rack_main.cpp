// SPDX-License-Identifier: GPL-3.0-or-later
// window_made_rack FOLDER [BOARDS] [MM_PER_PX]: an invented rack on disk.
#include <cstdlib>
#include <iostream>

#include "tests/app/window/made_rack.h"

int main(int argc, char** argv) {
  if (argc < 2) {
    std::cerr << "usage: window_made_rack FOLDER [BOARDS] [MM_PER_PX]\n";
    return 2;
  }
  rackside::made::RackWish wish;
  if (argc > 2) wish.boards = std::atoi(argv[2]);
  if (argc > 3) wish.mmPerPx = std::atof(argv[3]);
  rackside::made::writeRack(argv[1], wish);
  return 0;
}
