#include "spirit/hydrometer.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "spirit/density_kernel.hpp"
#include "spirit/marks.hpp"

namespace lynearm::spirit {
namespace {

void check_range(units::Temperature t) {
  if (!(t >= coldest && t <= warmest)) {
    throw base::InputError("at", fmt::format("{:.2f} °C", t.celsius()),
                           "-20 to 40 °C, the range of the density formula (OIML R 22)");
  }
}

}  // namespace

units::Density density_shown(const Reading& reading, units::Temperature t,
                             const Hydrometer& hydrometer) {
  check_range(t);
  const Marks marks(reading.scale, hydrometer);
  return units::Density::kilograms_per_cubic_metre(marks.density_kgm3(reading.figure) /
                                                   marks.glass(t.celsius()));
}

units::MassFraction true_mass_fraction(const Reading& reading, units::Temperature t,
                                       const Hydrometer& hydrometer) {
  const double density_kgm3 = density_shown(reading, t, hydrometer).kilograms_per_cubic_metre();
  const DensityAt at(t.celsius());
  const Found found = at.mass_fraction(density_kgm3);
  if (found.fit != Fit::mixture) {
    const auto end = [&](double p) {
      return print(shown(units::MassFraction::fraction(p), t, reading.scale, hydrometer));
    };
    throw base::InputError("reading", print(reading),
                           fmt::format("at {:.1f} °C, {} (water) to {} (pure ethanol)",
                                       t.celsius(), end(0.0), end(1.0)));
  }
  at.put_back(found.mass_fraction, density_kgm3);
  return units::MassFraction::fraction(found.mass_fraction);
}

Reading shown(units::MassFraction ethanol, units::Temperature t, Scale scale,
              const Hydrometer& hydrometer) {
  check_range(t);
  const Marks marks(scale, hydrometer);
  const double marked =
      density(ethanol, t).kilograms_per_cubic_metre() * marks.glass(t.celsius());
  return {marks.figure(marked), scale};
}

}  // namespace lynearm::spirit
