#include "plan/still_setting.hpp"

#include <cmath>

namespace lynearm::plan {
namespace {

// A sphere that holds V has 4.84 V^(2/3) of surface. Dome, neck and arm of a small pot still
// are about 0.3 of that: 0.18 m² on 45 L, 0.30 m² on 100 L (our estimate).
constexpr double head_surface = 1.4;
constexpr double bare_copper_W_per_m2_K = 12.0;
constexpr double estimate_half_width = 0.4;

units::HeatCapacity metal(units::Mass mass, Material material) {
  return units::HeatCapacity::joules_per_kelvin(mass.kilograms() *
                                                specific_heat_J_per_kg_K(material));
}

}  // namespace

still::Boiler still_boiler(const Kit& kit, const Drawn& drawn) {
  const Boiler& given = kit.still.boiler;
  still::Boiler boiler;
  boiler.total = given.total;
  boiler.wall = metal(given.wall_mass, given.wall);
  boiler.loss = given.loss * drawn.heat_loss_factor.fraction();
  boiler.power = given.power;
  boiler.heating_efficiency = given.heat_efficiency;
  boiler.power_adjustable = given.power_adjustable;
  boiler.element_covered_above = given.element_covered_above;
  return boiler;
}

still::RunSetting run_setting(const Kit& kit, const Drawn& drawn, units::Power running,
                              bool gentle) {
  const Still& given = kit.still;
  still::RunSetting setting;
  if (drawn.head_loss) {
    setting.head.loss = *drawn.head_loss * drawn.heat_loss_factor.fraction();
    setting.head.cooling = given.head_cooling;
  } else {
    setting.head.fixed_reflux = gentle ? drawn.head_reflux_spirit : drawn.head_reflux_strip;
  }
  setting.head.wall = metal(given.head_mass, given.boiler.wall);
  setting.head.plates = given.plates;
  setting.head.plate_efficiency = given.plate_efficiency;
  setting.heating = {running, given.boiler.heat_efficiency,
                     given.boiler.loss * drawn.heat_loss_factor.fraction(), kit.place.ambient};
  setting.to_the_boil = given.boiler.power;
  setting.wall = metal(given.boiler.wall_mass - given.head_mass, given.boiler.wall);
  setting.hold_up = {given.coil_holds, given.parrot_holds};
  return setting;
}

still::RunSetting run_setting(const Kit& kit, units::Power running, bool gentle) {
  return run_setting(kit, medians(kit), running, gentle);
}

units::Power running_power(const Kit& kit, bool gentle) {
  const Boiler& boiler = kit.still.boiler;
  return gentle && boiler.power_adjustable ? boiler.power * kit.still.spirit_power.fraction()
                                           : boiler.power;
}

units::Spread<units::HeatLoss> estimated_head_loss(units::Volume boiler) {
  const double surface_m2 = head_surface * std::pow(boiler.litres() * 1e-3, 2.0 / 3.0);
  const auto loss = units::HeatLoss::watts_per_kelvin(bare_copper_W_per_m2_K * surface_m2);
  return {loss, loss * estimate_half_width};
}

}  // namespace lynearm::plan
