// SPDX-License-Identifier: GPL-3.0-or-later
// A headless Chromium with the screen of a phone, driven through its debugging protocol.
#pragma once

#include <QProcess>
#include <QTemporaryDir>
#include <QWebSocket>
#include <nlohmann/json.hpp>
#include <string>

namespace rackside::serve {

class RemoteBrowser {
 public:
  explicit RemoteBrowser(const QString& chromium);  // its program; throws when it cannot be driven
  ~RemoteBrowser();

  void open(const std::string& address);
  // The value of an expression in the page.
  nlohmann::json evaluate(const std::string& script);
  // Until the expression is true; throws, with the page's text, when it never is.
  void waitFor(const std::string& script, int limitMs = 60000);
  // Touches the button (or label) whose words begin so.
  void touch(const std::string& words);
  // The same for one that asks for a picture, and gives it this file.
  void touchAndGive(const std::string& words, const std::string& file);
  // A finger's way over the page, pixels.
  void draw(double x0, double y0, double x1, double y1);
  void type(const std::string& id, const std::string& text);
  void setOffline(bool offline);
  void screenshot(const QString& file);

 private:
  nlohmann::json call(const std::string& method, const nlohmann::json& parameters);
  void received(const QString& text);
  [[noreturn]] void giveUp(const std::string& why);

  QTemporaryDir folder_;
  QProcess browser_;
  QWebSocket socket_;
  int calls_ = 0;
  std::map<int, nlohmann::json> answers_;
  std::string fault_;       // of the page's script
  nlohmann::json chooser_;  // the latest wish for a file
};

}  // namespace rackside::serve
