#include "vapour/flash.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "spirit/strength.hpp"
#include "vapour/activity.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {

units::Temperature flash_temperature(units::VolumeStrength strength, units::Pressure p) {
  require_in_range(p, "pressure");
  if (!(strength.percent() >= 3.0 && strength.percent() <= 100.0)) {
    throw base::InputError("strength", fmt::format("{:.4g} %vol", strength.percent()),
                           "3 to 100 %vol");
  }
  const units::MoleFraction x = spirit::mole_fraction(spirit::mass_fraction(strength));
  const double wanted_Pa = p.pascals() * least_to_burn.fraction();
  // Thin air needs less ethanol: at 20 kPa pure ethanol flashes below 0 °C, where these
  // equations are not used; the bracket then has no root and the search says so.
  const auto excess = [&](double t_K) {
    const auto t = units::Temperature::kelvins(t_K);
    return std::log(x.fraction() * activity_coefficients(x, t).ethanol *
                    vapour_pressure(Substance::ethanol, t).pascals() / wanted_Pa);
  };
  return units::Temperature::kelvins(
      numeric::root_between(excess, coldest.kelvins(), hottest.kelvins(), "flash temperature")
          .value);
}

}  // namespace lynearm::vapour
