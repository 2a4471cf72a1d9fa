#include "wire/still.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "spirit/lot.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::wire {
namespace {

using Json = nlohmann::ordered_json;

TEST(StillJson, aStrippingIsTheRunItWasMadeFrom) {
  const units::Pressure pressure = units::Pressure::kilopascals(95.0);
  still::Charge charge;
  charge.spirit = spirit::lot(units::Volume::litres(20.0), units::VolumeStrength::percent(7.5));
  still::RunSetting setting;
  setting.head_reflux = units::Share::percent(5.0);
  setting.heating.power = units::Power::kilowatts(3.0);
  still::Stop stop;
  stop.spout_strength = units::VolumeStrength::percent(10.0);
  const still::Run run = still::distil(charge, setting, vapour::BoilingCurve(pressure), stop);
  const Json object = Json::parse(stripping_json(run, pressure));
  const auto expect = [&](const char* key, double value) {
    EXPECT_NEAR(object[key].get<double>(), value, 1e-9 * (1.0 + value)) << key;
  };
  expect("low_wines_volume_L_20C", run.last().collected.litres());
  expect("low_wines_percent_vol", run.last().cumulative.percent());
  expect("alcohol_recovered_fraction", run.recovered().fraction());
  expect("pot_left_percent_vol", run.last().pot.percent());
  expect("wash_volume_L_20C", 20.0);
  expect("wash_percent_vol", 7.5);
  expect("head_reflux_fraction", 0.05);
  expect("pressure_kPa", 95.0);
  EXPECT_GT(object["pot_temperature_last_C"], object["pot_temperature_first_C"]);
  EXPECT_EQ(object["caution"], still_caution);
}

}  // namespace
}  // namespace lynearm::wire
