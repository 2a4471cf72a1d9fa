#include "still/days_cues.hpp"

#include <algorithm>
#include <functional>

#include "spirit/strength.hpp"

namespace lynearm::still {
namespace {

using units::VolumeStrength;

// Spirit strengths at which a maker looks at the head.
constexpr double spout_percent[] = {80, 75, 70, 65, 60, 56, 50, 40, 30, 20, 10};

DaysCue cue_of(const TodaysAir& air, CueOf of, VolumeStrength strength) {
  const units::MoleFraction ethanol = spirit::mole_fraction(spirit::mass_fraction(strength));
  const Cue cue = of == CueOf::boiling ? boiling_cue(air, ethanol) : dew_cue(air, ethanol);
  return {of, strength, air.true_of(cue.as_shown), cue};
}

}  // namespace

std::vector<DaysCue> days_cues(const TodaysAir& air, std::vector<VolumeStrength> liquids) {
  if (liquids.empty()) {
    liquids = {VolumeStrength::percent(28.0), VolumeStrength::percent(8.0), VolumeStrength{}};
  }
  std::sort(liquids.begin(), liquids.end(), std::greater<>());
  std::vector<DaysCue> all;
  for (const VolumeStrength liquid : liquids) {
    all.push_back(cue_of(air, CueOf::boiling, liquid));
  }
  for (const double percent : spout_percent) {
    all.push_back(cue_of(air, CueOf::head, VolumeStrength::percent(percent)));
  }
  return all;
}

}  // namespace lynearm::still
