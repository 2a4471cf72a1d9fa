#include "station/air.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "still/reading.hpp"
#include "vapour/atmosphere.hpp"

namespace lynearm::station {
namespace {

// Where people distil; as for a kit.
constexpr units::Pressure thinnest = units::Pressure::kilopascals(55.0);
constexpr units::Pressure thickest = units::Pressure::kilopascals(108.0);

// It moves the boiling by 0.1 K, a thermometer's last mark.
constexpr double wavers_hPa = 3.0;

std::optional<units::Pressure> pressure_of(const journal::AirRead& air) {
  std::optional<units::Pressure> read = air.pressure;
  if (!read && air.boiling_water) {
    try {
      read = vapour::pressure_from_boiling_water(*air.boiling_water);
    } catch (const base::InputError&) {
      return std::nullopt;
    }
  }
  if (!read || *read < thinnest || *read > thickest) return std::nullopt;
  return read;
}

}  // namespace

std::optional<units::Pressure> air_of_run(const std::vector<journal::AirState>& of_house,
                                          const std::vector<journal::AirState>& of_batch,
                                          const journal::RunState& run) {
  std::vector<std::pair<journal::Moment, units::Pressure>> read;
  for (const auto* airs : {&of_house, &of_batch}) {
    for (const journal::AirState& one : *airs) {
      if (journal::since(run.told.at, one.told.at) > air_holds) continue;
      if (journal::since(one.told.at, run.told.at) > still::longest_run) continue;
      if (run.ended && one.told.at > run.ended->at) continue;
      if (const auto pressure = pressure_of(one.air)) read.emplace_back(one.told.at, *pressure);
    }
  }
  std::stable_sort(read.begin(), read.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::optional<units::Pressure> holds;
  for (const auto& [at, pressure] : read) {
    // Another pressure begins the following anew: a barometer that wavers does not.
    const double off_hPa = holds ? std::abs((pressure - *holds).hectopascals()) : 0.0;
    if (!holds || at <= run.told.at || off_hPa > wavers_hPa) holds = pressure;
  }
  return holds;
}

}  // namespace lynearm::station
