// Congeners beside a run: what a usual charge carries, how much of each has come at any moment,
// and what lies between two moments. Leaves out what forms or binds in the pot and on copper.
// Says nothing about whether a spirit is fit to drink.
#pragma once

#include <array>

#include "base/figure.hpp"
#include "still/cuts.hpp"
#include "still/run.hpp"
#include "units/quantity.hpp"
#include "vapour/congener.hpp"

namespace lynearm::still {

/// Of one congener in the low wines and feints of a grain mash.
struct UsualCongener {
  std::string_view id;  ///< of vapour::congeners(), in its order
  base::Figure<units::MassConcentration> in_pure_alcohol;  ///< grams to a litre of ethanol
};

/// What a usual charge carries: the orders of magnitude printed for new grain spirit, recalled
/// and judged; the range, a factor of two to three, is meant as an 80 % band. What a mash
/// really has depends on grain, yeast and ferment. Not compared with analyses.
[[nodiscard]] const std::array<UsualCongener, vapour::congener_count>& usual_congeners();

/// Those in a charge of this much pure alcohol.
[[nodiscard]] CongenerAmounts usual_amounts(units::Volume pure_alcohol);

/// Congeners in all that has come from the spout up to a volume.
///
/// run        with congeners; else InputError("charge.congeners")
/// collected  0 to the end of the run; else InputError("collected")
/// accuracy   at the run's points theirs; between, cubics in the logarithm of what is still to
///            come: within 6e-7 of a congener's charge against runs with many more points, with
///            150 mL in coil and parrot within 2e-4 (tests/still/congeners_of_run_test.cpp)
[[nodiscard]] CongenerAmounts congeners_to(const Run& run, units::Volume collected);

/// Congeners in what runs between two moments. Throws as congeners_to().
[[nodiscard]] CongenerAmounts congeners_in(const Run& run, const Fraction& fraction);

/// Grams of those that come early, of the higher alcohols, of those that come late. Methanol,
/// which no cut parts off, is in none.
struct Groups {
  double early_g = 0.0, middle_g = 0.0, late_g = 0.0;
};
[[nodiscard]] Groups groups_of(const CongenerAmounts& amounts);

/// Whether a congener, by its place in vapour::congeners(), counts in a group.
[[nodiscard]] bool in_group(std::size_t congener, vapour::Comes group);

}  // namespace lynearm::still
