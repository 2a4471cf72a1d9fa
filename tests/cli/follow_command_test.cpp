// The command follow: standard input line by line, a replayed log, and what is refused.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <sstream>

#include "cli/follow_progress.hpp"
#include "cli/json.hpp"
#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

using testing::HasSubstr;

const std::string still_of_tern =
    "--kit examples/tern-8/kit.toml --charge \"30 L @ 27 %vol\" --head-loss \"4.5 W/K\" "
    "--hearts-begin \"400 mL\" --hearts-end \"60 %vol\" --members 150";

std::vector<Json> lines(const std::string& text) {
  std::vector<Json> all;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) all.push_back(Json::parse(line));
  return all;
}

TEST(FollowCommand, AnswersEachReadingOfStandardInputWithALineOfJson) {
  const Ran ran = shell("lynearm follow " + still_of_tern +
                        " <<'END'\n"
                        "{\"minutes\":0,\"power_W\":4000}\n"
                        "{\"minutes\":75,\"head_temperature_C\":86.0,\"spout\":\"76 "
                        "%vol\",\"spout_temperature_C\":20}\n"
                        "{\"minutes\":80,\"spout\":\"25 %vol\",\"spout_temperature_C\":44}\n"
                        "END");
  ASSERT_EQ(ran.status, 0) << ran.err;
  const std::vector<Json> all = lines(ran.out);
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(all[0]["reading"], 1);
  EXPECT_TRUE(all[0]["doubts"].empty());
  // Figures of one reading: low, median and high rise.
  for (const Json& line : all) {
    const Json& pot = line["now"]["pot_percent_vol"];
    EXPECT_LE(pot["low"].get<double>(), pot["median"].get<double>());
    EXPECT_LE(pot["median"].get<double>(), pot["high"].get<double>());
    EXPECT_THAT(line["cautions"].dump(), HasSubstr("never leave a heated still"));
  }
  ASSERT_EQ(all[2]["doubts"].size(), 1U);
  EXPECT_EQ(all[2]["doubts"][0]["figure"], "spout");
  EXPECT_THAT(all[2]["cautions"].dump(), HasSubstr("above 40 °C at the spout"));
}

// The head, truly, at 90 min of a run whose thermometer reads 86.0 and 86.5 °C.
double head_now_C(const std::string& in_boiling_water) {
  const Ran ran = shell("lynearm follow " + still_of_tern +
                        " --pressure \"101.325 kPa\" --boiling-water \"" + in_boiling_water +
                        "\" <<'END'\n"
                        "{\"minutes\":0,\"power_W\":4000}\n"
                        "{\"minutes\":75,\"head_temperature_C\":86.0}\n"
                        "{\"minutes\":90,\"head_temperature_C\":86.5}\n"
                        "END");
  EXPECT_EQ(ran.status, 0) << ran.err;
  return lines(ran.out).at(2)["now"]["head_temperature_C"]["median"].get<double>();
}

TEST(FollowCommand, CorrectsTheHeadsThermometerByTodaysBoilingWater) {
  // Water boils at 99.974 °C (IAPWS-95): one thermometer shows a kelvin too little, the other
  // one too much. Within what the curve, which is believed in as well, pulls them together.
  EXPECT_NEAR(head_now_C("98.974 °C"), 87.5, 0.3);
  EXPECT_NEAR(head_now_C("100.974 °C"), 85.5, 0.3);
}

TEST(FollowCommand, RefusesBoilingWaterThatCannotBeToday) {
  const Ran ran = shell("lynearm follow " + still_of_tern +
                        " --pressure \"101.325 kPa\" --boiling-water \"90 °C\" </dev/null");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_THAT(ran.err, HasSubstr("--boiling-water is \"90 °C\"; accepted: "));
}

TEST(FollowCommand, ReadsCsvAsWellAndSaysWhichRowsWereBad) {
  const Ran ran = shell("lynearm follow " + still_of_tern +
                        " <<'END'\n"
                        "minutes,head_temperature_C,collected_mL\n"
                        "75,86.0,\n"
                        "80,hot,\n"
                        "85,86.5,700\n"
                        "END");
  EXPECT_EQ(ran.status, 3);
  EXPECT_EQ(lines(ran.out).size(), 2U);
  EXPECT_THAT(ran.err, HasSubstr("standard input:3"));
  EXPECT_THAT(ran.err, HasSubstr("1 of 3 rows failed."));
}

TEST(FollowCommand, NothingToFollowIsSaid) {
  const Ran ran = shell("lynearm follow " + still_of_tern + " </dev/null");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_THAT(ran.err, HasSubstr("accepted: readings of a run, CSV or JSON lines"));
}

TEST(FollowCommand, AReplayShowsWhatDoesNotFitAndDrawsAPage) {
  const std::string page = testing::TempDir() + "follow.html";
  const Ran ran =
      shell("lynearm follow " + still_of_tern +
            " --replay examples/tern-8/spirit_run.csv --picture " + page + " --why");
  ASSERT_EQ(ran.status, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Does not fit"));
  EXPECT_THAT(ran.out, HasSubstr("Kept, not believed."));
  EXPECT_THAT(ran.out, HasSubstr("What the run taught"));
  EXPECT_THAT(ran.out, HasSubstr("never leave a heated still"));
  EXPECT_THAT(ran.out, HasSubstr("Student's t"));
  std::FILE* file = std::fopen(page.c_str(), "r");
  ASSERT_NE(file, nullptr);
  std::string text(1 << 20, '\0');
  text.resize(std::fread(text.data(), 1, text.size(), file));
  std::fclose(file);
  std::remove(page.c_str());
  EXPECT_THAT(text, HasSubstr("<circle"));
  EXPECT_THAT(text, HasSubstr("hearts end"));
  EXPECT_THAT(text, HasSubstr("not believed"));
  EXPECT_EQ(text.find("http://"), text.find("http://www.w3.org"));
}

TEST(FollowCommand, TheSameForOneThreadAndFour) {
  const std::string line =
      "lynearm follow " + still_of_tern + " --json --replay examples/tern-8/spirit_run.csv";
  EXPECT_EQ(shell(line + " --threads 1").out, shell(line + " --threads 4").out);
}

TEST(FollowCommand, WhatIsMissingOrWrongIsToldTogether) {
  const Ran ran = lynearm({"follow", "--members", "7", "--picture", "x.html"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.err, HasSubstr("--kit is missing"));
  EXPECT_THAT(ran.err, HasSubstr("--charge is missing"));
  EXPECT_THAT(ran.err,
              HasSubstr("--members is \"7\"; accepted: a whole number from 100 to 20000"));
  EXPECT_THAT(ran.err, HasSubstr("the picture of a replayed run: give --replay as well"));
}

TEST(FollowCommand, BordersThatContradictEachOtherAreToldUnderTheirOptions) {
  const Ran ran = shell(
      "lynearm follow --kit examples/tern-8/kit.toml --charge \"30 L @ 27 %vol\" "
      "--hearts-begin \"5 L\" --hearts-end \"3 L\" --stop \"2 L\" --members 7 </dev/null");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_THAT(ran.err, HasSubstr("--hearts-end is \"3 L\"; accepted: a border that comes after "
                                 "the end of the heads, 5.000 L"));
  EXPECT_THAT(ran.err, HasSubstr("--stop is \"2 L\""));
  EXPECT_THAT(ran.err, HasSubstr("--members is \"7\""));
  const Ran mixed = shell(
      "lynearm follow --kit examples/tern-8/kit.toml --charge \"30 L @ 27 %vol\" "
      "--hearts-begin \"8 L\" --hearts-end \"75 %vol\" --members 100 </dev/null");
  EXPECT_EQ(mixed.status, 2);
  EXPECT_THAT(mixed.err, HasSubstr("--hearts-end is \"75 %vol\""));
}

// A second stop was once told as a power of "0 W", and a fire too low for any still refused.
TEST(FollowCommand, TellsAnOddFireAndGoesOn) {
  const Ran ran = shell("lynearm follow " + still_of_tern +
                        " <<'END'\n"
                        "{\"minutes\":80,\"head_temperature_C\":86.0}\n"
                        "{\"minutes\":81,\"event\":\"stopped\"}\n"
                        "{\"minutes\":82,\"event\":\"stopped\"}\n"
                        "{\"minutes\":90,\"event\":\"resumed\"}\n"
                        "{\"minutes\":91,\"event\":\"resumed\"}\n"
                        "{\"minutes\":100,\"power_W\":60}\n"
                        "{\"minutes\":140,\"power_W\":2200}\n"
                        "END");
  ASSERT_EQ(ran.status, 0) << ran.err;
  const std::vector<Json> all = lines(ran.out);
  ASSERT_EQ(all.size(), 7U);
  EXPECT_THAT(all[2]["remarks"].dump(), HasSubstr("the heat is off since 81 min"));
  EXPECT_TRUE(all[3]["remarks"].empty());
  EXPECT_THAT(all[4]["remarks"].dump(), HasSubstr("the heat was not off"));
  EXPECT_EQ(all[5]["now"]["says"], "nothing runs at this power (100 % of the possible stills)");
  EXPECT_THAT(all[5]["decisions"].dump(), HasSubstr("not reached at this power"));
  EXPECT_FALSE(all[6]["decisions"].back()["in_minutes"].is_null());
}

TEST(FollowProgress, IsToldOnceItTakesLongAndWipedOut) {
  std::vector<std::string> told;
  double now_s = 0.0;
  const Progress progress = stills_told(
      [&told](const std::string& line) { told.push_back(line); }, [&now_s] { return now_s; });
  progress(10, 20000);
  now_s = 0.9;
  progress(500, 20000);
  progress(20000, 20000);
  EXPECT_TRUE(told.empty());
  progress(10, 20000);
  now_s = 2.0;
  progress(8400, 20000);
  progress(20000, 20000);
  EXPECT_THAT(told, testing::ElementsAre("Possible stills: 8400 of 20000", ""));
}

}  // namespace
}  // namespace lynearm::cli
