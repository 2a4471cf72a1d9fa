#include "wire/spirit.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "spirit/strength.hpp"
#include "wire/reduction.hpp"

namespace lynearm::wire {
namespace {

using Json = nlohmann::ordered_json;
using units::MassFraction;
using units::VolumeStrength;

TEST(SpiritJson, aGaugingSaysWhatWasReadAndWhatItMeans) {
  const spirit::GaugingInput input{spirit::ByHydrometer{{100.0, spirit::Scale::percent_vol}},
                                   units::Temperature::celsius(20.0)};
  const Json object = Json::parse(json(input, spirit::gauge(input)));
  EXPECT_EQ(object["strength_percent_vol_20C"], 100.0);
  EXPECT_EQ(object["strength_percent_mass"], 100.0);
  EXPECT_EQ(object["us_proof"], 200.0);
  // OIML R 22 (1973): pure ethanol at 20 °C, 789.24 kg/m³.
  EXPECT_NEAR(object["density_kg_m3_20C"].get<double>(), 789.24, 0.005);
  EXPECT_EQ(object["density_kg_m3_at_temperature"], object["density_kg_m3_20C"]);
  EXPECT_EQ(object["reading"], 100.0);
  EXPECT_EQ(object["reading_scale"], "percent_vol_20C");
  EXPECT_EQ(object["uncertainty"]["coverage_factor"], 2.0);
  EXPECT_FALSE(object.contains("lot"));
}

TEST(SpiritJson, aReductionBalances) {
  const spirit::Lot before =
      spirit::lot(units::Volume::litres(4.0), VolumeStrength::percent(70.0));
  const Json object = Json::parse(
      json(ReductionReport{before,
                           spirit::reduce(before, VolumeStrength::percent(55.0), {}),
                           {},
                           {},
                           {},
                           {},
                           {},
                           {}}));
  EXPECT_EQ(object["final_strength_percent_vol_20C"], 55.0);
  EXPECT_EQ(object["spirit_volume_L_20C"], 4.0);
  EXPECT_EQ(object["pure_alcohol_L_20C"], 2.8);
  EXPECT_NEAR(object["final_mass_kg"].get<double>(),
              before.mass().kilograms() + object["water_mass_kg"].get<double>(), 1e-8);
}

TEST(SpiritJson, aBlendListsItsParts) {
  const std::vector<spirit::Lot> parts{
      spirit::lot(units::Volume::litres(1.2), VolumeStrength::percent(74.0)),
      spirit::lot(units::Volume::litres(2.0), VolumeStrength::percent(61.0))};
  const Json object = Json::parse(json(parts, spirit::blend(parts)));
  ASSERT_EQ(object["parts"].size(), 2U);
  EXPECT_EQ(object["parts"][0]["volume_L_20C"], 1.2);
  EXPECT_EQ(object["parts"][1]["strength_percent_vol_20C"], 61.0);
  EXPECT_EQ(object["pure_alcohol_L_20C"], 2.108);
}

}  // namespace
}  // namespace lynearm::wire
