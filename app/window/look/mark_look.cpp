// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/look/mark_look.h"

#include <QPainter>
#include <QPixmap>
#include <stdexcept>
#include <vector>

#include "core/wood/mark_traits.h"

namespace rackside {

namespace {

Qt::BrushStyle brushOf(ScreenFill fill) {
  switch (fill) {
    case ScreenFill::none:
      return Qt::NoBrush;
    case ScreenFill::solid:
      return Qt::SolidPattern;
    case ScreenFill::dots4:
      return Qt::Dense4Pattern;
    case ScreenFill::dots5:
      return Qt::Dense5Pattern;
    case ScreenFill::dots6:
      return Qt::Dense6Pattern;
    case ScreenFill::levelLines:
      return Qt::HorPattern;
    case ScreenFill::uprightLines:
      return Qt::VerPattern;
    case ScreenFill::grid:
      return Qt::CrossPattern;
    case ScreenFill::risingLines:
      return Qt::BDiagPattern;
    case ScreenFill::fallingLines:
      return Qt::FDiagPattern;
    case ScreenFill::crossedLines:
      return Qt::DiagCrossPattern;
  }
  throw std::logic_error("a pattern that is none");
}

Qt::PenStyle penOf(ScreenLine line) {
  switch (line) {
    case ScreenLine::solid:
      return Qt::SolidLine;
    case ScreenLine::dash:
      return Qt::DashLine;
    case ScreenLine::dot:
      return Qt::DotLine;
    case ScreenLine::dashDot:
      return Qt::DashDotLine;
  }
  throw std::logic_error("a line that is none");
}

MarkLook lookOf(const MarkTraits& t) {
  const auto text = [](std::string_view s) {
    return QString::fromUtf8(s.data(), static_cast<qsizetype>(s.size()));
  };
  return {t.kind,          text(t.label), text(t.letters), QColor::fromRgb(t.rgb),
          brushOf(t.fill), penOf(t.line), text(t.meaning)};
}

}  // namespace

const MarkLook& markLook(MarkKind kind) {
  static const std::vector<MarkLook> looks = [] {
    std::vector<MarkLook> all;
    for (const MarkTraits& traits : allMarkTraits()) all.push_back(lookOf(traits));
    return all;
  }();
  return looks.at(static_cast<size_t>(kind));
}

QIcon markSwatch(MarkKind kind, int side) {
  const MarkLook& look = markLook(kind);
  QIcon icon;
  for (const int scale : {1, 2}) {
    QPixmap pixmap(side * scale, side * scale);
    pixmap.setDevicePixelRatio(scale);
    pixmap.fill(Qt::transparent);
    QPainter painter(&pixmap);
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF box(1.5, 1.5, side - 3, side - 3);
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor(0xD9, 0xB9, 0x8C));  // wood, so that it looks as on the board
    painter.drawRoundedRect(box, 4, 4);
    painter.setBrush(QBrush(look.colour, look.pattern));
    painter.setPen(QPen(look.colour, 2, look.outline));
    painter.drawRoundedRect(box, 4, 4);
    icon.addPixmap(pixmap);
  }
  return icon;
}

QString soundnessLabel(MarkKind kind, Soundness soundness) {
  const bool worms = traitsOf(kind).judged == Judged::soundnessAndLife;
  switch (soundness) {
    case Soundness::sound:
      return worms ? QStringLiteral("old") : QStringLiteral("sound");
    case Soundness::loose:
      return worms ? QStringLiteral("fresh") : QStringLiteral("loose");
    case Soundness::unknown:
      break;
  }
  return QStringLiteral("not judged");
}

}  // namespace rackside
