#include "cli/air_pressure.hpp"

#include <fmt/format.h>

#include <utility>

#include "vapour/atmosphere.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_pressure = "--pressure";
constexpr const char* option_altitude = "--altitude";
constexpr const char* option_boiling = "--boiling-water";

}  // namespace

units::Pressure air_pressure(Arguments& arguments) {
  const auto pressure = arguments.optional<units::Pressure>(option_pressure);
  const auto altitude = arguments.optional<units::Length>(option_altitude);
  if (pressure && altitude) {
    arguments.refuse(option_altitude, arguments.texts(option_altitude).front(),
                     "either --pressure or --altitude, not both");
  }
  if (pressure) {
    arguments.keep_within(option_pressure, *pressure, units::Pressure::kilopascals(20.0),
                          units::Pressure::kilopascals(120.0));
    return *pressure;
  }
  if (altitude) {
    arguments.keep_within(option_altitude, *altitude, units::Length::metres(-400.0),
                          units::Length::metres(9000.0));
    if (!arguments.refused(option_altitude)) return vapour::standard_pressure(*altitude);
  }
  return units::Pressure::atmospheres(1.0);
}

AskedAir asked_air(Arguments& arguments) {
  AskedAir asked;
  if (arguments.has(option_pressure) || arguments.has(option_altitude)) {
    asked.stated = air_pressure(arguments);
  }
  asked.read_today = arguments.has(option_pressure);
  asked.boiling_water = arguments.optional<units::Temperature>(option_boiling);
  return asked;
}

DaysAir days_air(const AskedAir& asked, const Arguments& arguments, units::Pressure otherwise,
                 units::TemperatureChange spread) {
  const units::Pressure pressure = asked.stated.value_or(otherwise);
  if (!asked.boiling_water) return {pressure, std::nullopt};
  still::AirBefore before{pressure, asked.read_today ? still::barometer_sd : still::weather_sd,
                          spread};
  try {
    const still::TodaysAir today = still::todays_air(before, *asked.boiling_water);
    return {today.pressure, today};
  } catch (const base::InputError& error) {
    std::vector<base::Fault> faults = error.faults();
    for (base::Fault& fault : faults) {
      if (fault.field == "boiling_water") {
        fault.field = option_boiling;
        fault.value = arguments.texts(option_boiling).front();
        if (!asked.stated) fault.accepted += "; where the place is high, give --altitude too";
      }
    }
    throw base::InputError(std::move(faults));
  }
}

Option boiling_water_option(std::string help) {
  return {option_boiling, "TEMPERATURE", std::move(help)};
}

std::string offset_shown(units::TemperatureChange offset, units::System system) {
  const std::string text = units::print(offset, system);
  return offset > units::TemperatureChange{} ? fmt::format("+{}", text) : text;
}

}  // namespace lynearm::cli
