// SPDX-License-Identifier: GPL-3.0-or-later
// The board's edge between two points, read from the tiles of its face picture: in the background
// while the pointer moves, at once when a point is set.
#pragma once

#include <QObject>
#include <QThreadPool>
#include <array>
#include <memory>
#include <optional>
#include <vector>

#include "app/window/face/tile_pyramid.h"
#include "app/window/tools/outline_stretch.h"

namespace rackside {

struct EdgePicture {
  std::shared_ptr<const TilePyramid> tiles;
  std::array<double, 6> boardFromPicture{};
};

// From `from` (left out) to `to` (the last point, with `toSigmaMm`), board mm. Straight where no
// edge is seen. Some 10 ms; only a strip of the picture is read, coarser the longer it is.
std::vector<StretchPoint> edgeBetween(const EdgePicture& picture, Point from, Point to,
                                      double toSigmaMm);

class EdgeFollower : public QObject {
  Q_OBJECT
 public:
  explicit EdgeFollower(QObject* parent = nullptr);
  ~EdgeFollower() override;
  // Of several wishes, the latest is worked on; the others are let go of.
  void ask(const EdgePicture& picture, Point from, Point to, double toSigmaMm);
  void forget() { waiting_.reset(); }

 signals:
  void found(rackside::Point from, rackside::Point to,
             const std::vector<rackside::StretchPoint>& line);

 private:
  struct Wish {
    EdgePicture picture;
    Point from, to;
    double toSigmaMm;
  };
  void startNext();

  QThreadPool pool_;
  std::optional<Wish> waiting_;
  bool working_ = false;
};

}  // namespace rackside
