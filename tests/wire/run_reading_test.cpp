#include "wire/run_reading.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>
#include <vector>

namespace lynearm::wire {
namespace {

using testing::ElementsAre;
using units::Temperature;

constexpr const char* an_object =
    R"(one JSON object, such as {"minutes":42,"head_temperature_C":88.4})";

std::vector<std::string> refusal(std::string_view line) {
  ReadingLines lines("run.jsonl");
  const ReadingLine answer = lines.next(line);
  EXPECT_FALSE(answer.reading);
  std::vector<std::string> all;
  for (const base::Fault& fault : answer.faults) all.push_back(base::sentence(fault));
  return all;
}

TEST(ReadingLines, ReadsNumbersUnderNamesWithUnitsAndTextUnderTheOthers) {
  ReadingLines lines("run.jsonl");
  const ReadingLine answer = lines.next(
      R"({"minutes":42,"head_temperature_C":88.4,"spout":"71 %vol","spout_temperature_C":19,)"
      R"("collected_mL":350,"coolant_flow":"2 L/min","power_W":null,"note":"pear"})");
  ASSERT_TRUE(answer.reading);
  EXPECT_EQ(answer.reading->at, units::Duration::minutes(42.0));
  EXPECT_EQ(answer.reading->head_temperature, Temperature::celsius(88.4));
  EXPECT_EQ(answer.reading->spout, (spirit::Reading{71.0, spirit::Scale::percent_vol}));
  EXPECT_EQ(answer.reading->collected, units::Volume::millilitres(350.0));
  EXPECT_EQ(answer.reading->coolant_flow, units::VolumeFlow::litres_per_minute(2.0));
  EXPECT_FALSE(answer.reading->power);
  EXPECT_EQ(answer.reading->note, "pear");
  EXPECT_EQ(answer.reading->line, 1);
}

TEST(ReadingLines, CountsLinesAndPassesOverEmptyOnes) {
  ReadingLines lines("run.jsonl");
  EXPECT_TRUE(lines.next(R"({"clock":"23:50"})").reading);
  const ReadingLine empty = lines.next(" \r");
  EXPECT_FALSE(empty.reading);
  EXPECT_TRUE(empty.faults.empty());
  const ReadingLine third = lines.next(R"({"clock":"00:10","event":"stopped"})");
  ASSERT_TRUE(third.reading);
  EXPECT_EQ(third.reading->line, 3);
  EXPECT_DOUBLE_EQ(third.reading->at.minutes(), 20.0);
  // Stopped: the next time is ahead, however early in the day.
  EXPECT_DOUBLE_EQ(lines.next(R"({"clock":"23:00","event":"resumed"})").reading->at.hours(),
                   23.0 + 1.0 / 6.0);
}

TEST(ReadingLines, ABrokenLineIsToldWithItsPlace) {
  EXPECT_THAT(
      refusal(R"({"minutes":42,)"),
      ElementsAre(std::string(R"(run.jsonl:1:15: line is "{"minutes":42,"; accepted: )") +
                  an_object + "."));
  EXPECT_THAT(
      refusal("42"),
      ElementsAre(std::string("run.jsonl:1: line is \"42\"; accepted: ") + an_object + "."));
  EXPECT_THAT(
      refusal("[1,2]"),
      ElementsAre(std::string("run.jsonl:1: line is \"[1,2]\"; accepted: ") + an_object + "."));
  EXPECT_EQ(refusal("{} {}").size(), 1U);
  EXPECT_EQ(refusal("\xff\xfe").size(), 1U);
  EXPECT_EQ(refusal(std::string(100000, '[')).size(), 1U);
  EXPECT_EQ(refusal(std::string(60000, '[')).size(), 1U);
}

TEST(ReadingLines, WhatJsonHasNoFigureForIsToldAsSuch) {
  for (const char* figure : {"NaN", "nan", "-Infinity", "Infinity"}) {
    EXPECT_THAT(refusal(std::string(R"({"minutes":1,"power_W":)") + figure + "}"),
                ElementsAre(testing::EndsWith(
                    std::string(an_object) +
                    "; JSON has no such figure: leave out what was not read.")))
        << figure;
  }
  EXPECT_THAT(
      refusal(R"({"minutes":1e999})"),
      ElementsAre("run.jsonl:1: line is \"{\"minutes\":1e999}\"; accepted: figures of a "
                  "size that can be held."));
}

TEST(ReadingLines, EveryFaultOfALineIsTold) {
  EXPECT_THAT(
      refusal(R"({"head_temprature_C":88,"power_W":"2 kW","spout":71,"event":"pause",)"
              R"("pot_temperature_C":910,"note":4,"coolant_in_C":[1]})"),
      ElementsAre(
          "run.jsonl:1: head_temprature_C is \"an unknown name\"; accepted: a name of the run "
          "log; did you mean \"head_temperature_C\".",
          "run.jsonl:1: power_W is \"2 kW\"; accepted: a number without quote marks, in the "
          "unit "
          "of the name.",
          "run.jsonl:1: spout is \"71\"; accepted: a text in quote marks that states its unit.",
          "run.jsonl:1: event is \"pause\"; accepted: \"stopped\" or \"resumed\".",
          "run.jsonl:1: note is \"4\"; accepted: a text in quote marks.",
          "run.jsonl:1: coolant_in_C is \"[1]\"; accepted: a number without quote marks, in "
          "the "
          "unit of the name.",
          "run.jsonl:1: time is missing; accepted: \"minutes\", \"hours\" or \"clock\".",
          "run.jsonl:1: pot_temperature_C is \"910 °C\"; accepted: a temperature from -20 °C "
          "to "
          "120 °C."));
}

TEST(ReadingLines, ANameTwiceOrTwoOfAKindAreRefused) {
  EXPECT_THAT(
      refusal(R"({"minutes":1,"minutes":2})"),
      ElementsAre("run.jsonl:1: minutes is \"there twice\"; accepted: each name once."));
  EXPECT_THAT(refusal(R"({"minutes":1,"hours":2})"),
              ElementsAre("run.jsonl:1: hours is \"2\"; accepted: one of that kind; there is "
                          "minutes too."));
  EXPECT_THAT(
      refusal(R"({"minutes":-1})"),
      ElementsAre("run.jsonl:1: minutes is \"-1 min\"; accepted: a duration from 0 s to "
                  "60 d."));
  EXPECT_THAT(refusal(R"({"clock":"25:00"})"),
              ElementsAre(testing::StartsWith("run.jsonl:1: clock is \"25:00\"; accepted: a "
                                              "time of day from 00:00 to 23:59")));
  EXPECT_THAT(refusal(R"({"minutes":null})"),
              ElementsAre("run.jsonl:1: time is missing; accepted: \"minutes\", \"hours\" or "
                          "\"clock\"."));
}

TEST(ReadingJson, WritesOnlyWhatWasRead) {
  still::Reading reading;
  reading.at = units::Duration::hours(0.7);
  reading.head_temperature = Temperature::celsius(88.4);
  reading.spout = spirit::Reading{142.0, spirit::Scale::us_proof};
  reading.event = still::Event::resumed;
  EXPECT_EQ(
      reading_json(reading),
      R"({"minutes":42.0,"head_temperature_C":88.4,"spout_proof":142.0,"event":"resumed"})");
}

RC_GTEST_PROP(ReadingJsonProperty, WhatIsWrittenReadsBack, ()) {
  const auto some = [](int low, int high) { return *rc::gen::inRange(low, high + 1) * 1e-2; };
  const auto chance = [] { return *rc::gen::arbitrary<bool>(); };
  still::Reading reading;
  reading.at = units::Duration::minutes(some(0, 100000));
  if (chance()) reading.power = units::Power::watts(some(0, 1000000));
  if (chance()) reading.pot_temperature = Temperature::celsius(some(-2000, 12000));
  if (chance()) reading.head_temperature = Temperature::celsius(some(-2000, 12000));
  if (chance()) {
    const auto scale = *rc::gen::element(
        spirit::Scale::percent_vol, spirit::Scale::percent_vol_15C,
        spirit::Scale::percent_vol_60F, spirit::Scale::percent_mass, spirit::Scale::us_proof);
    reading.spout = spirit::Reading{some(0, 10000), scale};
  }
  if (chance()) reading.spout_temperature = Temperature::celsius(some(-2000, 12000));
  if (chance()) reading.collected = units::Volume::millilitres(some(0, 1000000));
  if (chance()) reading.coolant_in = Temperature::celsius(some(-2000, 12000));
  if (chance()) reading.coolant_out = Temperature::celsius(some(-2000, 12000));
  if (chance()) {
    reading.coolant_flow = units::VolumeFlow::litres_per_minute(some(0, 100000));
  }
  const std::string text = reading_json(reading);
  ReadingLines lines("run.jsonl");
  const ReadingLine back = lines.next(text);
  RC_ASSERT(back.reading.has_value());
  RC_ASSERT(reading_json(*back.reading) == text);
}

}  // namespace
}  // namespace lynearm::wire
