#include "spirit/reduction_inverse.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "spirit/reduction_checks.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {

SpiritNeeded spirit_needed(units::Volume wanted, units::VolumeStrength to,
                           units::VolumeStrength from, units::Temperature t) {
  check_wanted(wanted, "volume");
  check_wanted(from, "from");
  if (!(to.fraction() > 0.0 && to <= from)) {
    throw base::InputError(
        "to", fmt::format("{:.2f} %vol", to.percent()),
        fmt::format(
            "above 0 and at most the spirit's own {:.2f} %vol; water cannot strengthen it",
            from.percent()));
  }
  const Lot result = lot(wanted, to, t);
  const double p = mass_fraction(from).fraction();
  SpiritNeeded out;
  // Where the two strengths are one, rounding must not take more water than there is.
  out.spirit = {result.ethanol, std::min(result.water, result.ethanol * ((1.0 - p) / p))};
  out.reduction = dilute(out.spirit, result.water - out.spirit.water);
  return out;
}

Lot before_water(const Lot& result, units::Mass water) {
  check_amount(result, "result");
  check_amount(water, "water");
  if (!(water <= result.water)) {
    throw base::InputError("water", fmt::format("{:.4f} kg", water.kilograms()),
                           fmt::format("at most {:.4f} kg, all the water there is in it",
                                       rounded_down(result.water.kilograms(), 4)));
  }
  return {result.ethanol, result.water - water};
}

units::Mass water_added(const Lot& result, units::VolumeStrength before) {
  check_amount(result, "result");
  if (!(result.ethanol > units::Mass{})) {
    throw base::InputError("result", "0.00 %vol", "a spirit: water alone tells of no strength");
  }
  check_wanted(before, "before");
  const double p = mass_fraction(before).fraction();
  const units::Mass spirit_water = result.ethanol * ((1.0 - p) / p);
  constexpr double rounding = 1e-12;
  if (!(spirit_water <= result.water + result.mass() * rounding)) {
    throw base::InputError("before", fmt::format("{:.2f} %vol", before.percent()),
                           fmt::format("{:.2f} to 100 %vol: at least what it is now",
                                       rounded_up(strength(result).percent(), 2)));
  }
  return std::max(units::Mass{}, result.water - spirit_water);
}

}  // namespace lynearm::spirit
