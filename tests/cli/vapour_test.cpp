#include <gtest/gtest.h>

#include "cli/json.hpp"
#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

Json found(std::vector<std::string> words) {
  words.insert(words.begin(), "vapour");
  return answer(words);
}

double number(const Json& object, const char* key) { return object[key].get<double>(); }

TEST(Vapour, overAMeasuredLiquidIsAsMeasured) {
  // Kamihama et al. 2012, x 0.311 at 101.3 kPa: 354.55 K, y 0.589. Bounds: the average by which
  // that set, left out of the fit, may differ (0.15 K, 0.006).
  const Json object = found({"--liquid-mole-fraction", "0.311", "--pressure", "101.3 kPa"});
  EXPECT_NEAR(number(object, "bubble_temperature_C"), 354.55 - 273.15, 0.15);
  EXPECT_NEAR(number(object, "vapour_mole_fraction"), 0.589, 0.006);
}

TEST(Vapour, theFirstKeysAreFixed) {
  const std::vector<std::string> fixed{"bubble_temperature_C", "vapour_mole_fraction",
                                       "liquid_percent_vol", "vapour_percent_vol"};
  EXPECT_EQ(first_keys(found({"--liquid-mole-fraction", "0.25", "--pressure", "101.325 kPa"}),
                       fixed.size()),
            fixed);
}

TEST(Vapour, isTheSameHoweverTheLiquidIsStated) {
  const Json moles = found({"--liquid-mole-fraction", "0.25"});
  EXPECT_EQ(found({"--liquid-mole-fraction", "25 %mol"}), moles);
  const std::string strength = std::to_string(number(moles, "liquid_percent_vol")) + " %vol";
  EXPECT_NEAR(number(found({"--liquid-strength", strength}), "vapour_mole_fraction"),
              number(moles, "vapour_mole_fraction"), 1e-7);
}

TEST(Vapour, andItsLiquidAreOnePairFromBothSides) {
  const Json up = found({"--liquid-mole-fraction", "0.25", "--altitude", "1500 m"});
  const Json down = found(
      {"--vapour-mole-fraction", up["vapour_mole_fraction"].dump(), "--altitude", "1500 m"});
  EXPECT_NEAR(number(down, "liquid_mole_fraction"), 0.25, 1e-8);
  EXPECT_NEAR(number(down, "bubble_temperature_C"), number(up, "bubble_temperature_C"), 1e-7);
  const std::string strength = std::to_string(number(up, "vapour_percent_vol")) + " %vol";
  EXPECT_NEAR(number(found({"--vapour-strength", strength, "--altitude", "1500 m"}),
                     "liquid_mole_fraction"),
              0.25, 1e-6);
}

TEST(Vapour, ofThePureLiquidsIsThemselves) {
  const Json water = found({"--liquid-mole-fraction", "0"});
  EXPECT_EQ(number(water, "vapour_mole_fraction"), 0.0);
  EXPECT_NEAR(number(water, "bubble_temperature_C"), 99.974, 0.05);  // IAPWS-95; see pure.hpp
  const Json ethanol = found({"--liquid-strength", "100 %vol"});
  EXPECT_NEAR(number(ethanol, "vapour_mole_fraction"), 1.0, 1e-9);
}

TEST(Vapour, saysItInASentence) {
  const Ran up = lynearm({"vapour", "--liquid-strength", "10 %vol"});
  EXPECT_EQ(up.status, 0) << up.err;
  EXPECT_TRUE(up.out.starts_with("A liquid of 10.0 %vol boils at ")) << up.out;
  const Ran down = lynearm({"vapour", "--vapour-strength", "65 %vol"});
  EXPECT_TRUE(down.out.starts_with("A vapour of 65.0 %vol condenses from ")) << down.out;
  EXPECT_NE(down.out.find("its first drop has "), std::string::npos) << down.out;
}

TEST(Vapour, tellsWhyWhenAsked) {
  const std::vector<std::string> words{"vapour", "--liquid-strength", "10 %vol"};
  EXPECT_EQ(lynearm(words).out.find("Why"), std::string::npos);
  std::vector<std::string> asking = words;
  asking.emplace_back("--why");
  const Ran ran = lynearm(asking);
  for (const char* said : {"\nWhy\n", "NRTL", "Perry", "Larkin", "Kamihama"}) {
    EXPECT_NE(ran.out.find(said), std::string::npos) << said << "\n" << ran.out;
  }
}

void expect_refused(std::vector<std::string> words, const std::string& said) {
  words.insert(words.begin(), "vapour");
  const Ran ran = lynearm(words);
  EXPECT_EQ(ran.status, 2) << said;
  EXPECT_EQ(ran.out, "") << said;
  EXPECT_NE(ran.err.find(said), std::string::npos)
      << "wanted: " << said << "\ngot: " << ran.err;
}

constexpr const char* one_of_four =
    "one of --liquid-mole-fraction, --liquid-strength, --vapour-mole-fraction and "
    "--vapour-strength";

TEST(Vapour, wantsOneMixtureAndOnlyOne) {
  expect_refused({},
                 std::string("--liquid-mole-fraction is missing; accepted: ") + one_of_four);
  expect_refused(
      {"--liquid-mole-fraction", "0.2", "--vapour-strength", "60 %vol"},
      std::string("--vapour-strength is \"60 %vol\"; accepted: only ") + one_of_four);
}

TEST(Vapour, refusesNonsenseInEachOption) {
  for (const char* value : {"abc", "-0.1", "1.01", "101 %mol", "nan", "inf", "5 kg", "0.2x"}) {
    for (const char* option : {"--liquid-mole-fraction", "--vapour-mole-fraction"}) {
      expect_refused({option, value},
                     std::string(option) + " is \"" + value +
                         "\"; accepted: moles of ethanol over all moles, from 0 to 1");
    }
  }
  for (const char* value : {"abc", "10", "101 %vol", "-5 %vol", "20 C"}) {
    for (const char* option : {"--liquid-strength", "--vapour-strength"}) {
      expect_refused({option, value},
                     std::string(option) + " is \"" + value + "\"; accepted: ");
    }
  }
  expect_refused({"--liquid-mole-fraction", "0.2", "--pressure", "10 kPa"},
                 "--pressure is \"10 kPa\"; accepted: 200 hPa to 1200 hPa");
  expect_refused({"--liquid-mole-fraction", "0.2", "--altitude", "20 km"},
                 "--altitude is \"20 km\"; accepted: ");
  expect_refused({"--liquid-mole-fraction", "0.2", "--altitude", "9500 m"},
                 "--altitude is \"9500 m\"; accepted: -400 m to 9000 m");
  expect_refused({"--liquid-mole-fraction", "0.2", "--altitude", "10 m", "--pressure", "1 atm"},
                 "--altitude is \"10 m\"; accepted: either --pressure or --altitude, not both");
}

TEST(Vapour, tellsSeveralMistakesTogether) {
  const Ran ran = lynearm({"vapour", "--liquid-mole-fraction", "2", "--pressure", "1 kPa"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_NE(ran.err.find("--liquid-mole-fraction is \"2\""), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("--pressure is \"1 kPa\""), std::string::npos) << ran.err;
}

// The head's cue for spirit of 65 %vol, as the thermometer of that day shows it.
double head_cue_C(const std::vector<std::string>& words, const char* key = "shown_C") {
  const Json object = found(words);
  for (const Json& cue : object["todays_air"]["cues"]) {
    if (cue["of"] == "head" && cue["spout_percent_vol"] == 65.0) return cue[key].get<double>();
  }
  ADD_FAILURE() << "no cue of 65 %vol";
  return 0.0;
}

TEST(Vapour, twentyHectopascalsMoveTheHeadsCueByHalfAKelvin) {
  // A true thermometer: what it shows in boiling water is where water boils at that pressure.
  // Slope at 1013 hPa and 90 °C: some 0.028 K/hPa (Clausius and Clapeyron).
  const auto cue = [](double hPa) {
    const std::string pressure = std::to_string(hPa) + " hPa";
    const Json water = found({"--liquid-mole-fraction", "0", "--pressure", pressure});
    const std::string shows = std::to_string(number(water, "bubble_temperature_C")) + " °C";
    return head_cue_C({"--boiling-water", shows, "--pressure", pressure});
  };
  EXPECT_NEAR(cue(1033.0) - cue(1013.0), 0.55, 0.1);
  EXPECT_NEAR(cue(993.0) - cue(1013.0), -0.55, 0.1);
}

TEST(Vapour, boilingWaterAtAKnownPressureTellsTheThermometer) {
  const std::vector<std::string> words{"--boiling-water", "99.2 °C", "--pressure",
                                       "1013.25 hPa"};
  const Json air = found(words)["todays_air"];
  // Water boils at 99.97 °C there (IAPWS-95); the thermometer is drawn a little to nought.
  EXPECT_NEAR(number(air, "thermometer_offset_K"), 99.2 - 99.97, 0.1);
  EXPECT_NEAR(number(air, "pressure_hPa"), 1013.25, 1.0);
  EXPECT_LT(number(air, "thermometer_offset_sd_K"), 0.12);
  EXPECT_NEAR(head_cue_C(words) - head_cue_C(words, "temperature_C"),
              number(air, "thermometer_offset_K"), 1e-6);
}

TEST(Vapour, boilingWaterAloneTellsPressureAndThermometerTogether) {
  const Json air = found({"--boiling-water", "99.2 °C"})["todays_air"];
  EXPECT_LT(number(air, "pressure_hPa"), 1013.25);
  EXPECT_LT(number(air, "thermometer_offset_K"), 0.0);
  EXPECT_LT(number(air, "correlation"), -0.7);
  // Their sum is what was seen, to the look's own scatter and the beliefs' pull.
  const Json water = found({"--liquid-mole-fraction", "0", "--pressure",
                            std::to_string(number(air, "pressure_hPa")) + " hPa"});
  EXPECT_NEAR(number(water, "bubble_temperature_C") + number(air, "thermometer_offset_K"), 99.2,
              0.03);
  // An altitude is not today's pressure: the weather stays open.
  const Json high = found({"--boiling-water", "95.2 °C", "--altitude", "1500 m"})["todays_air"];
  EXPECT_GT(number(high, "pressure_sd_hPa"), 3.0);
}

TEST(Vapour, theCuesOfTheDayStandBesideALiquid) {
  const std::vector<std::string> words{"vapour", "--liquid-strength", "10 %vol",
                                       "--boiling-water", "99.2 °C"};
  const Ran ran = lynearm(words);
  EXPECT_EQ(ran.status, 0) << ran.err;
  for (const char* said : {"A liquid of 10.0 %vol boils at ", "\nCues of the day\n",
                           "boiling, 10.0 %vol in the pot", "head, for 65.0 %vol at the spout",
                           "head, for 56.0 %vol at the spout", "cannot tell the two apart"}) {
    EXPECT_NE(ran.out.find(said), std::string::npos) << said << "\n" << ran.out;
  }
  const Ran alone = lynearm({"vapour", "--boiling-water", "210.6 F", "--units", "us"});
  EXPECT_TRUE(alone.out.starts_with("Today ")) << alone.out << alone.err;
  EXPECT_NE(alone.out.find("°F"), std::string::npos);
}

TEST(Vapour, refusesWaterThatDoesNotBoilThere) {
  expect_refused(
      {"--boiling-water", "90 °C"},
      "--boiling-water is \"90 °C\"; accepted: 95.0 °C to 105.0 °C: at 1013 hPa water "
      "boils at 100.0 °C; let it boil hard, with the tip in the water; where the place "
      "is high, give --altitude too");
  expect_refused({"--boiling-water", "99.2"}, "--boiling-water is \"99.2\"; accepted: ");
  expect_refused({"--boiling-water", "nan °C"}, "--boiling-water is \"nan °C\"; accepted: ");
  expect_refused({"--boiling-water", "99 °C", "--pressure", "1 kPa"},
                 "--pressure is \"1 kPa\"; accepted: ");
  expect_refused({"--boiling-water", "99 °C", "--why"}, "--why is missing");
}

}  // namespace
}  // namespace lynearm::cli
