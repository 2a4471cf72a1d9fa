#include "spirit/density.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/density_kernel.hpp"

namespace lynearm::spirit {
namespace {

units::Temperature checked(units::Temperature t) {
  if (!(t >= coldest && t <= warmest)) {
    throw base::InputError("temperature", fmt::format("{:.2f} °C", t.celsius()),
                           "-20 to 40 °C, the range of the density formula (OIML R 22)");
  }
  return t;
}

}  // namespace

units::Density density(units::MassFraction ethanol, units::Temperature t) {
  const double p = ethanol.fraction();
  if (!(p >= 0.0 && p <= 1.0)) {
    throw base::InputError("strength", fmt::format("{:.4f} % mass", 100.0 * p),
                           "0 to 100 % by mass");
  }
  return units::Density::kilograms_per_cubic_metre(
      DensityAt(checked(t).celsius())(p).density_kgm3);
}

units::MassFraction mass_fraction_at(units::Density density, units::Temperature t) {
  const DensityAt at(checked(t).celsius());
  const double wanted = density.kilograms_per_cubic_metre();
  const Found found = at.mass_fraction(wanted);
  if (found.fit != Fit::mixture) {
    throw base::InputError(
        "density", fmt::format("{:.3f} kg/m³ at {:.2f} °C", wanted, t.celsius()),
        fmt::format("{:.3f} (pure ethanol) to {:.3f} (water) kg/m³ at that temperature",
                    at.pure_ethanol_kgm3(), at.water_kgm3()));
  }
  at.put_back(found.mass_fraction, wanted);
  return units::MassFraction::fraction(found.mass_fraction);
}

}  // namespace lynearm::spirit
