// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/look/mark_look.h"

#include <QPainter>
#include <QPixmap>
#include <array>
#include <stdexcept>

namespace rackside {

namespace {

const std::array<MarkLook, 16>& table() {
  using K = MarkKind;
  static const QColor red(0xE2, 0x4B, 0x3B), blue(0x2D, 0x7F, 0xD6), violet(0x8E, 0x5B, 0xC9),
      green(0x2F, 0x9E, 0x58), yellow(0xE8, 0xC1, 0x2E), teal(0x17, 0xA2, 0xA0),
      pink(0xD6, 0x4B, 0x94), steel(0x5A, 0x6B, 0x7A);
  static const std::array<MarkLook, 16> looks{{
      {K::knot, "Knot", "K", red, Qt::FDiagPattern, Qt::SolidLine,
       "Grain turned aside round a branch"},
      {K::check, "Check", "C", blue, Qt::Dense6Pattern, Qt::SolidLine,
       "A crack along the grain that does not go through"},
      {K::split, "Split", "S", blue, Qt::SolidPattern, Qt::SolidLine, "A crack from face to face"},
      {K::shake, "Shake", "Sh", blue, Qt::HorPattern, Qt::DashLine, "Parted along a growth ring"},
      {K::honeycomb, "Honeycomb", "H", blue, Qt::CrossPattern, Qt::DashLine,
       "Cracks inside, from drying"},
      {K::sapwood, "Sapwood", "Sa", yellow, Qt::BDiagPattern, Qt::DashLine, "The pale outer wood"},
      {K::wane, "Wane", "W", yellow, Qt::VerPattern, Qt::DashDotLine, "Bark or a missing edge"},
      {K::pith, "Pith", "P", pink, Qt::Dense5Pattern, Qt::SolidLine,
       "The heart of the tree; it cracks"},
      {K::barkPocket, "Bark pocket", "B", violet, Qt::DiagCrossPattern, Qt::SolidLine,
       "Bark grown in"},
      {K::gum, "Gum", "G", violet, Qt::Dense6Pattern, Qt::DotLine, "Gum or pitch in the wood"},
      {K::wormHoles, "Worm holes", "Wo", red, Qt::Dense4Pattern, Qt::DotLine,
       "Holes of insects, old or live"},
      {K::metal, "Metal", "M", steel, Qt::VerPattern, Qt::SolidLine,
       "A nail or wire: no cut may pass"},
      {K::stain, "Stain", "St", teal, Qt::HorPattern, Qt::DotLine, "Discoloured wood"},
      {K::holeToFill, "Hole to fill", "F", teal, Qt::CrossPattern, Qt::SolidLine,
       "To be filled; say how deep"},
      {K::favour, "Favour", "+", green, Qt::NoBrush, Qt::DashLine,
       "A place you like: use it where it shows"},
      {K::avoid, "Avoid", "×", pink, Qt::FDiagPattern, Qt::DashDotLine,
       "Keep every part off this place"},
  }};
  return looks;
}

}  // namespace

const MarkLook& markLook(MarkKind kind) {
  for (const MarkLook& look : table())
    if (look.kind == kind) return look;
  throw std::logic_error("markLook: a kind without a look");
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
  const bool worms = kind == MarkKind::wormHoles;
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
