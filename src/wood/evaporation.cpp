#include "wood/evaporation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "spirit/strength.hpp"
#include "vapour/activity.hpp"
#include "vapour/pure.hpp"
#include "wood/sampling.hpp"

namespace lynearm::wood {
namespace {

using spirit::Lot;
using units::Duration;
using units::Mass;
using units::Temperature;
using units::Volume;

constexpr double reference_thickness_mm = 25.0;

void accept(const char* field, double value, double low, double high, const char* unit) {
  if (!(value >= low && value <= high))
    throw base::InputError(field, fmt::format("{:.4g} {}", value, unit),
                           fmt::format("{:g} to {:g} {}", low, high, unit));
}

/// Masses lost a year, kg; the cellar holds no alcohol in its air.
struct Loss {
  double ethanol_kg, water_kg;
};

struct Passage {
  double ethanol_kg_per_y_Pa = 0.0;
  double water_kg_per_y_Pa = 0.0;
  double ethanol_Pa = 0.0;  // pure, at the cellar's temperature
  double water_Pa = 0.0;
  double air_water_Pa = 0.0;
  Temperature t;

  Loss operator()(double ethanol_kg, double water_kg) const {
    const double ethanol_mol = ethanol_kg / spirit::ethanol_molar_mass_g_per_mol;
    const double x =
        ethanol_mol / (ethanol_mol + water_kg / spirit::water_molar_mass_g_per_mol);
    const auto gamma = vapour::activity_coefficients(units::MoleFraction::fraction(x), t);
    return {ethanol_kg_per_y_Pa * x * gamma.ethanol * ethanol_Pa,
            water_kg_per_y_Pa * ((1.0 - x) * gamma.water * water_Pa - air_water_Pa)};
  }
};

Lot soaked_lot(const Lot& filled, Volume soaked) {
  const Volume all = spirit::volume(filled);
  if (!(soaked < all))
    throw base::InputError(
        "filled", fmt::format("{:.2f} L", all.litres()),
        fmt::format("more than the {:.2f} L the wood drinks", soaked.litres()));
  return filled * (soaked / all);
}

CaskPoint point(double years, const Lot& lot) {
  return {Duration::years(years), lot, spirit::volume(lot), spirit::strength(lot)};
}

}  // namespace

Walls walls(Volume cask, bool new_wood) {
  const double area_m2 = cask_surface(cask).square_metres_per_litre() * cask.litres();
  return {
      units::Area::square_metres(area_m2),
      units::Length::millimetres(reference_thickness_mm * std::pow(cask.litres() / 200.0, 0.2)),
      new_wood};
}

Walls walls(const Cask& measured, bool new_wood) {
  return {inner_area(measured), measured.stave, new_wood};
}

Rested rest(const Lot& filled, const Walls& walls, const Cellar& cellar, Duration time,
            const Permeability& oak) {
  accept("filled", spirit::strength(filled).percent(), 10.0, 90.0, "%vol");
  accept("walls.area", walls.area.square_metres(), 1e-3, 100.0, "m²");
  accept("walls.thickness", walls.thickness.millimetres(), 5.0, 60.0, "mm");
  accept("cellar.t", cellar.t.celsius(), 0.0, 40.0, "°C");
  accept("cellar.humidity", cellar.humidity.fraction(), 0.0, 1.0, "");
  accept("time", time.years(), 0.0, 50.0, "years");
  accept("oak.water", oak.water, 0.0, 1.0, "kg/(m² y Pa)");
  accept("oak.ethanol", oak.ethanol, 0.0, 1.0, "kg/(m² y Pa)");

  Rested out;
  if (walls.new_wood) out.soaked = soaked_lot(filled, soak_in(walls.area));
  out.course.push_back(point(0.0, filled));
  const Lot start = filled - out.soaked;

  const double open_m2 =
      walls.area.square_metres() * reference_thickness_mm / walls.thickness.millimetres();
  const double water_Pa = vapour::vapour_pressure(vapour::Substance::water, cellar.t).pascals();
  const Passage passage{
      .ethanol_kg_per_y_Pa = oak.ethanol * open_m2,
      .water_kg_per_y_Pa = oak.water * open_m2,
      .ethanol_Pa = vapour::vapour_pressure(vapour::Substance::ethanol, cellar.t).pascals(),
      .water_Pa = water_Pa,
      .air_water_Pa = cellar.humidity.fraction() * water_Pa,
      .t = cellar.t};

  // The rates change over years: midpoint steps of a month are exact to 1e-5 of the loss.
  double ethanol_kg = start.ethanol.kilograms(), water_kg = start.water.kilograms();
  const double years = time.years();
  double at = 0.0;
  while (at < years - 1e-12) {
    const double h = std::min(1.0 / 12.0, years - at);
    const Loss first = passage(ethanol_kg, water_kg);
    const double ethanol_mid = ethanol_kg - 0.5 * h * first.ethanol_kg;
    const double water_mid = water_kg - 0.5 * h * first.water_kg;
    // A small cask in dry heat empties; a step that would overshoot ends the course.
    if (!(ethanol_mid > 0.0 && water_mid > 0.0)) break;
    const Loss middle = passage(ethanol_mid, water_mid);
    const double ethanol_next = ethanol_kg - h * middle.ethanol_kg;
    const double water_next = water_kg - h * middle.water_kg;
    if (!(ethanol_next > 0.0 && water_next > 0.0 &&
          ethanol_next + water_next > 0.1 * filled.mass().kilograms()))
      break;
    ethanol_kg = ethanol_next;
    water_kg = water_next;
    at += h;
    out.course.push_back(point(at, {Mass::kilograms(ethanol_kg), Mass::kilograms(water_kg)}));
  }
  const Lot left = at > 0.0 ? out.course.back().lot : start;
  if (at == 0.0) out.course.push_back(point(0.0, left));
  out.evaporated = start - left;
  if (at > 0.0) {
    const double kept = spirit::volume(left) / spirit::volume(start);
    out.loss_per_year = units::Share::fraction((1.0 - kept) / at);
  }
  return out;
}

GlassRest rest_in_glass(const Lot& filled, const Stave& stave, double count, Duration time,
                        units::Share closure_loss_per_year) {
  accept("closure_loss_per_year", closure_loss_per_year.fraction(), 0.0, 0.1, "");
  accept("time", time.years(), 0.0, 50.0, "years");
  GlassRest out;
  out.soaked = soaked_lot(filled, soak_in(stave, count));
  const Lot free = filled - out.soaked;
  out.left = free * std::exp(-closure_loss_per_year.fraction() * time.years());
  out.escaped = free - out.left;
  return out;
}

}  // namespace lynearm::wood
