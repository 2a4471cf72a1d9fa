// The air of a command: its pressure by --pressure, or the mean at --altitude, or what holds
// otherwise; and with --boiling-water today's pressure and today's thermometer
// (still/todays_air.hpp).
#pragma once

#include <optional>
#include <string>

#include "cli/arguments.hpp"
#include "cli/command.hpp"
#include "cli/look.hpp"
#include "still/todays_air.hpp"
#include "units/quantity.hpp"

namespace lynearm::cli {

/// Reads both options and notes a fault when both stand there or one is out of range: 20 to 120
/// kPa, -400 to 9000 m.
[[nodiscard]] units::Pressure air_pressure(Arguments& arguments);

/// What is asked of the air.
struct AskedAir {
  std::optional<units::Pressure> stated;            ///< by --pressure or --altitude
  bool read_today = false;                          ///< by --pressure: a barometer's figure
  std::optional<units::Temperature> boiling_water;  ///< as the thermometer shows it
};
/// Reads --pressure, --altitude and --boiling-water; notes faults in `arguments`.
[[nodiscard]] AskedAir asked_air(Arguments& arguments);

/// The air of the day: without a look into boiling water the pressure alone.
struct DaysAir {
  units::Pressure pressure;
  std::optional<still::TodaysAir> today;
};

/// The day's air. A pressure that was read is known to a barometer's spread, so that boiling
/// water tells the thermometer's offset; otherwise the pressure is the mean of the place with
/// the weather's spread, and boiling water tells both together.
///
/// otherwise  the pressure of the place where none is stated: the kit's, or one atmosphere
/// spread     of the thermometer before the look, as a standard deviation
/// throws     InputError "--boiling-water" with the text that was typed
[[nodiscard]] DaysAir days_air(const AskedAir& asked, const Arguments& arguments,
                               units::Pressure otherwise = units::Pressure::atmospheres(1.0),
                               units::TemperatureChange spread = still::thermometer_sd);

/// --boiling-water, with what it does for a command.
[[nodiscard]] Option boiling_water_option(std::string help);

/// "+0.4 K", and for US units "+0.7 °F".
[[nodiscard]] std::string offset_shown(units::TemperatureChange offset, units::System system);

}  // namespace lynearm::cli
