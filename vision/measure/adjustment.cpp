// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/adjustment.h"

#include <cmath>

#include "vision/measure/advice.h"
#include "vision/measure/fit.h"
#include "vision/measure/plane_modes.h"
#include "vision/measure/plane_view.h"

namespace rackside {
namespace {

using measure::Fit;

class Adjusted final : public Adjustment {
 public:
  explicit Adjusted(Fit fit) : fit_(std::move(fit)), warnings_(measure::warnings(fit_)) {
    const Eigen::MatrixXd covariance = measure::inverseOf(fit_.normal);
    for (size_t i = 0; i < fit_.at.lenses.size(); ++i) lenses_.push_back(lensOf(i, covariance));
    for (size_t i = 0; i < fit_.scene.pieces.size(); ++i) cards_.push_back(cardFit(i));
  }

  cv::Point2d imageFromPlane(size_t photo, Point planeMm, double zMm) const override {
    return measure::imageFromPlane(fit_, need(photo), planeMm, zMm);
  }
  std::optional<Point> planeFromImage(size_t photo, cv::Point2d px, double zMm) const override {
    return measure::planeFromImage(fit_, need(photo), px, zMm);
  }
  cv::Point3d cameraCentre(size_t photo) const override {
    return measure::cameraCentre(fit_, need(photo));
  }
  const Lens& lens(size_t photo) const override { return lenses_[fit_.scene.lensOf[need(photo)]]; }
  const std::vector<CardFit>& cards() const override { return cards_; }
  std::optional<Pose> planeFromCard(int number) const override {
    for (size_t i = 0; i < cards_.size(); ++i)
      if (number > 0 && cards_[i].number == number) return poseOf(i);
    return std::nullopt;
  }
  std::optional<Pose> planeFromTarget(const std::string& name) const override {
    for (size_t i = 0; i < cards_.size(); ++i)
      if (cards_[i].name == name) return poseOf(i);
    return std::nullopt;
  }
  double rmsPx() const override {
    double sum = 0;
    int corners = 0;
    for (const CardFit& c : cards_) {
      sum += c.rmsPx * c.rmsPx * c.corners;
      corners += c.corners;
    }
    return corners > 0 ? std::sqrt(sum / corners) : 0;
  }
  std::vector<PlaneMode> planeModes(const Polygon& region,
                                    const Pose& boardFromPlane) const override {
    return measure::planeModes(fit_, region, boardFromPlane);
  }
  std::vector<std::string> advice(const Polygon& region,
                                  const Pose& boardFromPlane) const override {
    return measure::advice(fit_, region, boardFromPlane);
  }
  const std::vector<std::string>& warnings() const override { return warnings_; }

 private:
  size_t need(size_t photo) const {
    if (photo >= fit_.scene.sizes.size()) throw std::logic_error("Adjustment: no such photograph");
    return photo;
  }

  Lens lensOf(size_t index, const Eigen::MatrixXd& covariance) const {
    using namespace measure;
    Lens lens = fit_.scene.lensPriors[index];
    const LensBlock& at = fit_.at.lenses[index];
    lens.focalPx = at[focal];
    lens.cx = at[centreX];
    lens.cy = at[centreY];
    lens.k1 = at[radial1];
    lens.k2 = at[radial2];
    const auto& column = fit_.columns.lens[index];
    for (int i = 0; i < lensParts; ++i)
      for (int j = 0; j < lensParts; ++j)
        lens.covariance[i * lensParts + j] =
            column[i] < 0 || column[j] < 0 ? 0 : covariance(column[i], column[j]);
    return lens;
  }

  CardFit cardFit(size_t piece) const {
    const Target& target = fit_.scene.pieces[piece].target;
    CardFit card{target.number, target.name, 0, 0, 0};
    double sum = 0;
    for (size_t i = 0; i < fit_.scene.seen.size(); ++i) {
      const measure::Observation& o = fit_.scene.seen[i];
      if (o.piece != static_cast<int>(piece)) continue;
      ++(o.used ? card.corners : card.rejected);
      if (o.used) sum += fit_.residualsPx[i].dot(fit_.residualsPx[i]);
    }
    if (card.corners > 0) card.rmsPx = std::sqrt(sum / (2 * card.corners));
    return card;
  }

  Pose poseOf(size_t piece) const {
    const measure::PlaceBlock& place = fit_.at.places[piece];
    const Target& target = fit_.scene.pieces[piece].target;
    const double scale = target.printed ? fit_.at.shared[measure::cardScale] : 1;
    const Pose centre{{place[measure::placeX], place[measure::placeY]}, place[measure::placeTurn]};
    return {apply(centre, -scale * target.centre), centre.angleRad};
  }

  Fit fit_;
  std::vector<std::string> warnings_;
  std::vector<Lens> lenses_;
  std::vector<CardFit> cards_;
};

}  // namespace

Result<std::unique_ptr<Adjustment>> adjust(const std::vector<Sight>& sights,
                                           const AdjustmentOptions& options) {
  Result<measure::Scene> scene = measure::sceneOf(sights, options);
  if (!scene) return scene.error();
  Result<Fit> fit = measure::fit(std::move(scene).value());
  if (!fit) return fit.error();
  return std::unique_ptr<Adjustment>(std::make_unique<Adjusted>(std::move(fit).value()));
}

}  // namespace rackside
