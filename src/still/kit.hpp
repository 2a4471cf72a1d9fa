// What stands in the still house: a boiler, its head, a condenser, what they hold up, and the
// place they stand in.
#pragma once

#include <optional>

#include "units/quantity.hpp"

namespace lynearm::still {

/// The vessel that is heated.
struct Boiler {
  units::Volume total;                                    ///< brim full
  units::Share fill_limit = units::Share::percent(70.0);  ///< greatest charge over total
  units::HeatCapacity wall;                               ///< of the metal that is heated too
  units::HeatLoss loss;                                   ///< of the boiler to the room
  units::Power power;                                     ///< the greatest it draws
  units::Share heating_efficiency = units::Share::percent(100.0);  ///< drawn heat that arrives
  bool power_adjustable = false;
  units::Volume element_covered_above;  ///< least hot volume; zero when heated from outside
};

/// What stands between the pot and the condenser. Some of the rising vapour condenses there and
/// runs back, either a given share of it or as much as the head loses in heat.
struct Head {
  /// Share by moles of the rising vapour that runs back, 0 to 0.9. When given, `loss` and
  /// `cooling` are not looked at: the head then behaves alike at any fire.
  std::optional<units::Share> fixed_reflux;
  units::HeatLoss loss;      ///< head and lyne arm to the room; 0 to 10 kW/K
  units::Power cooling;      ///< taken by a cooled head, 0 without one; to 1 MW
  units::HeatCapacity wall;  ///< of metal that must be hot before vapour passes
  int plates = 0;            ///< above the pot, 0 to 12
  /// Murphree's, of the vapour; above 0, to 100 %. Our estimate.
  units::Share plate_efficiency = units::Share::percent(60.0);
};

/// What stays on the way from vapour to jar, each well mixed: what the hydrometer shows is late
/// and blunted by it.
struct HoldUp {
  units::Volume condenser;  ///< clinging in coil and pipe
  units::Volume parrot;     ///< the overflowing glass that the hydrometer floats in
};

/// Where vapour becomes spirit again.
struct Condenser {
  units::Temperature coolant_inlet = units::Temperature::celsius(15.0);
  units::VolumeFlow greatest_flow;
  /// How near the leaving coolant comes to the vapour, and the spirit to the entering coolant,
  /// in a good counter-current coil; common practice, no source.
  units::TemperatureChange warm_end_approach = units::TemperatureChange::kelvins(10.0);
  units::TemperatureChange cold_end_approach = units::TemperatureChange::kelvins(5.0);
};

/// The day's air.
struct Place {
  units::Pressure pressure = units::Pressure::atmospheres(1.0);
  units::Temperature ambient = units::Temperature::celsius(20.0);
};

/// Heat into the pot: what is drawn, what arrives, what is lost on the way.
struct Heating {
  units::Power power;
  units::Share efficiency = units::Share::percent(100.0);
  units::HeatLoss loss;
  units::Temperature ambient = units::Temperature::celsius(20.0);
};

/// The heating of a boiler at its greatest power.
[[nodiscard]] inline Heating full_heat(const Boiler& boiler, units::Temperature ambient) {
  return {boiler.power, boiler.heating_efficiency, boiler.loss, ambient};
}

/// What reaches the liquid at `pot`: power times efficiency less the loss; may be negative.
[[nodiscard]] inline units::Power net_power(const Heating& heating, units::Temperature pot) {
  return heating.power * heating.efficiency.fraction() -
         units::Power::watts(heating.loss.watts_per_kelvin() *
                             (pot - heating.ambient).kelvins());
}

}  // namespace lynearm::still
