#include "wire/still.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "spirit/lot.hpp"
#include "vapour/boiling_curve.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::wire {
namespace {

using Json = nlohmann::ordered_json;

TEST(StillJson, aStrippingIsTheRunItWasMadeFrom) {
  const units::Pressure pressure = units::Pressure::kilopascals(95.0);
  still::Charge charge;
  charge.spirit = spirit::lot(units::Volume::litres(20.0), units::VolumeStrength::percent(7.5));
  still::RunSetting setting;
  setting.head.fixed_reflux = units::Share::percent(5.0);
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

still::ToldRun told_run(bool congeners) {
  const vapour::BoilingCurve curve(units::Pressure::kilopascals(95.0));
  const vapour::CongenerCurve volatility(curve);
  still::Charge charge;
  charge.spirit =
      spirit::lot(units::Volume::litres(15.0), units::VolumeStrength::percent(28.0));
  if (congeners) {
    charge.congeners = still::usual_amounts(spirit::pure_alcohol(charge.spirit));
  }
  still::RunSetting setting;
  setting.head.loss = units::HeatLoss::watts_per_kelvin(1.2);
  setting.heating.power = units::Power::kilowatts(1.2);
  still::Stop stop;
  stop.spout_strength = units::VolumeStrength::percent(10.0);
  still::Run run = still::distil(charge, setting, curve, stop, &volatility);
  still::Asked asked;
  asked.borders =
      still::Borders{units::Volume::millilitres(150.0), units::VolumeStrength::percent(73.0),
                     units::VolumeStrength::percent(62.0)};
  asked.jar = units::Volume::millilitres(500.0);
  const still::VapourFlow vapour{run.first().over_mol_per_s, run.first().leaving_ethanol};
  asked.conductance = still::conductance(vapour, {}, curve);
  asked.coolant = still::coolant_at_approaches(vapour, {}, curve);
  return still::tell(std::move(run), asked, curve);
}

TEST(StillJson, aSpiritRunIsTheRunItWasMadeFrom) {
  const still::ToldRun told = told_run(true);
  const Json object = Json::parse(spirit_json(told));
  ASSERT_EQ(object["curve"].size(), told.curve.size());
  for (std::size_t i = 0; i < told.curve.size(); i += 25) {
    const Json& row = object["curve"][i];
    const still::Step& step = told.curve[i];
    const auto expect = [&](const char* key, double value) {
      EXPECT_NEAR(row[key].get<double>(), value, 1e-9 * (1.0 + std::abs(value))) << key;
    };
    expect("collected_volume_L_20C", step.point.collected.litres());
    expect("spout_percent_vol", step.point.spout.percent());
    expect("cumulative_percent_vol", step.point.cumulative.percent());
    expect("pot_percent_vol", step.point.pot.percent());
    expect("pot_temperature_C", step.point.pot_temperature.celsius());
    expect("head_temperature_C", step.point.head_temperature.celsius());
    expect("minutes", step.point.since_start.minutes());
    expect("spirit_temperature_C", step.spout.exchange.spirit.celsius());
    expect("late_g", step.came.late_g);
  }
  ASSERT_EQ(object["fractions"].size(), 4u);
  EXPECT_EQ(object["fractions"][2]["name"], "hearts");
  EXPECT_NEAR(object["fractions"][2]["volume_L_20C"].get<double>(),
              told.cuts->hearts.volume.litres(), 1e-9);
  EXPECT_EQ(object["fractions"][2]["congeners"][0]["id"], "methanol");
  EXPECT_EQ(object["jars"].size(), told.jars.size());
  EXPECT_EQ(object["setting"]["head_loss_W_per_K"], 1.2);
  EXPECT_FALSE(object["setting"].contains("head_reflux_fraction"));
  EXPECT_EQ(object["pressure_kPa"], 95.0);
  EXPECT_EQ(object["cautions"][0], still_caution);
}

TEST(StillJson, aSpiritRunWithoutCongenersLeavesThemOut) {
  const Json object = Json::parse(spirit_json(told_run(false)));
  EXPECT_FALSE(object["curve"][0].contains("early_g"));
  EXPECT_FALSE(object["fractions"][0].contains("congeners"));
  EXPECT_FALSE(object["jars"][0].contains("early"));
}

}  // namespace
}  // namespace lynearm::wire
