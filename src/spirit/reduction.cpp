#include "spirit/reduction.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/reduction_checks.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {

Reduction reduce(const Lot& spirit, units::VolumeStrength to) {
  const double from_p = mass_fraction(spirit).fraction();
  const double to_p = mass_fraction(to).fraction();
  // Asking for the strength it already has adds no water; rounding must not make that an error.
  constexpr double rounding = 1e-12;
  if (!(to_p > 0.0 && to_p <= from_p + rounding)) {
    throw base::InputError(
        "to", fmt::format("{:.2f} %vol", to.percent()),
        fmt::format(
            "above 0 and at most the spirit's own {:.2f} %vol; water cannot strengthen it",
            strength(spirit).percent()));
  }
  const units::Mass total = spirit.ethanol / to_p;
  const units::Mass water =
      total > spirit.mass() ? total - spirit.mass() : units::Mass::kilograms(0.0);
  return dilute(spirit, water);
}

Reduction dilute(const Lot& spirit, units::Mass water) {
  check_amount(spirit, "spirit");
  check_amount(water, "water");
  Reduction reduction;
  reduction.water = water;
  reduction.water_at_20C = volume(Lot{{}, water});
  reduction.result = spirit + Lot{{}, water};
  reduction.volume_at_20C = volume(reduction.result);
  reduction.contraction = volume(spirit) + reduction.water_at_20C - reduction.volume_at_20C;
  return reduction;
}

Blend blend(const std::vector<Lot>& parts) {
  if (parts.empty()) throw base::InputError("part", "", "at least one lot to blend");
  Blend blend;
  units::Volume sum;
  for (const Lot& part : parts) {
    blend.result = blend.result + part;
    sum += volume(part);
  }
  blend.volume_at_20C = volume(blend.result);
  blend.strength = strength(blend.result);
  blend.contraction = sum - blend.volume_at_20C;
  return blend;
}

}  // namespace lynearm::spirit
