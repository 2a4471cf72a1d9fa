#include "cli/air_pressure.hpp"

#include "vapour/atmosphere.hpp"

namespace lynearm::cli {

units::Pressure air_pressure(Arguments& arguments) {
  const auto pressure = arguments.optional<units::Pressure>("--pressure");
  const auto altitude = arguments.optional<units::Length>("--altitude");
  if (pressure && altitude) {
    arguments.refuse("--altitude", arguments.texts("--altitude").front(),
                     "either --pressure or --altitude, not both");
  }
  if (pressure) {
    arguments.keep_within("--pressure", *pressure, units::Pressure::kilopascals(20.0),
                          units::Pressure::kilopascals(120.0));
    return *pressure;
  }
  if (altitude) {
    arguments.keep_within("--altitude", *altitude, units::Length::metres(-400.0),
                          units::Length::metres(9000.0));
    if (!arguments.refused("--altitude")) return vapour::standard_pressure(*altitude);
  }
  return units::Pressure::atmospheres(1.0);
}

}  // namespace lynearm::cli
