#include <gtest/gtest.h>

#include "cli/json.hpp"
#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

Json gauged(const std::string& reading, const std::string& at) {
  return answer({"gauge", "--reading", reading, "--at", at});
}

TEST(Gauge, of65ReadAt35DegreesTells59_8) {
  // The worked case this command answers; tests/spirit/hydrometer_test.cpp floats it by hand.
  EXPECT_NEAR(gauged("65 %vol", "35 C")["strength_percent_vol_20C"].get<double>(), 59.8, 0.05);
}

TEST(Gauge, theFirstKeysAreFixed) {
  const std::vector<std::string> fixed{"strength_percent_vol_20C", "strength_percent_mass",
                                       "density_kg_m3_20C", "us_proof"};
  EXPECT_EQ(first_keys(gauged("62.4 %vol", "27.5 C"), fixed.size()), fixed);
}

TEST(Gauge, at20DegreesTheScaleIsTrue) {
  const auto object = gauged("50 %vol", "20 C");
  EXPECT_DOUBLE_EQ(object["strength_percent_vol_20C"], 50.0);
  // OIML R 22 (1973), Table II: 50 % by volume is 42.43 % by mass; from memory.
  EXPECT_NEAR(object["strength_percent_mass"].get<double>(), 42.43, 0.005);
}

TEST(Gauge, aProofHydrometerIsTrueAt60Fahrenheit) {
  EXPECT_NEAR(gauged("125 proof", "60 F")["us_proof"].get<double>(), 125.0, 1e-7);
  // 100 proof is 50 % by volume at 60 °F, a little more than 50 % at 20 °C (27 CFR 30.11).
  EXPECT_NEAR(gauged("100 proof", "60 F")["strength_percent_vol_20C"].get<double>(), 50.0, 0.1);
}

TEST(Gauge, warmSpiritReadsTooHigh) {
  EXPECT_LT(gauged("62.4 %vol", "27.5 C")["strength_percent_vol_20C"].get<double>(), 62.4);
  EXPECT_GT(gauged("62.4 %vol", "12 C")["strength_percent_vol_20C"].get<double>(), 62.4);
}

TEST(Gauge, fahrenheitAndCelsiusAgree) {
  EXPECT_EQ(gauged("62.4 %vol", "77 F"), gauged("62.4 %vol", "25 C"));
}

TEST(Gauge, above40DegreesItSaysHeatOffFirst) {
  const Ran ran = lynearm({"gauge", "--reading", "62 %vol", "--at", "45 C"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("--at is \"45 C\""), std::string::npos) << ran.err;
  EXPECT_NE(
      ran.err.find("spirit above 40 °C at the spout means vapour may be escaping: heat off "
                   "first"),
      std::string::npos)
      << ran.err;
}

TEST(Gauge, frozenColdIsRefusedWithoutTalkOfVapour) {
  const Ran ran = lynearm({"gauge", "--reading", "62 %vol", "--at", "-25 C"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_NE(ran.err.find("-20 to 40 °C"), std::string::npos) << ran.err;
  EXPECT_EQ(ran.err.find("vapour"), std::string::npos) << ran.err;
}

TEST(Gauge, aReadingNoSpiritGivesNamesWhatWaterAndEthanolShow) {
  const Ran ran = lynearm({"gauge", "--reading", "199 proof", "--at", "10 F"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("--reading is \"199 proof\""), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("proof (pure ethanol)"), std::string::npos) << ran.err;
}

TEST(Gauge, aReadingByMassIsTrueAt20Degrees) {
  EXPECT_NEAR(gauged("42.43 %mass", "20 C")["strength_percent_vol_20C"].get<double>(), 50.0,
              0.01);
}

}  // namespace
}  // namespace lynearm::cli
