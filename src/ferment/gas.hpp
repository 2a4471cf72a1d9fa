// Carbon dioxide in the room: how much, how strong the air becomes, and how much fresh air
// keeps it breathable. A well mixed room at constant pressure. The gas is 1.5 times as heavy
// as air: pits, cupboards and chest freezers fill from below, far sooner than the mean says.
#pragma once

#include <optional>
#include <string_view>

#include "units/quantity.hpp"

namespace lynearm::ferment {

/// Eight-hour limit in workplaces, by volume: OSHA PEL, ACGIH TLV and UK EH40, 5000 ppm.
inline constexpr units::Share carbon_dioxide_limit_8h = units::Share::fraction(0.005);
/// NIOSH short-term limit, 30 000 ppm, and immediately dangerous, 40 000 ppm (from memory).
inline constexpr units::Share carbon_dioxide_limit_short = units::Share::fraction(0.030);
inline constexpr units::Share carbon_dioxide_dangerous = units::Share::fraction(0.040);
/// Fresh air, rounded.
inline constexpr units::Share carbon_dioxide_outdoors = units::Share::fraction(0.0004);

/// The caution shown wherever a fermentation is.
inline constexpr std::string_view carbon_dioxide_caution =
    "Carbon dioxide cannot be smelt and gathers low. From 7 % in air it makes unconscious "
    "within minutes. Air the room, keep the vessel vented, never lean into a vat or enter a "
    "pit or cold store with one, and keep a carbon dioxide alarm near the floor.";

/// Volume of a mass of carbon dioxide gas. Ideal gas: 24.055 L/mol at 20 °C and 101.325 kPa,
/// high by 0.5 %.
[[nodiscard]] units::Volume carbon_dioxide_volume(
    units::Mass mass, units::Temperature t = units::Temperature::celsius(20.0),
    units::Pressure pressure = units::Pressure::atmospheres(1.0));

/// Fresh air that holds the room at `limit` for good while `rate` of gas is given off.
///
/// limit      above `outdoors`, under 1
/// throws     InputError otherwise, or for a negative rate
/// source     steady balance Q = G (1 - limit)/(limit - outdoors)
[[nodiscard]] units::VolumeFlow fresh_air_needed(
    units::VolumeFlow rate, units::Share limit = carbon_dioxide_limit_8h,
    units::Share outdoors = carbon_dioxide_outdoors);

/// A room and how often its air is renewed.
struct Room {
  units::Volume volume;
  double air_changes_per_hour =
      0.3;  ///< closed living room 0.2 to 0.6: common practice, no source
  units::Share outdoors = carbon_dioxide_outdoors;
};

/// Share of carbon dioxide in the room's air after `elapsed` of a steady `rate`, starting from
/// outdoor air.
///
/// throws     InputError for a room without volume, or a negative argument
/// source     V dc/dt = G + Q c_out - (Q + G) c, solved
[[nodiscard]] units::Share concentration(const Room& room, units::VolumeFlow rate,
                                         units::Duration elapsed);
/// Where concentration() tends: (G + Q c_out)/(G + Q).
[[nodiscard]] units::Share steady_concentration(const Room& room, units::VolumeFlow rate);
/// When concentration() reaches `limit`; nothing when it never does.
[[nodiscard]] std::optional<units::Duration> time_to_reach(units::Share limit, const Room& room,
                                                           units::VolumeFlow rate);

}  // namespace lynearm::ferment
