// A still that is followed in tests: the invented kit, usual borders, readings of a run at the
// medians without any error.
#pragma once

#include <algorithm>
#include <vector>

#include "numeric/ensemble.hpp"
#include "still/follow.hpp"
#include "still/runs.hpp"
#include "still/sight.hpp"
#include "still/synthetic_run.hpp"

namespace lynearm::still {

inline StillPrior prior_of_kit() {
  StillPrior prior;
  prior.charge = charge_of(20.0, 27.0);
  prior.setting = synthetic_kit();
  return prior;
}

inline CutRules usual_rules() {
  CutRules rules;
  rules.heads_end = units::Volume::millilitres(300.0);
  rules.hearts_end = units::VolumeStrength::percent(60.0);
  rules.stop = units::VolumeStrength::percent(20.0);
  return rules;
}

inline Follower follower_of(const StillPrior& prior, const CutRules& rules,
                            std::size_t members = 200, std::uint64_t seed = 3) {
  return Follower(prior, rules, at_one_atmosphere(), seed, members,
                  numeric::one_after_another());
}
inline Follower follower(std::size_t members = 200, std::uint64_t seed = 3) {
  return follower_of(prior_of_kit(), usual_rules(), members, seed);
}

/// What a still at its medians shows every ten minutes, read without any error.
inline std::vector<Reading> exact_readings(units::Duration until, double first_min = 50.0) {
  const StillPrior prior = prior_of_kit();
  Stop stop;
  stop.spout_strength = units::VolumeStrength::percent(10.0);
  const Run run = distil(prior.charge, prior.setting, at_one_atmosphere(), stop);
  std::vector<Reading> all;
  for (double min = first_min; min <= until.minutes(); min += 10.0) {
    const Sight seen = sight(run, units::Duration::minutes(min));
    Reading reading;
    reading.at = units::Duration::minutes(min);
    reading.head_temperature = seen.head;
    if (seen.spout) {
      reading.spout = spirit::Reading{seen.spout->percent(), spirit::Scale::percent_vol};
      reading.spout_temperature = units::Temperature::celsius(20.0);
    }
    reading.collected = seen.collected;
    all.push_back(reading);
  }
  return all;
}

inline Follower followed_to(double minutes) {
  Follower followed = follower();
  for (const Reading& reading : exact_readings(units::Duration::minutes(minutes))) {
    followed.take(reading, numeric::one_after_another());
  }
  return followed;
}

inline Reading power_at(double minutes, double watts) {
  Reading reading;
  reading.at = units::Duration::minutes(minutes);
  reading.power = units::Power::watts(watts);
  return reading;
}
inline Reading event_at(double minutes, Event event) {
  Reading reading;
  reading.at = units::Duration::minutes(minutes);
  reading.event = event;
  return reading;
}

inline Forecast forecast_of(const Follower& followed, std::size_t steps = 20) {
  return followed.forecast(numeric::one_after_another(), steps);
}
inline const NextDecision* decision_of(const Forecast& forecast, Decision decision) {
  const auto found = std::find_if(forecast.decisions.begin(), forecast.decisions.end(),
                                  [decision](const auto& d) { return d.decision == decision; });
  return found == forecast.decisions.end() ? nullptr : &*found;
}

}  // namespace lynearm::still
