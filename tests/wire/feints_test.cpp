#include "wire/feints.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "vapour/congener_curve.hpp"
#include "wire/still.hpp"

namespace lynearm::wire {
namespace {

using Json = nlohmann::ordered_json;

still::ToldFeints told() {
  const vapour::BoilingCurve curve(units::Pressure::atmospheres(1.0));
  const vapour::CongenerCurve volatility(curve);
  still::Recycling recycling;
  recycling.low_wines.lot =
      spirit::lot(units::Volume::litres(20.0), units::VolumeStrength::percent(27.0));
  recycling.low_wines.congeners =
      still::usual_amounts(spirit::pure_alcohol(recycling.low_wines.lot));
  recycling.charge_at_most = units::VolumeStrength::percent(30.0);
  recycling.setting.head.fixed_reflux = units::Share::percent(8.0);
  recycling.setting.heating.power = units::Power::kilowatts(2.0);
  recycling.stop.spout_strength = units::VolumeStrength::percent(10.0);
  recycling.borders = {units::Volume::millilitres(100.0), units::Volume::millilitres(500.0),
                       units::VolumeStrength::percent(62.0)};
  return still::tell_feints(recycling, 5, {1.5, units::Volume::litres(24.0)}, curve,
                            volatility);
}

TEST(FeintsJson, IsTheRecycleItWasMadeFrom) {
  const still::ToldFeints made = told();
  const Json object = Json::parse(feints_json(made));
  ASSERT_EQ(object["generations"].size(), 5U);
  for (std::size_t i = 0; i < 5; ++i) {
    const Json& row = object["generations"][i];
    const still::Generation& g = made.generations[i];
    EXPECT_EQ(row["generation"], static_cast<int>(i + 1));
    EXPECT_NEAR(row["charge_volume_L_20C"].get<double>(), g.charge_volume().litres(), 1e-8);
    EXPECT_NEAR(row["feints_volume_L_20C"].get<double>(), g.feints_volume().litres(), 1e-8);
    EXPECT_NEAR(row["hearts_late_congeners_g_per_L"].get<double>(),
                still::oils(g.hearts).late.grams_per_litre(), 1e-9);
  }
  EXPECT_EQ(object["generations"][0]["feints_in_volume_L_20C"], 0.0);
  const Json& bleed = object["bleed"];
  ASSERT_TRUE(made.bleeding.from);
  EXPECT_EQ(bleed["from_generation"], *made.bleeding.from);
  EXPECT_EQ(bleed["because_of_volume"], true);
  EXPECT_NEAR(bleed["share_of_feints"].get<double>(), made.bleeding.share.fraction(), 1e-9);
  EXPECT_LE(bleed["then"]["charge_volume_L_20C"].get<double>(), 24.0 + 1e-6);
  EXPECT_EQ(object["unbled"]["steady"], false);
  EXPECT_EQ(object["cautions"][0], still_caution);
}

}  // namespace
}  // namespace lynearm::wire
