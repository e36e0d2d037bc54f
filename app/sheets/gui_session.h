// SPDX-License-Identifier: GPL-3.0-or-later
// Fonts and painting need Qt's GUI part; it runs without a display.
#pragma once

#include <memory>

class QGuiApplication;

namespace rackside::sheets {

// Starts Qt's GUI part off screen unless the program has one already; keep it while painting.
class GuiSession {
 public:
  GuiSession();
  ~GuiSession();
  GuiSession(const GuiSession&) = delete;
  GuiSession& operator=(const GuiSession&) = delete;

 private:
  std::unique_ptr<QGuiApplication> own_;
};

}  // namespace rackside::sheets
