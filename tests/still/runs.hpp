// The charges and runs that the tests of still/ share.
#pragma once

#include "spirit/lot.hpp"
#include "still/run.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::still {

inline const vapour::BoilingCurve& at_one_atmosphere() {
  static const vapour::BoilingCurve curve(units::Pressure::atmospheres(1.0));
  return curve;
}

inline Charge charge_of(double litres, double percent) {
  return {spirit::lot(units::Volume::litres(litres), units::VolumeStrength::percent(percent)),
          {},
          units::Temperature::celsius(20.0)};
}

inline RunSetting setting_with(double reflux_percent) {
  RunSetting setting;
  setting.head.fixed_reflux = units::Share::percent(reflux_percent);
  setting.heating.power = units::Power::kilowatts(3.0);
  return setting;
}

inline Stop spout_at(double percent) {
  Stop stop;
  stop.spout_strength = units::VolumeStrength::percent(percent);
  return stop;
}

inline Run run_of(double litres, double percent, double reflux_percent, double stop_percent) {
  return distil(charge_of(litres, percent), setting_with(reflux_percent), at_one_atmosphere(),
                spout_at(stop_percent));
}

}  // namespace lynearm::still
