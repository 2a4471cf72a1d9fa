#include "still/reading.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace lynearm::still {
namespace {

using testing::ElementsAre;
using units::Temperature;

std::vector<std::string> sentences(const std::vector<base::Fault>& faults) {
  std::vector<std::string> all;
  for (const base::Fault& fault : faults) all.push_back(base::sentence(fault));
  return all;
}

Reading whole() {
  Reading reading;
  reading.at = units::Duration::minutes(42.0);
  reading.power = units::Power::kilowatts(2.0);
  reading.pot_temperature = Temperature::celsius(91.2);
  reading.head_temperature = Temperature::celsius(88.0);
  reading.spout = spirit::Reading{71.0, spirit::Scale::percent_vol};
  reading.spout_temperature = Temperature::celsius(19.0);
  reading.collected = units::Volume::litres(0.4);
  reading.coolant_in = Temperature::celsius(12.0);
  reading.coolant_out = Temperature::celsius(41.0);
  reading.coolant_flow = units::VolumeFlow::litres_per_minute(1.5);
  reading.line = 7;
  return reading;
}

TEST(Reading, WhatAStillShowsIsPlausible) {
  EXPECT_TRUE(faults_of(whole()).empty());
  EXPECT_TRUE(faults_of(Reading{}).empty());
  EXPECT_NO_THROW(require_plausible(whole()));
}

TEST(Reading, EveryImpossibleFigureIsToldTogether) {
  Reading reading = whole();
  reading.at = units::Duration::minutes(-1.0);
  reading.power = units::Power::kilowatts(200.0);
  reading.pot_temperature = Temperature::celsius(912.0);
  reading.head_temperature = Temperature::celsius(-88.0);
  reading.spout->figure = 171.0;
  reading.spout_temperature = Temperature::celsius(190.0);
  reading.collected = units::Volume::litres(-0.4);
  reading.coolant_in = Temperature::celsius(std::nan(""));
  reading.coolant_out = Temperature::celsius(410.0);
  reading.coolant_flow = units::VolumeFlow::litres_per_minute(-1.0);
  EXPECT_THAT(
      sentences(faults_of(reading)),
      ElementsAre(
          "at is \"-1 min\"; accepted: a duration from 0 s to 60 d.",
          "power is \"200 kW\"; accepted: a power from 0 kW to 100 kW.",
          "pot_temperature is \"912 °C\"; accepted: a temperature from -20 °C to 120 °C.",
          "head_temperature is \"-88 °C\"; accepted: a temperature from -20 °C to 120 °C.",
          "spout is \"171.0 %vol\"; accepted: a reading from 0 to 100 on that scale.",
          "spout_temperature is \"190 °C\"; accepted: a temperature from -20 °C to 120 °C.",
          "collected is \"-400 mL\"; accepted: a volume from 0 L to 10000 L.",
          "coolant_in is \"not a number\"; accepted: a temperature.",
          "coolant_out is \"410 °C\"; accepted: a temperature from -20 °C to 120 °C.",
          "coolant_flow is \"-1 L/min\"; accepted: a flow from 0 L/min to 1000 L/min."));
  for (const base::Fault& fault : faults_of(reading)) EXPECT_EQ(fault.line, 7);
  EXPECT_THROW(require_plausible(reading), base::InputError);
}

TEST(Reading, TheLimitsThemselvesAreAccepted) {
  Reading reading;
  reading.at = longest_run;
  reading.power = most_power;
  reading.pot_temperature = hottest_reading;
  reading.coolant_in = coldest_reading;
  reading.collected = most_collected;
  reading.coolant_flow = most_coolant;
  reading.spout = spirit::Reading{200.0, spirit::Scale::us_proof};
  EXPECT_TRUE(faults_of(reading).empty());
}

TEST(Reading, AFigureThatIsNotFiniteIsTold) {
  Reading reading;
  reading.spout = spirit::Reading{std::nan(""), spirit::Scale::percent_vol};
  reading.at = units::Duration::seconds(std::numeric_limits<double>::infinity());
  EXPECT_THAT(
      sentences(faults_of(reading)),
      ElementsAre("at is \"not a number\"; accepted: a duration.",
                  "spout is \"not a number\"; accepted: a reading from 0 to 100 on that "
                  "scale."));
}

TEST(Reading, ThatStopsTheRunDrawsNoPower) {
  Reading reading;
  reading.event = Event::stopped;
  reading.power = units::Power::watts(500.0);
  EXPECT_THAT(
      sentences(faults_of(reading)),
      ElementsAre("power is \"500 W\"; accepted: none drawn where the run is stopped."));
  reading.power = units::Power{};
  EXPECT_TRUE(faults_of(reading).empty());
}

TEST(Record, EventsAlternateInOrderOfTimeNotOfArrival) {
  const auto event = [](double minutes, Event what) {
    Reading reading;
    reading.at = units::Duration::minutes(minutes);
    reading.event = what;
    return reading;
  };
  EXPECT_TRUE(
      faults_of(Record{{event(90.0, Event::resumed), event(60.0, Event::stopped)}}).empty());
  EXPECT_THAT(sentences(faults_of(Record{{event(60.0, Event::resumed)}})),
              ElementsAre("event is \"resumed\"; accepted: stopped, since the run is going."));
}

TEST(Record, ATimeThatIsNoNumberGoesLast) {
  Record record{{whole(), whole(), whole()}};
  record.readings[0].at = units::Duration::minutes(std::nan(""));
  record.readings[1].at = units::Duration::minutes(9.0);
  record.readings[2].at = units::Duration::minutes(3.0);
  record = by_time(record);
  EXPECT_EQ(record.readings[0].at.minutes(), 3.0);
  EXPECT_EQ(record.readings[1].at.minutes(), 9.0);
  EXPECT_TRUE(std::isnan(record.readings[2].at.minutes()));
}

TEST(Event, HasAWordThatReadsBack) {
  for (const Event event : {Event::stopped, Event::resumed}) {
    EXPECT_EQ(event_of(word(event)), event);
  }
  EXPECT_FALSE(event_of("paused"));
}

}  // namespace
}  // namespace lynearm::still
