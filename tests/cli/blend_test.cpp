#include <gtest/gtest.h>

#include "cli/json.hpp"
#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

Json blended(const std::vector<std::string>& parts) {
  std::vector<std::string> words{"blend"};
  for (const std::string& part : parts) {
    words.emplace_back("--part");
    words.push_back(part);
  }
  return answer(words);
}

TEST(Blend, keepsItsAlcohol) {
  const auto object = blended({"1.2 L @ 74 %vol", "2 L @ 61 %vol"});
  const double volume = object["volume_L_20C"];
  EXPECT_NEAR(volume * object["strength_percent_vol_20C"].get<double>() / 100.0,
              1.2 * 0.74 + 2.0 * 0.61, 1e-8);
  EXPECT_NEAR(object["contraction_L"].get<double>(), 3.2 - volume, 1e-8);
  EXPECT_GT(object["contraction_L"], 0.0);
}

TEST(Blend, theFirstKeysAreFixed) {
  const std::vector<std::string> fixed{"volume_L_20C", "strength_percent_vol_20C",
                                       "contraction_L"};
  EXPECT_EQ(first_keys(blended({"1 L @ 74 %vol", "1 L @ 61 %vol"}), fixed.size()), fixed);
}

TEST(Blend, withWaterIsAReduction) {
  // The water of "reduce --volume 4 L --strength 70 %vol --to 55 %vol".
  const auto object = blended({"4 L @ 70 %vol", "1.143257753 L @ 0 %vol"});
  EXPECT_NEAR(object["strength_percent_vol_20C"].get<double>(), 55.0, 1e-6);
}

TEST(Blend, ofEqualStrengthsDoesNotContract) {
  const auto object = blended({"1 L @ 61 %vol", "2 L @ 61 %vol", "3 L @ 61 %vol"});
  EXPECT_NEAR(object["volume_L_20C"].get<double>(), 6.0, 1e-9);
  EXPECT_NEAR(object["contraction_L"].get<double>(), 0.0, 1e-9);
  EXPECT_EQ(object["parts"].size(), 3U);
}

TEST(Blend, ofOnePartIsRefused) {
  const Ran ran = lynearm({"blend", "--part", "1 L @ 61 %vol"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("two or more"), std::string::npos) << ran.err;
}

TEST(Blend, theBadPartIsTheOneNamed) {
  const Ran ran = lynearm({"blend", "--part", "1 L @ 61 %vol", "--part", "2 h @ 40 %vol"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_NE(ran.err.find("--part is \"2 h @ 40 %vol\""), std::string::npos) << ran.err;
  EXPECT_EQ(ran.err.find("61"), std::string::npos) << ran.err;
}

TEST(Blend, isReachedFromTheLotsAtHand) {
  const auto object = answer({"blend", "--part", "4 L @ 68 %vol", "--part", "2.5 L @ 52 %vol",
                              "--to", "60 %vol", "--make", "5 L"});
  EXPECT_NEAR(object["strength_percent_vol_20C"].get<double>(), 60.0, 1e-8);
  EXPECT_NEAR(object["volume_L_20C"].get<double>(), 5.0, 1e-8);
}

TEST(Blend, ofAGlassIsMadeLarge) {
  const auto object = answer(
      {"blend", "--part", "30 mL @ 72 %vol", "--part", "20 mL @ 66 %vol", "--make", "4 L"});
  EXPECT_NEAR(object["volume_L_20C"].get<double>(), 4.0, 1e-8);
  EXPECT_NEAR(object["parts"][0]["volume_L_20C"].get<double>() /
                  object["parts"][1]["volume_L_20C"].get<double>(),
              1.5, 1e-8);
}

TEST(Blend, takesEachPartAtItsTemperature) {
  const double warm = blended({"1 L @ 74 %vol, 30 C", "1 L @ 61 %vol"})["mass_kg"];
  const double cool = blended({"1 L @ 74 %vol", "1 L @ 61 %vol"})["mass_kg"];
  EXPECT_LT(warm, cool);
}

}  // namespace
}  // namespace lynearm::cli
