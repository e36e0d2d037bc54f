// SPDX-License-Identifier: GPL-3.0-or-later
// Asks in the background which board shows best for a part, or how a panel for it might look. Only
// the latest question is answered.
#pragma once

#include <QImage>
#include <QObject>
#include <QThreadPool>
#include <memory>
#include <vector>

#include "app/window/document/document.h"
#include "vision/wood/rank/panel.h"
#include "vision/wood/rank/part_picture.h"
#include "vision/wood/rank/rank.h"

namespace rackside {

// One board's best place for the part, as it might look planed, at one scale for all.
struct RankedLooks {
  Part part;
  Ranking ranking;
  std::vector<QImage> pictures;  // as ranking.places
  double mmPerPx = 1;
};

struct PanelLooks {
  Part part;
  Panel panel;
  std::vector<StripPictures> strips;
  double mmPerPx = 1;
};

class LookSession : public QObject {
  Q_OBJECT
 public:
  explicit LookSession(Document& document, QObject* parent = nullptr);
  ~LookSession() override;

  bool running() const { return control_ != nullptr; }
  void rank(const PartId& part, const Wish& wish);
  void layPanel(const PartId& part, const Wish& wish);
  void stop();

 signals:
  void started();
  void ranked(const std::shared_ptr<const RankedLooks>& looks);
  void panelLaid(const std::shared_ptr<const PanelLooks>& looks);
  void failed(const QString& why);

 private:
  template <class Looks, class Work, class Tell>
  void ask(const PartId& part, const Wish& wish, Work work, Tell tell);

  Document& document_;
  QThreadPool pool_;
  std::shared_ptr<RunControl> control_;  // of the latest question
};

QImage imageOf(const cv::Mat3b& bgr);

}  // namespace rackside
