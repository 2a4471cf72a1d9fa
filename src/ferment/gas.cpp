#include "ferment/gas.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "ferment/yield.hpp"

namespace lynearm::ferment {
namespace {

using units::Duration;
using units::Share;
using units::VolumeFlow;

constexpr double gas_constant_J_per_mol_K = 8.314462618;

void accept_not_negative(const char* field, double value, const char* unit) {
  if (!(value >= 0.0 && std::isfinite(value)))
    throw base::InputError(field, fmt::format("{} {}", value, unit), "zero or more");
}

struct Balance {
  double approach_per_h;  // (Q + G)/V
  double steady, outdoors;
};

Balance balance(const Room& room, VolumeFlow rate) {
  const double volume_L = room.volume.litres();
  if (!(volume_L > 0.0 && std::isfinite(volume_L)))
    throw base::InputError("room.volume", fmt::format("{} L", volume_L), "above zero");
  accept_not_negative("room.air_changes_per_hour", room.air_changes_per_hour, "per hour");
  accept_not_negative("rate", rate.litres_per_hour(), "L/h");
  const double outdoors = room.outdoors.fraction();
  if (!(outdoors >= 0.0 && outdoors < 1.0))
    throw base::InputError("room.outdoors", fmt::format("{}", outdoors), "0 to 1");
  const double air_L_per_h = room.air_changes_per_hour * volume_L;
  const double all_L_per_h = air_L_per_h + rate.litres_per_hour();
  if (all_L_per_h == 0.0) return {0.0, outdoors, outdoors};
  return {all_L_per_h / volume_L,
          (rate.litres_per_hour() + air_L_per_h * outdoors) / all_L_per_h, outdoors};
}

}  // namespace

units::Volume carbon_dioxide_volume(units::Mass mass, units::Temperature t,
                                    units::Pressure pressure) {
  accept_not_negative("mass", mass.kilograms(), "kg");
  if (!(pressure.pascals() > 0.0))
    throw base::InputError("pressure", fmt::format("{} Pa", pressure.pascals()), "above zero");
  const double moles = mass.grams() / carbon_dioxide_g_per_mol;
  return units::Volume::cubic_metres(moles * gas_constant_J_per_mol_K * t.kelvins() /
                                     pressure.pascals());
}

VolumeFlow fresh_air_needed(VolumeFlow rate, Share limit, Share outdoors) {
  accept_not_negative("rate", rate.litres_per_hour(), "L/h");
  if (!(outdoors.fraction() >= 0.0 && limit > outdoors && limit.fraction() < 1.0))
    throw base::InputError("limit", fmt::format("{} ppm", limit.fraction() * 1e6),
                           "above outdoor air, under 1 000 000 ppm");
  return rate * ((1.0 - limit.fraction()) / (limit - outdoors).fraction());
}

Share concentration(const Room& room, VolumeFlow rate, Duration elapsed) {
  accept_not_negative("elapsed", elapsed.hours(), "h");
  const Balance b = balance(room, rate);
  return Share::fraction(b.outdoors - (b.steady - b.outdoors) *
                                          std::expm1(-b.approach_per_h * elapsed.hours()));
}

Share steady_concentration(const Room& room, VolumeFlow rate) {
  return Share::fraction(balance(room, rate).steady);
}

std::optional<Duration> time_to_reach(Share limit, const Room& room, VolumeFlow rate) {
  const Balance b = balance(room, rate);
  if (limit.fraction() <= b.outdoors) return Duration::hours(0.0);
  if (!(limit.fraction() < b.steady)) return std::nullopt;
  const double left = (b.steady - limit.fraction()) / (b.steady - b.outdoors);
  return Duration::hours(-std::log(left) / b.approach_per_h);
}

}  // namespace lynearm::ferment
