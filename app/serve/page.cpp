// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/page.h"

#include <QCryptographicHash>

#include "app/serve/page_text.h"

namespace rackside::serve {
namespace {

// 'sha256-…' of what stands between the tags (Content Security Policy Level 3, 6.7.2).
QByteArray hashOf(const QByteArray& page, const QByteArray& tag) {
  const QByteArray open = "<" + tag + ">", close = "</" + tag + ">";
  const qsizetype from = page.indexOf(open) + open.size();
  const QByteArray inside = page.mid(from, page.indexOf(close, from) - from);
  return "'sha256-" + QCryptographicHash::hash(inside, QCryptographicHash::Sha256).toBase64() + "'";
}

// A phone that runs short of memory drops a page and loads it again, perhaps out of reach.
constexpr int kKeepSeconds = 3600;

Answer made() {
  Answer answer;
  answer.keepSeconds = kKeepSeconds;
  answer.type = "text/html; charset=utf-8";
  answer.body = QByteArray(kPageText.data(), static_cast<qsizetype>(kPageText.size()));
  answer.policy = "default-src 'none'; script-src " + hashOf(answer.body, "script") +
                  "; style-src " + hashOf(answer.body, "style") +
                  "; img-src 'self' data:; connect-src 'self'; base-uri 'none'; "
                  "form-action 'none'; frame-ancestors 'none'";
  return answer;
}

}  // namespace

Answer page() {
  static const Answer answer = made();
  return answer;
}

}  // namespace rackside::serve
