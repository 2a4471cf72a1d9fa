#include <gtest/gtest.h>

#include "cli/json.hpp"
#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

TEST(Wort, theFirstKeysAreFixed) {
  const std::vector<std::string> fixed{"specific_gravity_20C_20C", "specific_gravity_60F_60F",
                                       "extract_plato", "brix"};
  EXPECT_EQ(first_keys(answer({"wort", "--reading", "1.060 SG"}), fixed.size()), fixed);
}

TEST(Wort, at20DegreesTheGlassIsTrue) {
  const auto object = answer({"wort", "--reading", "1.060 SG"});
  EXPECT_NEAR(object["specific_gravity_20C_20C"].get<double>(), 1.060, 1e-9);
  // The ASBC cubic has 14.741 °P at SG 1.060; the two published cubics part by 0.001 there.
  EXPECT_NEAR(object["extract_plato"].get<double>(), 14.741, 0.02);
  EXPECT_EQ(object["brix"], object["extract_plato"]);
}

TEST(Wort, isReadOnEveryScale) {
  const double by_gravity =
      answer({"wort", "--reading", "1.0600 SG"})["extract_plato"].get<double>();
  EXPECT_NEAR(answer({"wort", "--reading", "14.75 P"})["extract_plato"].get<double>(), 14.75,
              1e-8);
  EXPECT_NEAR(answer({"wort", "--reading", "1.0602 SG 60/60", "--at", "60 F"})["extract_plato"]
                  .get<double>(),
              by_gravity, 0.03);
}

TEST(Wort, warmWortReadsTooLow) {
  EXPECT_GT(
      answer({"wort", "--reading", "1.058 SG", "--at", "30 C"})["specific_gravity_20C_20C"]
          .get<double>(),
      1.060);
}

TEST(Wort, ofADryWashTellsItsAlcohol) {
  const auto object = answer({"wort", "--reading", "0.995 SG", "--original", "1.060 SG"});
  EXPECT_NEAR(object["alcohol_percent_vol_20C"].get<double>(), 8.6, 0.2);
  EXPECT_NEAR(object["real_attenuation_percent"].get<double>(), 88.9, 1.0);
}

// The refractometer's two ways agree with each other: what one tells, the other takes.
TEST(Wort, byRefractionAndByBothInstrumentsAgree) {
  const auto known = answer({"wort", "--refraction", "6.2 Bx", "--original", "14.70 P"});
  const auto both = answer({"wort", "--refraction", "6.2 Bx", "--reading",
                            std::to_string(known["specific_gravity_20C_20C"].get<double>())});
  EXPECT_NEAR(both["original_extract_plato"].get<double>(), 14.70, 0.01);
  EXPECT_NEAR(both["alcohol_percent_vol_20C"].get<double>(),
              known["alcohol_percent_vol_20C"].get<double>(), 0.01);
}

TEST(Wort, whyNamesTheSources) {
  const Ran ran = lynearm({"wort", "--refraction", "6.2 Bx", "--original", "14.7 P", "--why"});
  EXPECT_EQ(ran.status, 0);
  for (const char* said : {"NBS Circular 440", "Lorentz and Lorenz", "Balling"}) {
    EXPECT_NE(ran.out.find(said), std::string::npos) << said;
  }
}

}  // namespace
}  // namespace lynearm::cli
