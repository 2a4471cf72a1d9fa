#include "record/run_key.hpp"

#include <gtest/gtest.h>

namespace lynearm::record {
namespace {

using still::Reading;
using units::Temperature;

Reading put(const char* name, const char* entry) {
  Reading reading;
  const auto key = RunKey::find(name);
  EXPECT_TRUE(key) << name;
  if (key) {
    EXPECT_EQ(key->put(reading, entry), "") << name;
  }
  return reading;
}

std::string refusal(const char* name, const char* entry) {
  Reading reading;
  const auto key = RunKey::find(name);
  EXPECT_TRUE(key) << name;
  std::string accepted = key ? key->put(reading, entry) : "";
  EXPECT_EQ(reading, Reading{}) << "a refused entry has left something";
  return accepted;
}

TEST(RunKey, CarriesTheUnitInTheName) {
  EXPECT_EQ(put("minutes", "90").at, units::Duration::hours(1.5));
  EXPECT_EQ(put("hours", "1.5").at, units::Duration::hours(1.5));
  EXPECT_EQ(put("power_W", "1800").power, units::Power::watts(1800.0));
  EXPECT_EQ(put("power_kW", "1.8").power, units::Power::kilowatts(1.8));
  EXPECT_EQ(put("pot_temperature_C", "91.2").pot_temperature, Temperature::celsius(91.2));
  EXPECT_EQ(put("head_temperature_F", "190").head_temperature, Temperature::fahrenheit(190.0));
  EXPECT_EQ(put("spout_percent_vol", "71").spout,
            (spirit::Reading{71.0, spirit::Scale::percent_vol}));
  EXPECT_EQ(put("spout_proof", "142").spout, (spirit::Reading{142.0, spirit::Scale::us_proof}));
  EXPECT_EQ(put("spout_temperature_C", "19.5").spout_temperature, Temperature::celsius(19.5));
  EXPECT_EQ(put("collected_mL", "350").collected, units::Volume::millilitres(350.0));
  EXPECT_EQ(put("collected_L", "0.35").collected, units::Volume::litres(0.35));
  EXPECT_EQ(put("collected_floz", "12").collected, units::Volume::us_fluid_ounces(12.0));
  EXPECT_EQ(put("collected_fl_oz", "12").collected, units::Volume::us_fluid_ounces(12.0));
  EXPECT_EQ(put("coolant_in_C", "12").coolant_in, Temperature::celsius(12.0));
  EXPECT_EQ(put("coolant_out_F", "104").coolant_out, Temperature::fahrenheit(104.0));
  EXPECT_EQ(put("coolant_flow_L_per_min", "2").coolant_flow,
            units::VolumeFlow::litres_per_minute(2.0));
  EXPECT_EQ(put("coolant_flow_gal_per_min", "0.5").coolant_flow,
            units::VolumeFlow::us_gallons_per_minute(0.5));
  EXPECT_EQ(put("event", "stopped").event, still::Event::stopped);
  EXPECT_EQ(put("note", "smells of pear").note, "smells of pear");
}

TEST(RunKey, WithoutAUnitEachEntryStatesIts) {
  EXPECT_EQ(put("pot_temperature", "91.2 C").pot_temperature, Temperature::celsius(91.2));
  EXPECT_EQ(put("power", "1.8 kW").power, units::Power::kilowatts(1.8));
  EXPECT_EQ(put("spout", "142 proof").spout, (spirit::Reading{142.0, spirit::Scale::us_proof}));
  EXPECT_EQ(put("collected", "350 mL").collected, units::Volume::millilitres(350.0));
  EXPECT_EQ(refusal("pot_temperature", "91.2"),

            "a temperature with its unit, such as \"66 °C\" or \"150 °F\"");
}

TEST(RunKey, CaseDoesNotCount) {
  EXPECT_EQ(put("Pot_Temperature_c", "91.2").pot_temperature, Temperature::celsius(91.2));
  EXPECT_TRUE(RunKey::find("CLOCK")->is_clock());
}

TEST(RunKey, WhatIsNoNumberIsRefusedWithTheReason) {
  const std::string bare = "a number without unit, which the name states";
  EXPECT_EQ(refusal("power_W", "much"), bare);
  EXPECT_EQ(refusal("power_W", ""), bare);
  EXPECT_EQ(refusal("power_W", "1800 W"), bare);
  EXPECT_EQ(refusal("power_W", "nan"), bare);
  EXPECT_EQ(refusal("power_W", "-inf"), bare);
  EXPECT_EQ(refusal("power_W", "--4"), bare);
  EXPECT_EQ(refusal("pot_temperature_C", "91,2"),
            bare + ", with a point as decimal mark and no separator of thousands");
  EXPECT_EQ(refusal("power_kW", "1e400"), bare + ", of a size that can be held");
  EXPECT_EQ(refusal("power_kW", "1e307"), bare + ", of a size that can be held");
  EXPECT_EQ(refusal("event", "Stop"), "\"stopped\" or \"resumed\"");
}

TEST(RunKey, AnUnknownNameIsToldWithTheNearest) {
  for (const char* name : {"", "pot", "pot_temperature_", "pot_temperature_kg", "minutes_C",
                           "event_C", "spouts", "spout_SG", "head temperature"}) {
    EXPECT_FALSE(RunKey::find(name)) << name;
  }
  EXPECT_EQ(accepted_names("pot_temprature_C"),
            "a name of the run log; did you mean \"pot_temperature_C\"");
  EXPECT_EQ(accepted_names("head temperature"),
            "a name of the run log; did you mean \"head_temperature\"");
  EXPECT_EQ(accepted_names("zzzzzz"),
            "a name of the run log: minutes, hours, clock, power, pot_temperature, "
            "head_temperature, spout, spout_temperature, collected, coolant_in, coolant_out, "
            "coolant_flow, event, note, most of them with their unit, as in pot_temperature_C");
}

TEST(RunKey, EveryNameThatIsTaughtIsKnown) {
  for (const std::string& name : run_key_names()) EXPECT_TRUE(RunKey::find(name)) << name;
}

}  // namespace
}  // namespace lynearm::record
