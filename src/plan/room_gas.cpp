#include "plan/room_gas.hpp"

#include "ferment/gas.hpp"

namespace lynearm::plan {

RoomGas room_gas(units::Mass mass, const Place& place) {
  return {
      mass,
      ferment::carbon_dioxide_volume(mass, units::Temperature::celsius(20.0), place.pressure),
      std::nullopt};
}

RoomGas room_gas(units::Mass mass, const ferment::Pace& pace, const Place& place) {
  RoomGas gas = room_gas(mass, place);
  GasPeak peak;
  // The pace counts its gas at 101.325 kPa; in a higher house it takes more room.
  peak.rate = pace.peak_carbon_dioxide * (units::Pressure::atmospheres(1.0) / place.pressure);
  peak.at = pace.peak_at;
  peak.fresh_air = ferment::fresh_air_needed(peak.rate);
  if (place.ferment_room) {
    peak.room = ferment::steady_concentration(
        {*place.ferment_room, place.air_changes_per_hour, ferment::carbon_dioxide_outdoors},
        peak.rate);
  }
  gas.peak = peak;
  return gas;
}

}  // namespace lynearm::plan
