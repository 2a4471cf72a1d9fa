#include "station/air.hpp"

#include "base/error.hpp"
#include "vapour/atmosphere.hpp"

namespace lynearm::station {
namespace {

// Where people distil; as for a kit.
constexpr units::Pressure thinnest = units::Pressure::kilopascals(55.0);
constexpr units::Pressure thickest = units::Pressure::kilopascals(108.0);

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
  std::optional<units::Pressure> latest;
  std::optional<journal::Moment> when;
  for (const auto* airs : {&of_house, &of_batch}) {
    for (const journal::AirState& one : *airs) {
      if (journal::since(run.told.at, one.told.at) > air_holds) continue;
      if (run.ended && one.told.at > run.ended->at) continue;
      if (when && one.told.at < *when) continue;
      const std::optional<units::Pressure> pressure = pressure_of(one.air);
      if (!pressure) continue;
      latest = pressure;
      when = one.told.at;
    }
  }
  return latest;
}

}  // namespace lynearm::station
