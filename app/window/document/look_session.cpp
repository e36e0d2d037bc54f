// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/look_session.h"

#include <algorithm>

#include "app/window/document/background.h"
#include "app/window/look/text.h"
#include "vision/wood/rank/rack_pictures.h"

namespace rackside {
namespace {

constexpr double kFinestMm = 0.5, kWidestPx = 1400;

struct Question {
  Rack rack;
  std::filesystem::path folder;
  Part part;
  Wish wish;

  double mmPerPx() const { return std::max(kFinestMm, part.lengthMm / kWidestPx); }
};

Result<RankedLooks> rankedLooks(const Question& q, RunControl& control) {
  auto ranking =
      rankBoards(q.rack.boards, q.part, q.rack.shop, q.wish, figuresIn(q.folder), control);
  if (!ranking) return ranking.error();
  RankedLooks looks{q.part, std::move(ranking).value(), {}, q.mmPerPx()};
  for (const Placement& place : looks.ranking.places) {
    if (control.shouldEnd()) return Error{"Stopped."};
    const auto picture = partPicture(*q.rack.findBoard(place.board), place, q.part, q.folder,
                                     looks.mmPerPx, control);
    if (!picture) return picture.error();
    looks.pictures.push_back(imageOf(*picture));
  }
  return looks;
}

Result<PanelLooks> panelLooks(const Question& q, RunControl& control) {
  auto panel = panelOf(q.rack.boards, q.part, q.rack.shop, q.wish, figuresIn(q.folder), control);
  if (!panel) return panel.error();
  auto strips = stripPictures(q.rack.boards, *panel, q.folder, q.mmPerPx(), control);
  if (!strips) return strips.error();
  return PanelLooks{q.part, std::move(panel).value(), std::move(strips).value(), q.mmPerPx()};
}

// A fault while looking ends the look, not the program with the maker's work in it.
template <class Looks, class Work>
Result<Looks> lookOrFail(Work work, const Question& question, RunControl& control) {
  try {
    return work(question, control);
  } catch (const std::exception& fault) {
    return Error{std::string("Looking at the boards could not go on (") + fault.what() +
                 "). Nothing was changed; please report this."};
  }
}

}  // namespace

QImage imageOf(const cv::Mat3b& bgr) {
  return QImage(bgr.data, bgr.cols, bgr.rows, static_cast<qsizetype>(bgr.step),
                QImage::Format_BGR888)
      .copy();
}

LookSession::LookSession(Document& document, QObject* parent)
    : QObject(parent), document_(document) {
  pool_.setMaxThreadCount(1);
}

LookSession::~LookSession() {
  stop();
  pool_.waitForDone();
}

void LookSession::stop() {
  if (control_) control_->stop();
  control_.reset();
}

template <class Looks, class Work, class Tell>
void LookSession::ask(const PartId& id, const Wish& wish, Work work, Tell tell) {
  stop();
  const Part* part = document_.rack().findPart(id);
  if (!part) return;
  control_ = std::make_shared<RunControl>();
  emit started();
  inBackground(
      pool_, this,
      [work, question = Question{document_.rack(), document_.folder(), *part, wish},
       control = control_] {
        return std::make_shared<Result<Looks>>(lookOrFail<Looks>(work, question, *control));
      },
      [this, tell, asked = control_](const std::shared_ptr<Result<Looks>>& found) {
        if (asked != control_) return;  // another question has been asked since
        control_.reset();
        if (!found->ok()) return emit failed(qt(found->error().message));
        tell(std::make_shared<const Looks>(std::move(*found).value()));
      });
}

void LookSession::rank(const PartId& part, const Wish& wish) {
  ask<RankedLooks>(part, wish, rankedLooks, [this](const auto& looks) { emit ranked(looks); });
}

void LookSession::layPanel(const PartId& part, const Wish& wish) {
  ask<PanelLooks>(part, wish, panelLooks, [this](const auto& looks) { emit panelLaid(looks); });
}

}  // namespace rackside
