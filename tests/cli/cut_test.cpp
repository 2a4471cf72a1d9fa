// The command `cut` as a maker meets it: a file of jars in, a table or JSON out, and a sentence
// for what cannot be.
#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "cli/cut_jars.hpp"
#include "cli/json.hpp"
#include "cli/program.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"

namespace lynearm::cli {
namespace {

const std::string jars_file = "examples/tern-7/jars.csv";

std::string refusal(const std::string& text) {
  try {
    (void)jars_of(text, "jars.csv");
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}

TEST(CutJars, areReadFromBareNumbersAndFromUnits) {
  const auto bare = jars_of(
      "jar,volume_mL,strength_percent_vol,fault,use,early_g\n"
      "1,100,75.5,,foreshots,0.2\n"
      "2,500,72,3,,0.4\n",
      "jars.csv");
  const auto with_units = jars_of(
      "jar,volume,strength,fault,use,early\n"
      "1,100 mL,75.5 %vol,,foreshots,0.2 g\n"
      "2,0.5 L,72 %vol,3,open,0.4 g\n",
      "jars.csv");
  ASSERT_EQ(bare.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(bare[i].volume.litres(), with_units[i].volume.litres(), 1e-15);
    EXPECT_NEAR(bare[i].strength.percent(), with_units[i].strength.percent(), 1e-12);
    EXPECT_NEAR(bare[i].early->mass.grams(), with_units[i].early->mass.grams(), 1e-15);
    EXPECT_EQ(bare[i].use, with_units[i].use);
    EXPECT_EQ(bare[i].fault, with_units[i].fault);
  }
  EXPECT_EQ(bare[0].use, still::Use::foreshots);
  EXPECT_FALSE(bare[0].late.has_value());
}

TEST(CutJars, haveTheBandThatIsStated) {
  const auto jars =
      jars_of("jar,volume,strength,late\n1,0.5 L,70 %vol,2 g ± 0.5 g\n", "jars.csv");
  EXPECT_NEAR(jars[0].late->low.grams(), 1.5, 1e-12);
  EXPECT_NEAR(jars[0].late->high.grams(), 2.5, 1e-12);
}

TEST(CutJars, areGaugedFromReadingsAtTheirTemperature) {
  const auto jars =
      jars_of("jar,volume_mL,reading_percent_vol,temperature_C\n1,500,73.1,29\n", "jars.csv");
  const auto truth = spirit::volume_strength(spirit::true_mass_fraction(
      {73.1, spirit::Scale::percent_vol}, units::Temperature::celsius(29.0)));
  EXPECT_EQ(jars[0].strength, truth);
  // Warm spirit fills more of the jar than it will.
  EXPECT_LT(jars[0].volume.millilitres(), 500.0);
  EXPECT_GT(jars[0].volume.millilitres(), 490.0);
}

TEST(CutJars, thatCannotBeAreToldByLineAndColumn) {
  EXPECT_EQ(refusal("jar,volume_mL,strength_percent_vol\n"
                    "1,-100,75\n"
                    "1,500,97.5\n"),
            "jars.csv:2: column volume_mL is \"-0.1 L\"; accepted: a volume above zero, to "
            "100000 L.\n"
            "jars.csv:3: column jar is \"1\"; accepted: a label that no other jar has.\n"
            "jars.csv:3: column strength_percent_vol is \"97.5 %vol\"; accepted: a strength "
            "above 0, to 97 %vol: no still passes the azeotrope.");
  EXPECT_EQ(
      refusal("jar,volume_mL,strength_percent_vol,use\n1,x,75,heart\n"),
      "jars.csv:2: column volume_mL is \"x\"; accepted: a number without unit, which the "
      "head states.\n"
      "jars.csv:2: column use is \"heart\"; accepted: open (or nothing), foreshots, feints "
      "or apart.");
  EXPECT_EQ(refusal("jar,volume_mL,strength_percent_vol,late_g\n1,500,75,0.1\n2,500,70,\n"),
            "jars.csv:3: column late_g is missing; accepted: a load as in the other jars, or "
            "none in any.");
  EXPECT_EQ(refusal("jar,volume_mL,strength_percent_vol\n"),
            "jars is missing; accepted: 1 to "
            "200 jars.");
}

TEST(CutJars, withoutTheirColumnsAreRefused) {
  EXPECT_EQ(
      refusal("number,volume_mL\n1,500\n"),
      "jars.csv:1: column jar is missing; accepted: a column \"jar\" with a number or name "
      "for each.\n"
      "jars.csv:1: column strength is missing; accepted: a column \"strength\" or "
      "\"strength_percent_vol\", or \"reading\" and \"temperature\".");
  EXPECT_NE(refusal("").find("jars.csv"), std::string::npos);
}

TEST(Cut, givesAlternativesOfWhichOneIsRecommended) {
  const Json object = answer({"cut", "--jars", jars_file});
  ASSERT_EQ(object["alternatives"].size(), 5U);
  const std::size_t best = object["recommended"];
  double before = 0.0;
  for (const Json& alternative : object["alternatives"]) {
    const double alcohol = alternative["hearts"]["pure_alcohol_L_20C"];
    EXPECT_GT(alcohol, before);
    before = alcohol;
  }
  // The jar that the nose faults is left out, with hearts on both sides of it.
  const Json& allotment = object["alternatives"][best]["allotment"];
  EXPECT_EQ(allotment[7]["hearts_mL"], 0.0);
  EXPECT_GT(allotment[6]["hearts_mL"], 0.0);
  EXPECT_GT(allotment[8]["hearts_mL"], 0.0);
}

TEST(Cut, ofPureAlcoholKeepsItsBalance) {
  const Json object = answer({"cut", "--jars", jars_file, "--purpose", "fuller"});
  double jars = 0.0;
  for (const Json& jar : object["jars"]) {
    jars += jar["volume_L_20C"].get<double>() * jar["strength_percent_vol_20C"].get<double>() /
            100.0;
  }
  for (const Json& alternative : object["alternatives"]) {
    double sum = 0.0;
    for (const char* vessel : {"hearts", "feints", "foreshots", "apart"})
      sum += alternative[vessel]["pure_alcohol_L_20C"].get<double>();
    EXPECT_NEAR(sum, jars, 1e-8);
  }
}

TEST(Cut, meetsAWishedVolume) {
  const Json object = answer({"cut", "--jars", jars_file, "--hearts", "2.5 L"});
  const std::size_t best = object["recommended"];
  EXPECT_NEAR(object["alternatives"][best]["hearts"]["volume_L_20C"].get<double>(), 2.5, 1e-8);
}

TEST(Cut, readsStandardInput) {
  const Ran file = lynearm({"cut", "--jars", jars_file});
  const Ran piped = shell("lynearm cut --jars - < " + jars_file);
  EXPECT_EQ(piped.status, 0) << piped.err;
  EXPECT_EQ(piped.out, file.out);
}

TEST(Cut, saysThatNoseAndPalateDecide) {
  const Ran ran = lynearm({"cut", "--jars", jars_file, "--why"});
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_NE(ran.out.find("This is an estimate: nose and palate decide.\n"), std::string::npos);
  EXPECT_NE(ran.out.find("Caution: methanol runs through the whole of a run"),
            std::string::npos);
  EXPECT_NE(ran.out.find("our estimate, within"), std::string::npos) << ran.out;
}

TEST(Cut, refusesWhatTheJarsCannotGive) {
  const auto error = [](std::vector<std::string> more) {
    std::vector<std::string> words{"cut", "--jars", jars_file};
    words.insert(words.end(), more.begin(), more.end());
    const Ran ran = lynearm(words);
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(ran.out, "");
    return ran.err;
  };
  EXPECT_NE(error({"--hearts", "9 L"})
                .find("--hearts is \"9 L\"; accepted: a volume above zero, "
                      "to the 6.006 L there is for the hearts"),
            std::string::npos);
  EXPECT_EQ(
      error({"--weights", "nose 2"}),
      "--weights is \"nose 2\"; accepted: weights such as \"volume 1, strength 0.2, early "
      "0.3, late 2, fault 1\", each once.\n");
  EXPECT_EQ(error({"--weights", "late -2"}),
            "--weights is \"late -2\"; accepted: a weight from 0 to 100.\n");
  EXPECT_EQ(error({"--purpose", "bright"}),
            "--purpose is \"bright\"; accepted: \"clean\" (clean, for quick ageing) or "
            "\"fuller\" (fuller, for long ageing).\n");
  EXPECT_NE(error({"--jars-at-least", "80 %vol"}).find("--jars-at-least is \"80 %vol\""),
            std::string::npos);
  EXPECT_NE(error({"--hearts", "2 L", "--pure-alcohol", "1 L"}).find("not both"),
            std::string::npos);
  const Ran none = lynearm({"cut"});
  EXPECT_EQ(none.status, 2);
  EXPECT_EQ(none.err,
            "--jars is missing; accepted: a file of comma-separated text, or - for "
            "standard input.\n");
  EXPECT_EQ(lynearm({"cut", "--jars", "no-such.csv"}).status, 2);
}

TEST(CutJars, whatCannotBeReadAndWhatCannotBeAreToldTogether) {
  EXPECT_EQ(
      refusal("jar,volume_mL,strength_percent_vol\n"
              "1,-100,75\n"
              "2,abc,72\n"
              "3,500,99\n"
              "4,500,x\n"),
      "jars.csv:2: column volume_mL is \"-0.1 L\"; accepted: a volume above zero, to "
      "100000 L.\n"
      "jars.csv:3: column volume_mL is \"abc\"; accepted: a number without unit, which "
      "the head states.\n"
      "jars.csv:4: column strength_percent_vol is \"99 %vol\"; accepted: a strength above "
      "0, to 97 %vol: no still passes the azeotrope.\n"
      "jars.csv:5: column strength_percent_vol is \"x\"; accepted: a number without unit, "
      "which the head states.");
}

TEST(CutCommand, showsWhatANameWouldDoToATerminal) {
  const std::string path = testing::TempDir() + "cut-escape.csv";
  std::ofstream(path) << "jar,volume_mL,strength_percent_vol\n\x1b[31m1,300,75\n2,300,72\n";
  const Ran ran = lynearm({"cut", "--jars", path});
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(ran.out.find('\x1b'), std::string::npos);
  EXPECT_NE(ran.out.find("<U+001B>[31m1"), std::string::npos) << ran.out;
  static_cast<void>(std::remove(path.c_str()));
}

TEST(CutCommand, takesEachWeightOnce) {
  const Ran ran = lynearm({"cut", "--jars", jars_file, "--weights", "late 1, late 2"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_NE(ran.err.find("--weights is \"late 1, late 2\""), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("each once"), std::string::npos) << ran.err;
}

}  // namespace
}  // namespace lynearm::cli
