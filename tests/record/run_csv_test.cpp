#include "record/run_csv.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>

namespace lynearm::record {
namespace {

using testing::ElementsAre;
using units::Duration;
using units::Temperature;

std::vector<std::string> sentences(const std::vector<base::Fault>& faults) {
  std::vector<std::string> all;
  for (const base::Fault& fault : faults) all.push_back(base::sentence(fault));
  return all;
}

TEST(RunCsv, ReadsAnySubsetInAnyOrder) {
  const RunRead run = read_run_csv(
      "head_temperature_C,note,minutes,spout_percent_vol,spout_temperature_C,power_W\r\n"
      "25.1,heat on,0,,,2000\r\n"
      "\r\n"
      "88.4,\"pear, then glue\",42.5,71,19,\r\n",
      "run.csv");
  EXPECT_THAT(sentences(run.faults), ElementsAre());
  ASSERT_EQ(run.record.readings.size(), 2U);
  const still::Reading& first = run.record.readings[0];
  EXPECT_EQ(first.at, Duration{});
  EXPECT_EQ(first.power, units::Power::watts(2000.0));
  EXPECT_EQ(first.head_temperature, Temperature::celsius(25.1));
  EXPECT_FALSE(first.spout || first.spout_temperature || first.pot_temperature);
  EXPECT_EQ(first.note, "heat on");
  EXPECT_EQ(first.line, 2);
  const still::Reading& second = run.record.readings[1];
  EXPECT_EQ(second.at, Duration::minutes(42.5));
  EXPECT_FALSE(second.power);
  EXPECT_EQ(second.spout, (spirit::Reading{71.0, spirit::Scale::percent_vol}));
  EXPECT_EQ(second.note, "pear, then glue");
  EXPECT_EQ(second.line, 4);
}

TEST(RunCsv, KeepsTheOrderOfArrivalAndTheStatedTime) {
  const RunRead run =
      read_run_csv("minutes,pot_temperature_C\n10,60\n5,40\n10,61\n", "run.csv");
  EXPECT_THAT(sentences(run.faults), ElementsAre());
  ASSERT_EQ(run.record.readings.size(), 3U);
  EXPECT_EQ(run.record.readings[1].at, Duration::minutes(5.0));
  const still::Record sorted = still::by_time(run.record);
  EXPECT_EQ(sorted.readings[0].line, 3);
  EXPECT_EQ(sorted.readings[1].line, 2);  // of one time: as they came
  EXPECT_EQ(sorted.readings[2].line, 4);
}

TEST(RunCsv, TheClockRunsOverMidnightAndPastAStop) {
  const std::string text =
      "clock,pot_temperature_C,event\n"
      "22:00,20,\n"
      "00:30,91,\n"
      "23:45,90.2,\n"
      "01:00,92,stopped\n"
      "16:30,24,resumed\n";
  const RunRead run = read_run_csv(text, "run.csv");
  EXPECT_THAT(sentences(run.faults), ElementsAre());
  std::vector<double> hours;
  for (const still::Reading& reading : run.record.readings) hours.push_back(reading.at.hours());
  EXPECT_THAT(hours, ElementsAre(0.0, 2.5, 1.75, 3.0, 18.5));
  const RunRead earlier = read_run_csv(text, "run.csv", Duration::hours(21.5));
  EXPECT_DOUBLE_EQ(earlier.record.readings[0].at.hours(), 0.5);
  EXPECT_DOUBLE_EQ(earlier.record.readings[4].at.hours(), 19.0);
}

TEST(RunCsv, TellsEveryFaultWithItsLineAndKeepsTheGoodRows) {
  const RunRead run = read_run_csv(
      "minutes,pot_temprature_C,head_temperature_C,spout_percent_vol\n"
      "10,,88.4,71\n"
      "twelve,,88.4,710\n"
      ",,,71\n"
      "14,,88,5\n"
      "15,,\"88.4,71\n"
      "16,,88.6,70\n"
      "-3,,500,70\n",
      "run.csv");
  EXPECT_THAT(
      sentences(run.faults),
      ElementsAre(
          "run.csv:1: head is \"pot_temprature_C\"; accepted: a name of the run log; did you "
          "mean \"pot_temperature_C\".",
          "run.csv:3: column minutes is \"twelve\"; accepted: a number without unit, which the "
          "name states.",
          "run.csv:3: column spout_percent_vol is \"710\"; accepted: a reading from 0 to 100 "
          "on "
          "that scale.",
          "run.csv:4: column minutes is missing; accepted: the time since the heat was turned "
          "on.",
          testing::StartsWith("run.csv:6: "),
          "run.csv:8: column minutes is \"-3\"; accepted: a duration from 0 s to 60 d.",
          "run.csv:8: column head_temperature_C is \"500\"; accepted: a temperature from -20 "
          "°C "
          "to 120 °C."));
  ASSERT_EQ(run.record.readings.size(), 3U);
  EXPECT_EQ(run.record.readings[0].line, 2);
  EXPECT_EQ(run.record.readings[1].line, 5);
  EXPECT_EQ(run.record.readings[2].line, 7);
}

TEST(RunCsv, AHeadThatWillNotDoIsOneFaultAndNoReadings) {
  const auto refusal = [](const char* text) {
    const RunRead run = read_run_csv(text, "run.csv");
    EXPECT_TRUE(run.record.readings.empty());
    return sentences(run.faults);
  };
  EXPECT_THAT(refusal("pot_temperature_C\n90\n91\n"),
              ElementsAre("run.csv:1: column of time is missing; accepted: a column "
                          "\"minutes\", \"hours\" or \"clock\"."));
  EXPECT_THAT(refusal("minutes,clock\n1,12:00\n"),
              ElementsAre("run.csv:1: head is \"clock\"; accepted: one column of that kind; "
                          "there is minutes too."));
  EXPECT_THAT(refusal("minutes;power_W\n1;2000\n"),
              ElementsAre("run.csv:1: head line is \"minutes;power_W\"; accepted: columns "
                          "parted by commas."));
  EXPECT_EQ(refusal("").size(), 1U);
}

TEST(RunCsv, OfTwoColumnsOfAKindTheFirstServes) {
  const RunRead run =
      read_run_csv("minutes,pot_temperature_C,pot_temperature_F\n1,90,200\n", "run.csv");
  EXPECT_THAT(sentences(run.faults),
              ElementsAre("run.csv:1: head is \"pot_temperature_F\"; accepted: one column of "
                          "that kind; there is pot_temperature_C too."));
  ASSERT_EQ(run.record.readings.size(), 1U);
  EXPECT_EQ(run.record.readings[0].pot_temperature, Temperature::celsius(90.0));
}

TEST(RunCsv, HundredsOfUnknownNamesAreCountedNotListed) {
  std::string head = "minutes";
  std::string row = "7";
  for (int i = 0; i < 500; ++i) head += ",x" + std::to_string(i), row += ",";
  const RunRead run = read_run_csv(head + "\n" + row + "\n", "run.csv");
  ASSERT_EQ(run.faults.size(), 21U);
  EXPECT_EQ(base::sentence(run.faults.back()),
            "run.csv:1: head is \"480 more unknown names\"; accepted: names of the run log.");
  EXPECT_EQ(run.record.readings.size(), 1U);
}

TEST(RunCsv, EventsThatDoNotAlternateAreToldOfTheWhole) {
  const RunRead run = read_run_csv(
      "minutes,event\n10,stopped\n30,stopped\n40,resumed\n50,resumed\n", "run.csv");
  EXPECT_THAT(
      sentences(run.faults),
      ElementsAre(
          "run.csv:3: event is \"stopped\"; accepted: resumed, since the run is stopped "
          "already.",
          "run.csv:5: event is \"resumed\"; accepted: stopped, since the run is going."));
  EXPECT_EQ(run.record.readings.size(), 4U);
}

TEST(RunCsv, HandsOutARowAsSoonAsItsLineHasEnded) {
  RunCsv csv("run.csv");
  EXPECT_TRUE(csv.feed("minutes,power_W\n5,2").readings.empty());
  EXPECT_EQ(csv.feed("000\n6,").readings.size(), 1U);
  EXPECT_EQ(csv.finish().readings.size(), 1U);
  EXPECT_EQ(csv.rows(), 2U);
  EXPECT_EQ(csv.failed(), 0U);
}

RC_GTEST_PROP(RunCsvProperty, HoweverTheTextIsCutTheReadingsAreTheSame, ()) {
  const std::string text =
      "clock,head_temperature_C,note\n22:00,20,\"a\n\"\"b\"\"\"\n23:xx,1,\n0:10,90,c\n0:20,1e9,"
      "\n";
  const RunRead whole = read_run_csv(text, "run.csv");
  RunCsv csv("run.csv");
  std::vector<still::Reading> readings;
  std::vector<base::Fault> faults;
  const auto take = [&](RunRows rows) {
    readings.insert(readings.end(), rows.readings.begin(), rows.readings.end());
    faults.insert(faults.end(), rows.faults.begin(), rows.faults.end());
  };
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t size = *rc::gen::inRange<std::size_t>(1, 12);
    take(csv.feed(std::string_view(text).substr(i, size)));
    i += size;
  }
  take(csv.finish());
  RC_ASSERT(readings == whole.record.readings);
  RC_ASSERT(faults == whole.faults);
}

}  // namespace
}  // namespace lynearm::record
