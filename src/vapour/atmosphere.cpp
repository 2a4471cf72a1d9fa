#include "vapour/atmosphere.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {

units::Pressure standard_pressure(units::Length altitude) {
  const double z_m = altitude.metres();
  if (!(z_m >= -400.0 && z_m <= 9000.0)) {
    throw base::InputError("altitude", fmt::format("{:.6g} m", z_m), "-400 to 9000 m");
  }
  constexpr double earth_radius_m = 6356766.0;
  constexpr double sea_level_K = 288.15;
  constexpr double lapse_K_per_m = 6.5e-3;
  constexpr double g0 = 9.80665;
  constexpr double air_kg_per_mol = 0.0289644;
  constexpr double gas_constant_1976 = 8.31432;  // the standard's own, not today's
  const double geopotential_m = earth_radius_m * z_m / (earth_radius_m + z_m);
  const double ratio = 1.0 - lapse_K_per_m * geopotential_m / sea_level_K;
  const double exponent = g0 * air_kg_per_mol / (gas_constant_1976 * lapse_K_per_m);
  return units::Pressure::pascals(101325.0 * std::pow(ratio, exponent));
}

units::Temperature water_boiling_point(units::Pressure p) {
  return boiling_point(Substance::water, p);
}

units::Pressure pressure_from_boiling_water(units::Temperature t) {
  const units::Pressure p = vapour_pressure(Substance::water, t);
  if (p.kilopascals() < 20.0 || p.kilopascals() > 120.0) {
    throw base::InputError("boiling_water", fmt::format("{:.6g} °C", t.celsius()),
                           "60.1 to 104.7 °C (20 to 120 kPa)");
  }
  return p;
}

}  // namespace lynearm::vapour
