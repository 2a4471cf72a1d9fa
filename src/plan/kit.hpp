// The kit: the vessels, the still, the place and its liquor, as plain values. A kit file is
// read into it by recipe/read_kit.hpp; every key there is a member here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "units/parse.hpp"
#include "units/quantity.hpp"

namespace lynearm::plan {

/// What a wall is made of; it sets the heat the wall takes up.
enum class Material { stainless_steel, copper, aluminium, glass, plastic, wood };

/// Specific heat of a wall material, J/(kg K). CRC Handbook values from memory: steel 500,
/// copper 385, aluminium 900, glass 840; plastic (polyethylene) 1900, oak 2000.
[[nodiscard]] double specific_heat_J_per_kg_K(Material material);

/// A pot, tub or fermenter.
struct Vessel {
  std::string name;
  units::Volume total;    ///< brim
  units::Volume working;  ///< as full as it may safely be; at most `total`
  units::Mass wall_mass;
  Material wall = Material::stainless_steel;
  units::HeatLoss loss_lid_on;  ///< to still air
  units::HeatLoss loss_open;    ///< lid off: more, for the surface steams
  units::Volume dead_volume;    ///< cannot be drained
  units::Power heat;            ///< zero when it is not heated
  units::Share heat_efficiency = units::Share::percent(85.0);  ///< of the heat source
  bool heated_from_below = false;  ///< flame or plate: thick mash can scorch
  units::HeatLoss cooling_coil;    ///< extra loss while the coil runs, against the coil's water

  [[nodiscard]] units::HeatCapacity wall_heat_capacity() const {
    return units::HeatCapacity::joules_per_kelvin(wall_mass.kilograms() *
                                                  specific_heat_J_per_kg_K(wall));
  }
};

/// How the boiler is heated.
enum class BoilerHeat { element, plate, flame, steam_jacket, water_bath };

/// The pot of the still.
struct Boiler {
  units::Volume total;
  units::Share wash_fill = units::Share::percent(67.5);   ///< of total, for a clear wash
  units::Share grain_fill = units::Share::percent(57.5);  ///< of total, foaming or on the grain
  units::Share spirit_fill = units::Share::percent(70.0);  ///< of total, for low wines
  units::Mass wall_mass;
  Material wall = Material::copper;
  units::HeatLoss loss;
  units::Power power;
  units::Share heat_efficiency = units::Share::percent(98.0);
  BoilerHeat heat = BoilerHeat::element;
  bool power_adjustable = false;
  units::Volume
      element_covered_above;  ///< liquid that must stay in the pot; zero without element
};

/// The head and the condenser.
struct Still {
  Boiler boiler;
  /// Heat from head and lyne arm to the room. When there is one the head works by it: a gentler
  /// fire sends more of the vapour back, and the two shares below are not looked at.
  std::optional<units::Spread<units::HeatLoss>> head_loss;
  units::Spread<units::Share>
      head_reflux_strip;  ///< molar share of the vapour running back, fast run
  units::Spread<units::Share> head_reflux_spirit;  ///< the same on a gentle run
  units::Power head_cooling;  ///< taken by a cooled head; zero without one, or with the shares
  units::Mass head_mass;      ///< of boiler.wall_mass, what is hot only once vapour passes
  int plates = 0;             ///< above the pot
  units::Share plate_efficiency = units::Share::percent(60.0);  ///< Murphree, of the vapour
  units::Temperature coolant_inlet;
  units::VolumeFlow greatest_coolant_flow;
  units::Volume coil_holds;    ///< spirit clinging in coil and pipe while it runs
  units::Volume parrot_holds;  ///< spirit in the glass that the alcoholmeter floats in
  units::Share spirit_power = units::Share::percent(60.0);  ///< of the power, when adjustable
};

/// Where the house stands and what the air does.
struct Place {
  units::Pressure pressure;  ///< today's, or standard at the altitude
  units::Temperature ambient;
  std::optional<units::Volume> ferment_room;  ///< air in the room with the fermenter
  double air_changes_per_hour = 0.5;
  units::Share humidity = units::Share::percent(65.0);  ///< of the air where spirit matures
};

/// Waters at hand.
struct Liquor {
  units::Temperature cold;
  units::Temperature hot;
};

/// A cask at hand.
struct Cask {
  std::string name;
  units::Volume volume;
  units::Length stave_thickness = units::Length::millimetres(25.0);
  bool used = false;
};

/// Staves at hand, all of one size.
struct StaveStock {
  units::Length length, width, thickness;
  int count = 0;  ///< zero when as many as needed can be had
};

/// Classes of OIML R 44.
enum class AlcoholmeterClass { one, two, three, uncertified };

/// The yardsticks: half widths of the 80 % band of a reading.
struct Instruments {
  units::TemperatureChange thermometer = units::TemperatureChange::kelvins(0.5);
  units::VolumeStrength alcoholmeter = units::VolumeStrength::percent(0.5);
  AlcoholmeterClass alcoholmeter_class = AlcoholmeterClass::uncertified;
  std::string certificate{};  ///< of the alcoholmeter, in the house's words; may be empty
};

/// Constants of the house that a batch is predicted with, each with its spread. The defaults
/// come from data/process.toml; a kit states its own once they are known.
struct Constants {
  units::Spread<units::Share> conversion;        ///< extract dissolved of what the enzymes free
  units::Spread<units::Share> drained_moisture;  ///< water in the wet grain, drained only
  units::Spread<units::Share> squeezed_moisture;  ///< water in the wet grain, squeezed
  units::Spread<units::Share> sparge_mixing;      ///< how well a sparge reaches the held liquor
  units::Spread<units::Share> fermentable_factor;  ///< on the fermentable share of the bill
  units::Spread<units::Share> alcohol_yield;       ///< of the theory, from the sugar fermented
  units::Spread<units::Share> ferment_vigour;      ///< on the yeast's pace (1 = as forecast)
  units::Spread<units::Share> lees;                ///< of the wash, left with the yeast
  units::Spread<units::Share> still_loss;     ///< of the alcohol charged: vapour, wetted walls
  units::Spread<units::Share> transfer_loss;  ///< of a spirit at each move
  units::Spread<units::Share>
      heat_loss_factor;  ///< on every heat loss of the kit (1 = as stated)
  units::Spread<units::Share> evaporation_factor;  ///< on the loss from cask or closure
};

/// Everything the house has.
struct Kit {
  std::string name;
  Place place;
  Liquor liquor;
  std::vector<Vessel> vessels;
  Still still;
  std::vector<Cask> casks;
  std::optional<StaveStock> staves;
  Instruments instruments;
  Constants constants;

  /// The vessel of that name, or nullptr.
  [[nodiscard]] const Vessel* vessel(const std::string& vessel_name) const;
};

}  // namespace lynearm::plan
