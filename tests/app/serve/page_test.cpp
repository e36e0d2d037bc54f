// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/serve/page_test.h"

#include <QColor>
#include <QRegularExpression>
#include <QTest>
#include <cmath>
#include <optional>

#include "app/serve/page.h"
#include "tests/app/bench_rack.h"
#include "tests/app/serve/served.h"

namespace rackside::serve {
namespace {

QString pageText() {
  return QString::fromUtf8(page().body);
}

// Relative luminance and contrast (WCAG 2.2, definitions).
double luminance(const QColor& colour) {
  const auto part = [](double v) {
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * part(colour.redF()) + 0.7152 * part(colour.greenF()) +
         0.0722 * part(colour.blueF());
}

double contrast(const QColor& a, const QColor& b) {
  const double la = luminance(a), lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

struct Rule {
  QString selector;
  std::optional<QColor> text, ground;
};

std::optional<QColor> valueOf(const QString& body, const char* property) {
  const QRegularExpression wanted(
      QStringLiteral("(?:^|[;{\\s])%1:\\s*(#[0-9a-f]{3,6})").arg(QString::fromLatin1(property)));
  const auto found = wanted.match(body);
  return found.hasMatch() ? std::optional(QColor(found.captured(1))) : std::nullopt;
}

std::vector<Rule> rules() {
  const QString all = pageText();
  const QString style = all.section("<style>", 1).section("</style>", 0, 0);
  std::vector<Rule> found;
  static const QRegularExpression one(QStringLiteral("([^{}]+)\\{([^}]*)\\}"));
  for (auto i = one.globalMatch(style); i.hasNext();) {
    const auto match = i.next();
    const QString body = match.captured(2);
    found.push_back(
        {match.captured(1).trimmed(), valueOf(body, "color"), valueOf(body, "background")});
  }
  return found;
}

}  // namespace

void PageTest::isSmallAndNeedsNothingElse() {
  const QString text = pageText();
  QVERIFY2(page().body.size() <= 60000, qPrintable(QString::number(page().body.size())));
  QVERIFY(!text.contains("@STYLE@") && !text.contains("@SCRIPT@"));
  static const QRegularExpression elsewhere(QStringLiteral(
      "(?:src|href)=\"(?!data:)|https?://(?!www\\.w3\\.org/2000/svg)|@import|url\\("));
  QVERIFY2(!elsewhere.match(text).hasMatch(), qPrintable(elsewhere.match(text).captured()));
  // Style on an element, or a handler in the text, would be stopped by the page's own policy.
  static const QRegularExpression inlined(QStringLiteral("<[a-z][^>]*\\s(?:style|on[a-z]+)="));
  QVERIFY(!inlined.match(text).hasMatch());
}

// WCAG 2.2, 1.4.3: text against its ground at least 4.5 to 1.
void PageTest::coloursAreReadable() {
  const QColor ink("#14110d");
  const std::vector<QColor> grounds{QColor("#f6f2ea"), QColor("#ffffff")};  // page, card
  int looked = 0;
  for (const Rule& rule : rules()) {
    // Grounds of pictures and of the wood bear no text.
    if (!rule.text && (rule.selector.contains("img") || rule.selector.contains(".seen") ||
                       rule.selector.contains(".wood")))
      continue;
    if (!rule.text && !rule.ground) continue;
    for (const QColor& ground : rule.ground ? std::vector{*rule.ground} : grounds) {
      // What is dark as a whole bears white text, which its base rule gives.
      const QColor text = rule.text ? *rule.text : luminance(ground) < 0.2 ? QColor("#fff") : ink;
      QVERIFY2(contrast(text, ground) >= 4.5,
               qPrintable(rule.selector + " " + QString::number(contrast(text, ground))));
      ++looked;
    }
  }
  QVERIFY(looked > 10);
}

void PageTest::everyRouteItAsksForIsThere() {
  Served served(tests::benchRack());
  static const QRegularExpression asked(QStringLiteral("\"(/[a-z]+)[?\"]"));
  std::set<QString> paths;
  for (auto i = asked.globalMatch(pageText()); i.hasNext();) paths.insert(i.next().captured(1));
  QVERIFY(paths.size() >= 12);
  for (const QString& path : paths) {
    const Reply get = served.phone().get(path.toLatin1());
    const Reply post = served.phone().post(path.toLatin1(), nlohmann::json::object());
    const bool none = get.say().find("nothing under this address") != std::string::npos;
    QVERIFY2(!none, qPrintable(path));
    QVERIFY2(get.status != 405 || post.status != 405, qPrintable(path));
  }
}

}  // namespace rackside::serve
