// Runs as they are followed. For each run a follower that has taken its readings; a new reading
// is one more update, and what changes the past (a corrected or struck reading, another charge
// or kit) begins it anew. Entries come in any order; the follower takes them so.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "journal/state.hpp"
#include "numeric/ensemble.hpp"
#include "plan/kit.hpp"
#include "plan/recipe.hpp"
#include "plan/still_prior.hpp"
#include "still/follow.hpp"
#include "wire/run_forecast.hpp"

namespace lynearm::station {

/// What a run's forecast needs to know of it before it begins.
[[nodiscard]] plan::RunAhead ahead_of(const journal::RunState& run);

class Followed {
 public:
  static constexpr std::size_t usual_members = 1000;

  /// members    of each follower, 100 to 20,000: fewer are quicker and tell less
  explicit Followed(numeric::Executor executor, std::size_t members = usual_members)
      : executor_(std::move(executor)), members_(members) {}

  /// The run with all its readings and filled jars. One run is followed by one caller at a
  /// time, others wait.
  ///
  /// kit_text   what `kit` was read from: another text begins the following anew
  /// run        its charge known
  /// throws     InputError as still::Follower does for the charge, the kit and the rules; a
  ///            reading that it refuses is told in the result, not thrown
  [[nodiscard]] wire::RunForecast of(const plan::Recipe& recipe, const plan::Kit& kit,
                                     const std::string& kit_text, const journal::RunState& run);
  /// The same by the caller's executor; what that throws comes through, and the run begins anew
  /// the next time.
  [[nodiscard]] wire::RunForecast of(const plan::Recipe& recipe, const plan::Kit& kit,
                                     const std::string& kit_text, const journal::RunState& run,
                                     const numeric::Executor& executor);

  /// Is it followed already, or being begun?
  [[nodiscard]] bool begun(const journal::Id& run) const;

 private:
  /// Readings and filled jars, in the order in which they are taken.
  using Points = std::vector<const journal::RunPoint*>;
  struct Desk {
    std::mutex mutex;
    std::string made_of;                      ///< what the follower began with
    std::optional<still::Follower> follower;  ///< let go when its run has ended and is told
    std::vector<journal::Id> taken;           ///< entries of its readings, one of each
    std::vector<still::Reading> ended;        ///< those readings, once it was let go
    std::vector<wire::Refused> refused;       ///< and the readings that were not
    std::size_t crowded = 0;                  ///< of those taken, not weighed whole
    std::optional<wire::RunForecast> told;    ///< of just these
  };

  void follow(Desk& desk, const plan::Recipe& recipe, const plan::Kit& kit,
              const std::string& kit_text, const journal::RunState& run,
              const numeric::Executor& executor) const;
  void begin(Desk& desk, const plan::Recipe& recipe, const plan::Kit& kit,
             const journal::RunState& run, const numeric::Executor& executor) const;
  /// As they were taken.
  [[nodiscard]] static const std::vector<still::Reading>& readings(const Desk& desk);
  /// The entries that are not taken yet; null when what was taken is no longer so.
  [[nodiscard]] static std::optional<std::set<journal::Id>> not_taken(const Desk& desk,
                                                                      const Points& points);
  static void take(Desk& desk, const Points& points, const std::set<journal::Id>& fresh,
                   const numeric::Executor& executor);
  [[nodiscard]] static wire::RunForecast tell(const Desk& desk, const journal::RunState& run,
                                              const numeric::Executor& executor);

  numeric::Executor executor_;
  std::size_t members_;
  mutable std::mutex mutex_;
  std::map<journal::Id, std::shared_ptr<Desk>> desks_;
};

}  // namespace lynearm::station
