// Ferments as they are followed: the batch as it was pitched, with what its plan knows of
// sugar, yeast food and vessel, and the readings taken since. The last answer of each batch is
// kept; another reading, a corrected one or another plan makes it anew.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "journal/state.hpp"
#include "numeric/ensemble.hpp"
#include "station/planned.hpp"
#include "wire/ferment_forecast.hpp"

namespace lynearm::station {

/// What the pace is asked of: the plan's batch, but volume, gravity and yeast as pitched. The
/// yeast food that the extract brings goes with the extract.
[[nodiscard]] ferment::Batch batch_pitched(const PlanMade& made,
                                           const journal::PitchState& pitch);

/// Readings of the ferment between pitch and racking, and their entries in the same order.
struct FermentReadings {
  std::vector<ferment::Reading> readings;
  std::vector<journal::Id> entries;
};
[[nodiscard]] FermentReadings readings_of(const journal::FermentState& ferment);

class Fermenting {
 public:
  explicit Fermenting(numeric::Executor executor) : executor_(std::move(executor)) {}

  /// made       the batch's plan
  /// made_of    its texts: others begin anew
  /// batch      pitched
  /// throws     InputError as ferment::follow() does
  [[nodiscard]] std::shared_ptr<const wire::FermentForecast> of(
      const PlanMade& made, const std::string& made_of, const journal::BatchState& batch);

  /// The last that was told of a batch, be there newer readings or not; else null.
  [[nodiscard]] std::shared_ptr<const wire::FermentForecast> ready(
      const journal::Id& batch) const;

 private:
  struct Kept {
    std::string of;
    std::shared_ptr<const wire::FermentForecast> told;
  };

  numeric::Executor executor_;
  mutable std::mutex mutex_;
  std::map<journal::Id, Kept> kept_;
};

}  // namespace lynearm::station
