// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/serve/remote_browser.h"

#include <QCoreApplication>
#include <QFile>
#include <QTest>
#include <stdexcept>

#include "tests/app/serve/browser.h"

namespace rackside::serve {

using nlohmann::json;

namespace {

constexpr quint16 kPort = 41888;

std::string pageSocket() {
  const QByteArray ask =
      "GET /json/list HTTP/1.1\r\nHost: 127.0.0.1:41888\r\nConnection: close\r\n\r\n";
  std::string url;
  (void)QTest::qWaitFor(
      [&] {
        const json list = sendBytes(kPort, ask, 2000).json();
        if (list.is_array())
          for (const json& page : list)
            if (page.value("type", "") == "page") url = page.value("webSocketDebuggerUrl", "");
        return !url.empty();
      },
      60000);
  return url;
}

std::string quoted(const std::string& text) {
  return json(text).dump();
}

}  // namespace

RemoteBrowser::RemoteBrowser(const QString& chromium) {
  browser_.start(chromium,
                 {"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
                  "--disable-background-networking", "--disable-component-update", "--disable-sync",
                  "--remote-allow-origins=*", "--hide-scrollbars",
                  "--remote-debugging-port=" + QString::number(kPort),
                  "--user-data-dir=" + folder_.path(), "about:blank"});
  const std::string url = pageSocket();
  if (url.empty()) giveUp("chromium did not start");
  QObject::connect(&socket_, &QWebSocket::textMessageReceived, &socket_,
                   [this](const QString& text) { received(text); });
  socket_.open(QUrl(QString::fromStdString(url)));
  if (!QTest::qWaitFor([&] { return socket_.state() == QAbstractSocket::ConnectedState; }, 20000))
    giveUp("chromium cannot be driven");
  call("Page.enable", json::object());
  call("Runtime.enable", json::object());
  call("Network.enable", json::object());
  call("Page.setInterceptFileChooserDialog", {{"enabled", true}});
  call("Emulation.setDeviceMetricsOverride",
       {{"width", 390}, {"height", 844}, {"deviceScaleFactor", 2}, {"mobile", true}});
  call("Emulation.setTouchEmulationEnabled", {{"enabled", true}});
}

RemoteBrowser::~RemoteBrowser() {
  browser_.terminate();
  if (!browser_.waitForFinished(5000)) browser_.kill();
  browser_.waitForFinished(5000);
}

void RemoteBrowser::received(const QString& text) {
  const json message = json::parse(text.toStdString(), nullptr, false);
  if (message.contains("id")) answers_[message["id"]] = message;
  const std::string method = message.value("method", "");
  if (method == "Page.fileChooserOpened") chooser_ = message["params"];
  if (method == "Runtime.exceptionThrown") fault_ = message.dump();
  // The page asks whether it should go on: it should.
  if (method == "Page.javascriptDialogOpening")
    socket_.sendTextMessage(QString::fromStdString(json{
        {"id", ++calls_},
        {"method", "Page.handleJavaScriptDialog"},
        {"params", {{"accept", true}}}}.dump()));
}

json RemoteBrowser::call(const std::string& method, const json& parameters) {
  const int id = ++calls_;
  socket_.sendTextMessage(
      QString::fromStdString(json{{"id", id}, {"method", method}, {"params", parameters}}.dump()));
  if (!QTest::qWaitFor([&] { return answers_.contains(id); }, 60000))
    giveUp(method + " was not answered");
  if (!fault_.empty()) giveUp("the page's script failed: " + fault_);
  return answers_[id].value("result", json::object());
}

void RemoteBrowser::giveUp(const std::string& why) {
  throw std::runtime_error(why);
}

void RemoteBrowser::open(const std::string& address) {
  call("Page.navigate", {{"url", address}});
  waitFor("document.readyState === 'complete'");
}

json RemoteBrowser::evaluate(const std::string& script) {
  const json result = call("Runtime.evaluate", {{"expression", script},
                                                {"returnByValue", true},
                                                {"awaitPromise", true},
                                                {"userGesture", true}});
  if (result.contains("exceptionDetails")) giveUp(script + "\n" + result.dump());
  return result.contains("result") ? result["result"].value("value", json()) : json();
}

void RemoteBrowser::waitFor(const std::string& script, int limitMs) {
  // While the page is built anew what is asked for may not be there.
  const std::string held =
      "(function () { try { return !!(" + script + "); } catch (e) { return false; } })()";
  if (!QTest::qWaitFor([&] { return evaluate(held) == true; }, limitMs)) {
    giveUp("never came true: " + script + "\n" + evaluate("document.body.innerText").dump());
  }
}

void RemoteBrowser::touch(const std::string& words) {
  const std::string find =
      "Array.from(document.querySelectorAll('button,label')).find(function (e) { return "
      "e.innerText.trim().indexOf(" +
      quoted(words) +
      ") === 0 && e.offsetParent !== null || e.getAttribute('aria-label') === " + quoted(words) +
      "; })";
  waitFor(find, 20000);
  const json at =
      evaluate("(function () { const e = " + find +
               "; if (!e.closest('nav')) e.scrollIntoView({block: 'center'}); const b = "
               "e.getBoundingClientRect(); return [b.left + Math.min(b.width / 2, 60), "
               "b.top + b.height / 2]; })()");
  for (const char* type : {"touchStart", "touchEnd"})
    call("Input.dispatchTouchEvent",
         {{"type", type},
          {"touchPoints", std::string(type) == "touchEnd"
                              ? json::array()
                              : json::array({{{"x", at[0]}, {"y", at[1]}}})}});
}

void RemoteBrowser::touchAndGive(const std::string& words, const std::string& file) {
  chooser_ = nullptr;
  touch(words);
  if (!QTest::qWaitFor([&] { return !chooser_.is_null(); }, 20000))
    giveUp("no file was asked for by " + words);
  call("DOM.setFileInputFiles", {{"files", {file}}, {"backendNodeId", chooser_["backendNodeId"]}});
}

void RemoteBrowser::draw(double x0, double y0, double x1, double y1) {
  const auto send = [&](const char* type, double x, double y) {
    call("Input.dispatchTouchEvent",
         {{"type", type},
          {"touchPoints",
           std::string(type) == "touchEnd" ? json::array() : json::array({{{"x", x}, {"y", y}}})}});
  };
  send("touchStart", x0, y0);
  for (int i = 1; i <= 5; ++i) send("touchMove", x0 + (x1 - x0) * i / 5, y0 + (y1 - y0) * i / 5);
  send("touchEnd", x1, y1);
}

void RemoteBrowser::type(const std::string& id, const std::string& text) {
  waitFor("document.getElementById(" + quoted(id) + ")", 20000);
  evaluate("(function () { const e = document.getElementById(" + quoted(id) +
           "); e.focus(); e.select(); })()");
  call("Input.insertText", {{"text", text}});
  evaluate("document.activeElement.blur()");
}

void RemoteBrowser::setOffline(bool offline) {
  call(
      "Network.emulateNetworkConditions",
      {{"offline", offline}, {"latency", 0}, {"downloadThroughput", -1}, {"uploadThroughput", -1}});
}

void RemoteBrowser::screenshot(const QString& file) {
  const json shot = call("Page.captureScreenshot", {{"format", "png"}});
  QFile out(file);
  if (out.open(QIODevice::WriteOnly))
    out.write(QByteArray::fromBase64(QByteArray::fromStdString(shot.value("data", ""))));
}

}  // namespace rackside::serve
