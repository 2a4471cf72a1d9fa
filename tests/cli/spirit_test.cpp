#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "cli/json.hpp"
#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

const std::vector<std::string> fixed_form{"spirit",        "--charge",   "100 L @ 28 %vol",
                                          "--head-reflux", "0.1",        "--stop",
                                          "1 %vol",        "--pressure", "101.325 kPa"};

std::vector<std::string> with(std::vector<std::string> words,
                              const std::vector<std::string>& more) {
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

std::vector<std::string> small(const std::vector<std::string>& more = {}) {
  return with({"spirit", "--charge", "15 L @ 28 %vol", "--stop", "10 %vol"}, more);
}

double of(const Json& object, const char* key) { return object[key].get<double>(); }

TEST(Spirit, theCurveOfTheFixedFormHasItsKeysAndSteps) {
  const Json object = answer(fixed_form);
  const std::vector<std::string> fixed{"collected_volume_L_20C", "spout_percent_vol",
                                       "cumulative_percent_vol", "pot_percent_vol",
                                       "pot_temperature_C",      "head_temperature_C"};
  ASSERT_TRUE(object["curve"].is_array());
  EXPECT_GE(object["curve"].size(), 200u);
  for (const Json& row : object["curve"]) {
    EXPECT_EQ(first_keys(row, fixed.size()), fixed);
    for (const std::string& key : fixed) EXPECT_TRUE(row[key].is_number()) << key;
  }
}

TEST(Spirit, aHeadThatTakesAllTheHeatIsTold) {
  // Once these ended as a solver that did not converge.
  for (const char* loss : {"11 W/K", "13 W/K", "15 W/K"}) {
    const Ran ran = lynearm(small({"--power", "1.2 kW", "--head-loss", loss}));
    EXPECT_EQ(ran.status, 2) << loss << ran.err;
    EXPECT_NE(ran.err.find("--power is \"1.2 kW\""), std::string::npos) << ran.err;
  }
  const Ran parrot = lynearm(small({"--parrot", "16 L"}));
  EXPECT_EQ(parrot.status, 2);
  EXPECT_NE(parrot.err.find("--parrot is \"16 L\""), std::string::npos) << parrot.err;
}

TEST(Spirit, generationsTakeInTheFeintsOfTheRunBefore) {
  const std::vector<std::string> asked{"--hearts-begin", "74 %vol",       "--hearts-end",
                                       "62 %vol",        "--generations", "4"};
  const Json object = answer(small(asked));
  ASSERT_EQ(object["generations"].size(), 4u);
  const Ran ran = lynearm(small(asked));
  EXPECT_EQ(ran.status, 0) << ran.err;
  const Ran alone = lynearm(small({"--generations", "4"}));
  EXPECT_EQ(alone.status, 2);
  EXPECT_NE(alone.err.find("a border of the hearts beside --generations"), std::string::npos);
  const Ran beside = lynearm(small({"--hearts-begin", "74 %vol", "--hearts-end", "62 %vol",
                                    "--generations", "4", "--jar", "250 mL"}));
  EXPECT_EQ(beside.status, 2);
  EXPECT_NE(beside.err.find("--jar is \"250 mL\"; accepted: no --jar beside --generations."),
            std::string::npos)
      << beside.err;
}

TEST(Spirit, theCurveRunsFromTheFirstDropToTheStop) {
  const Json curve = answer(fixed_form)["curve"];
  EXPECT_EQ(of(curve.front(), "collected_volume_L_20C"), 0.0);
  EXPECT_NEAR(of(curve.back(), "spout_percent_vol"), 1.0, 1e-6);
  for (std::size_t i = 1; i < curve.size(); ++i) {
    EXPECT_GT(of(curve[i], "collected_volume_L_20C"),
              of(curve[i - 1], "collected_volume_L_20C"));
    EXPECT_LT(of(curve[i], "spout_percent_vol"), of(curve[i - 1], "spout_percent_vol"));
    EXPECT_LT(of(curve[i], "pot_percent_vol"), of(curve[i - 1], "pot_percent_vol"));
    EXPECT_GT(of(curve[i], "pot_temperature_C"), of(curve[i - 1], "pot_temperature_C"));
    EXPECT_GT(of(curve[i], "head_temperature_C"), of(curve[i - 1], "head_temperature_C"));
  }
}

TEST(Spirit, theCurveIsTheOneComputedElsewhere) {
  // From an independent computation of the same model with other equilibrium parameters: first
  // drop 77.8 %vol; litres collected when the spout falls to each strength. Tolerances as in
  // tests/still/run_test.cpp.
  const Json curve = answer(fixed_form)["curve"];
  EXPECT_NEAR(of(curve.front(), "spout_percent_vol"), 77.8, 0.15);
  struct Row {
    double strength, litres;
  };
  constexpr Row rows[] = {{72, 15.6}, {70, 18.7}, {65, 24.6},
                          {60, 28.4}, {50, 33.8}, {40, 37.7}};
  for (const Row& row : rows) {
    double litres = 0.0;
    for (std::size_t i = 1; i < curve.size(); ++i) {
      const double a = of(curve[i - 1], "spout_percent_vol");
      const double b = of(curve[i], "spout_percent_vol");
      if (!(a >= row.strength && b < row.strength)) continue;
      const double share = (a - row.strength) / (a - b);
      litres = of(curve[i - 1], "collected_volume_L_20C") * (1.0 - share) +
               of(curve[i], "collected_volume_L_20C") * share;
    }
    EXPECT_NEAR(litres, row.litres, row.strength >= 65.0 ? 0.5 : 0.2) << row.strength;
  }
}

TEST(Spirit, alcoholOfTheChargeIsThatOfSpiritAndPot) {
  const Json object = answer(fixed_form);
  const double came =
      of(object, "collected_volume_L_20C") * of(object, "collected_percent_vol") / 100.0;
  const double left =
      of(object, "pot_left_volume_L_20C") * of(object, "pot_left_percent_vol") / 100.0;
  EXPECT_NEAR(came + left, 28.0, 1e-6);
  for (const Json& row : object["curve"]) {
    EXPECT_LE(of(row, "spout_percent_vol"), of(row, "cumulative_percent_vol") + 1e-9);
  }
}

TEST(Spirit, powerDoesNotMoveAFixedHead) {
  const Json gentle = answer(with(fixed_form, {"--power", "3 kW"}))["curve"];
  const Json fierce = answer(with(fixed_form, {"--power", "12 kW"}))["curve"];
  for (std::size_t i = 0; i < gentle.size(); i += 10) {
    EXPECT_NEAR(of(gentle[i], "spout_percent_vol"), of(fierce[i], "spout_percent_vol"), 1e-5);
  }
  EXPECT_GT(of(gentle.back(), "minutes"), 2.0 * of(fierce.back(), "minutes"));
}

TEST(Spirit, aGentlerFireUnderALosingHeadIsStronger) {
  const Json gentle = answer(small({"--head-loss", "1.5 W/K", "--power", "900 W"}));
  const Json fierce = answer(small({"--head-loss", "1.5 W/K", "--power", "2 kW"}));
  EXPECT_GT(of(gentle, "first_drop_percent_vol"), of(fierce, "first_drop_percent_vol") + 1.0);
}

TEST(Spirit, platesAndParrotAreTaken) {
  // Plates need something that runs down over them: with a tenth sent back they add little.
  const std::vector<std::string> half{"--head-reflux", "0.5"};
  EXPECT_GT(of(answer(small(with(half, {"--plates", "3"}))), "first_drop_percent_vol"),
            of(answer(small(half)), "first_drop_percent_vol") + 2.0);
  const Json late = answer(small({"--parrot", "300 mL"}));
  EXPECT_EQ(late["setting"]["parrot_holds_mL"], 300.0);
  EXPECT_GT(of(late, "minutes_to_first_drop"), of(answer(small()), "minutes_to_first_drop"));
}

TEST(Spirit, fractionsSumToWhatRan) {
  const Json object = answer(small({"--foreshots", "150 mL", "--hearts-begin", "73 %vol",
                                    "--hearts-end", "91.5 °C", "--jar", "250 mL"}));
  double pure_L = 0.0;
  std::vector<std::string> names;
  std::vector<double> grams(16);
  for (const Json& part : object["fractions"]) {
    names.push_back(part["name"].get<std::string>());
    pure_L += of(part, "pure_alcohol_L_20C");
    ASSERT_EQ(part["congeners"].size(), 16u);
    for (std::size_t c = 0; c < 16; ++c)
      grams[c] += of(part["congeners"][c], "recovered_fraction");
  }
  EXPECT_EQ(names, (std::vector<std::string>{"foreshots", "heads", "hearts", "tails"}));
  EXPECT_NEAR(pure_L, of(object, "pure_alcohol_L_20C"), 1e-8);
  for (const double share : grams) {
    EXPECT_GT(share, 0.0);
    EXPECT_LE(share, 1.0 + 1e-9);
  }
  double jars_L = 0.0;
  for (const Json& jar : object["jars"]) {
    jars_L += of(jar, "volume_L_20C") * of(jar, "percent_vol") / 100.0;
    EXPECT_LE(of(jar["early"], "low_g"), of(jar["early"], "g"));
    EXPECT_LE(of(jar["late"], "g"), of(jar["late"], "high_g"));
  }
  EXPECT_NEAR(jars_L, pure_L, 1e-8);
}

TEST(Spirit, scantCoolantIsFound) {
  const Json scant = answer(small({"--coolant", "0.05 L/min"}));
  EXPECT_GT(of(scant, "vapour_escaping_fraction"), 0.3);
  const Json plenty = answer(small({"--coolant", "4 L/min"}));
  EXPECT_EQ(of(plenty, "vapour_escaping_fraction"), 0.0);
  EXPECT_LT(of(plenty, "warmest_spirit_C"), 25.0);
  const Ran ran = lynearm(small({"--coolant", "0.05 L/min"}));
  EXPECT_EQ(ran.status, 0);
  EXPECT_NE(ran.out.find("escapes the condenser"), std::string::npos) << ran.out;
}

TEST(Spirit, aKitIsTaken) {
  const Json object = answer({"spirit", "--charge", "28 L @ 28 %vol", "--stop", "10 %vol",
                              "--kit", "examples/tern-8/kit.toml"});
  // The kit's figures: 4 kW at 55 %, reflux 10 %, coolant at 12 °C, 12 m above the sea.
  EXPECT_NEAR(of(object["setting"], "power_W"), 2200.0, 1e-9);
  EXPECT_NEAR(of(object["setting"], "coolant_inlet_C"), 12.0, 1e-9);
  EXPECT_NEAR(of(object, "pressure_kPa"), 101.18, 0.01);
}

TEST(Spirit, whatAKitCannotHoldIsFound) {
  const Ran ran = lynearm({"spirit", "--charge", "50 L @ 28 %vol", "--stop", "10 %vol", "--kit",
                           "examples/tern-8/kit.toml"});
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_NE(ran.out.find("over the boiler's 45.0 L"), std::string::npos) << ran.out;
}

TEST(Spirit, thePictureStandsAlone) {
  const std::filesystem::path file =
      std::filesystem::temp_directory_path() / "lynearm_spirit_test.svg";
  const Ran ran = lynearm(small(
      {"--hearts-begin", "73 %vol", "--hearts-end", "62 %vol", "--picture", file.string()}));
  EXPECT_EQ(ran.status, 0) << ran.err;
  std::ifstream in(file);
  std::stringstream text;
  text << in.rdbuf();
  const std::string svg = text.str();
  std::filesystem::remove(file);
  EXPECT_TRUE(svg.starts_with("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns="));
  EXPECT_TRUE(svg.ends_with("</svg>\n"));
  for (const char* word : {"hearts", "tails", "spout", "early", "late"}) {
    EXPECT_NE(svg.find(word), std::string::npos) << word;
  }
  EXPECT_EQ(svg.find("href"), std::string::npos);
  EXPECT_EQ(svg.find("<script"), std::string::npos);
}

TEST(Spirit, carriesItsCautionsAndNeverSaysSafe) {
  const Ran ran = lynearm(small({"--congeners", "--why"}));
  EXPECT_EQ(ran.status, 0) << ran.err;
  for (const char* words :
       {"Never leave a heated still", "heat off first", "Foreshots are poured away from food",
        "above 40 °C", "nothing here says that one is", "2-phenylethanol", "Why"}) {
    EXPECT_NE(ran.out.find(words), std::string::npos) << words << "\n" << ran.out;
  }
  EXPECT_EQ(answer(small())["cautions"].size(), 3u);
}

TEST(Spirit, usUnitsAreShown) {
  const Ran ran = lynearm(small({"--units", "us"}));
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_NE(ran.out.find("gal"), std::string::npos);
  EXPECT_NE(ran.out.find("°F"), std::string::npos);
}

void expect_refused(const std::vector<std::string>& words, const std::string& said) {
  const Ran ran = lynearm(words);
  EXPECT_EQ(ran.status, 2) << said << "\n" << ran.out;
  EXPECT_EQ(ran.out, "") << said;
  EXPECT_NE(ran.err.find(said), std::string::npos)
      << "wanted: " << said << "\ngot: " << ran.err;
}

TEST(Spirit, refusesWhatNoRunReaches) {
  expect_refused({"spirit", "--charge", "15 L @ 28 %vol", "--stop", "90 %vol"},
                 "--stop is \"90 %vol\"; accepted: less than the ");
  expect_refused({"spirit", "--charge", "15 L @ 28 %vol", "--stop", "20 L"},
                 "--stop is \"20 L\"; accepted: ");
  expect_refused({"spirit", "--charge", "15 L @ 99.5 %vol", "--stop", "10 %vol"},
                 "--stop is \"10 %vol\"; accepted: ");
  expect_refused(small({"--hearts-begin", "50 °C", "--hearts-end", "62 %vol"}),
                 "--hearts-begin is \"50 °C\"; accepted: a temperature from ");
  expect_refused(small({"--hearts-begin", "62 %vol", "--hearts-end", "70 %vol"}),
                 "--hearts-end is \"70 %vol\"; accepted: not before the begin of the hearts");
  expect_refused(small({"--power", "50 W"}), "--power is \"50 W\"; accepted: ");
  expect_refused(small({"--jar", "0.1 mL"}), "--jar is \"0.1 mL\"; accepted: ");
  expect_refused(small({"--coolant-in", "60 °C", "--head-reflux", "0", "--pressure", "20 kPa"}),
                 "--coolant-in is \"60 °C\"; accepted: 0 °C to below ");
}

TEST(Spirit, refusesNonsenseInEachOption) {
  struct Row {
    const char* option;
    std::vector<const char*> values;
  };
  const std::vector<Row> rows{{"--head-reflux", {"abc", "-0.1", "1", "nan", "5 kg"}},
                              {"--head-loss", {"abc", "-1 W/K", "5 W", "1e9 W/K"}},
                              {"--power", {"abc", "0 W", "-1 kW", "1e9 kW", "3 L"}},
                              {"--plates", {"abc", "-1", "13", "2.5"}},
                              {"--parrot", {"abc", "-1 mL", "1000 L"}},
                              {"--coolant", {"abc", "-1 L/min", "3 L"}},
                              {"--coolant-in", {"abc", "-5 °C", "80 °C"}},
                              {"--pressure", {"abc", "101", "1 kPa"}},
                              {"--altitude", {"abc", "20 km", "-500 m"}},
                              {"--hearts-begin", {"abc", "70 %", "-1 L"}},
                              {"--jar", {"abc", "-1 L", "0 L"}}};
  for (const Row& row : rows) {
    for (const char* value : row.values) {
      expect_refused(small({row.option, value}),
                     std::string(row.option) + " is \"" + value + "\"; accepted: ");
    }
  }
  for (const char* value : {"abc", "10 %", "0 %vol", "0 L", "-1 L", "5 kg"}) {
    expect_refused({"spirit", "--charge", "15 L @ 28 %vol", "--stop", value},
                   std::string("--stop is \"") + value + "\"; accepted: ");
  }
  for (const char* value : {"abc", "15 L", "0 L @ 28 %vol", "15 L @ 0 %vol"}) {
    expect_refused({"spirit", "--charge", value, "--stop", "10 %vol"},
                   std::string("--charge is \"") + value + "\"; accepted: ");
  }
  expect_refused({"spirit"}, "--charge");
  expect_refused({"spirit"}, "--stop");
  expect_refused(small({"--head-reflux", "0.1", "--head-loss", "1 W/K"}), "not both");
  expect_refused(small({"--hearts-begin", "70 %vol"}), "--hearts-end");
  expect_refused(small({"--kit", "/nowhere/kit.toml"}), "--kit is ");
}

TEST(Spirit, temperaturesAreAlsoAsTodaysThermometerShowsThem) {
  const std::vector<std::string> day{"--boiling-water", "99.2 °C", "--pressure", "1000 hPa"};
  const Json object = answer(small(day));
  const double offset = of(object["todays_air"], "thermometer_offset_K");
  EXPECT_LT(offset, -0.2);
  for (const Json& row : object["curve"]) {
    EXPECT_NEAR(of(row, "head_shown_C") - of(row, "head_temperature_C"), offset, 1e-6);
    EXPECT_NEAR(of(row, "pot_shown_C") - of(row, "pot_temperature_C"), offset, 1e-6);
  }
  EXPECT_NEAR(of(object, "pressure_kPa"), 100.0, 0.1);
  const Ran ran = lynearm(small(day));
  for (const char* said : {"pot shows", "head shows", "thermometer", "shown less true"}) {
    EXPECT_NE(ran.out.find(said), std::string::npos) << said << "\n" << ran.out;
  }
  EXPECT_FALSE(answer(small())["curve"][0].contains("head_shown_C"));
}

TEST(Spirit, aGlassNeverShowsLessThanNothing) {
  // It once showed -0.4 at the end of a run to 0.1 %vol.
  const std::vector<std::string> far{"spirit", "--charge", "15 L @ 28 %vol", "--stop",
                                     "0.1 %vol"};
  const Ran ran = lynearm(far);
  EXPECT_NE(ran.out.find("under 0 at 15.0 °C"), std::string::npos) << ran.out;
  EXPECT_EQ(ran.out.find("-0."), std::string::npos) << ran.out;
  EXPECT_TRUE(answer(far)["curve"].back()["shown_percent_vol"].is_null());
}

TEST(Spirit, thatEscapesIsNotPromised) {
  const Ran ran = lynearm(small({"--coolant", "0 L/min"}));
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_TRUE(ran.out.starts_with(
      "15.0 L at 28.0 %vol is not caught: with 0.00 L/min of coolant up to 100.0 % of its "
      "vapour escapes.\n"))
      << ran.out;
  EXPECT_FALSE(answer(small({"--coolant", "0 L/min"}))["findings"].empty());
}

TEST(Spirit, aStillWithPlatesIsNotCalledBare) {
  const Ran ran = lynearm(small({"--plates", "12"}));
  EXPECT_EQ(ran.out.find("bare pot still"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("with 12 plates"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("without a cooled head they do little"), std::string::npos) << ran.out;
}

TEST(Spirit, aHugeChargeIsToldThatItsPowerIsAGuess) {
  const std::vector<std::string> huge{"spirit", "--charge", "50000 L @ 28 %vol", "--stop",
                                      "10 %vol"};
  EXPECT_NE(lynearm(huge).out.find("no power is stated"), std::string::npos);
  EXPECT_EQ(lynearm(small()).out.find("no power is stated"), std::string::npos);
}

TEST(Spirit, namesNoOptionAsGivenThatWasNot) {
  const Ran ran = lynearm(small({"--head-loss", "400 W/K"}));
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.err.find("--power is \""), std::string::npos) << ran.err;
  const Ran both = lynearm(small({"--generations", "3", "--hearts-begin", "74 %vol",
                                  "--hearts-end", "62 %vol", "--congeners", "--jar", "1 L"}));
  EXPECT_EQ(both.status, 2);
  EXPECT_EQ(both.err,
            "--jar is \"1 L\"; accepted: no --jar beside --generations.\n"
            "--congeners is \"given\"; accepted: no --congeners beside --generations.\n");
}

}  // namespace
}  // namespace lynearm::cli
