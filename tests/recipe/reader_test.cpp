#include "recipe/reader.hpp"

#include <gtest/gtest.h>

#include "recipe/made_up.hpp"

namespace lynearm::recipe {
namespace {

using made_up::batch;
using made_up::Batch;

// What the least text needs, on its first four lines, with room for one more key on top.
std::string with(const std::string& keys) {
  return keys +
         "\nname = \"x\"\nmash.rest.temperature = \"66 °C\"\n"
         "mash_bill = [{grain = \"rye\", mass = \"1 kg\"}]\n";
}

std::vector<std::string> faults(const std::string& text) {
  std::vector<std::string> sentences;
  try {
    (void)read(text, "b.toml", batch);
  } catch (const base::InputError& error) {
    for (const base::Fault& fault : error.faults()) sentences.push_back(sentence(fault));
  }
  return sentences;
}

std::string fault(const std::string& text) {
  const std::vector<std::string> all = faults(text);
  EXPECT_EQ(all.size(), 1U) << ::testing::PrintToString(all);
  return all.empty() ? "" : all.front();
}

TEST(Reader, ReadsEveryShapeOfKey) {
  const Batch b = read(made_up::good_text, "b.toml", batch);
  EXPECT_EQ(b.name, "Tern 8");
  EXPECT_EQ(b.head, made_up::Head::plates);
  EXPECT_EQ(b.gravity, units::SpecificGravity::ratio(1.07));
  EXPECT_EQ(b.strength, (units::StatedStrength{110.0, units::StrengthScale::us_proof}));
  EXPECT_EQ(b.jars, 14);
  EXPECT_EQ(b.reflux, 0.25);
  EXPECT_TRUE(b.peated);
  ASSERT_EQ(b.steps.size(), 2U);
  EXPECT_EQ(b.steps[1], units::Temperature::celsius(66));
  ASSERT_EQ(b.bill.size(), 2U);
  EXPECT_EQ(b.bill[0].mass, units::Mass::kilograms(4.5));
  EXPECT_FALSE(b.bill[0].price);
  EXPECT_DOUBLE_EQ(b.bill[1].mass.pounds(), 2.25);
  EXPECT_EQ(b.bill[1].price, (units::Price{1.2, units::PricedBy::kilogram}));
  EXPECT_EQ(b.mash.efficiency.half_width_80, units::Share::percent(5));
  EXPECT_EQ(b.mash.rest.temperature, units::Temperature::fahrenheit(150));
  EXPECT_EQ(b.mash.rest.time, units::Duration::minutes(90));
  EXPECT_FALSE(b.second_rest);
}

TEST(Reader, WhatIsLeftOutHasItsDefault) {
  const Batch b = read(with(""), "b.toml", batch);
  EXPECT_EQ(b.head, made_up::Head::pot);
  EXPECT_EQ(b.gravity, units::SpecificGravity::ratio(1.062));
  EXPECT_EQ(b.jars, 12);
  EXPECT_EQ(b.mash.efficiency.median, units::Share::percent(75));
  EXPECT_EQ(b.mash.efficiency.half_width_80, units::Share::percent(4));
  EXPECT_EQ(b.mash.rest.time, units::Duration::minutes(90));
}

TEST(Reader, APlainValueKeepsTheUsualSpread) {
  const Batch b = read(with("mash.efficiency = \"60 %\""), "b.toml", batch);
  EXPECT_EQ(b.mash.efficiency.median, units::Share::percent(60));
  EXPECT_EQ(b.mash.efficiency.half_width_80, units::Share::percent(4));
}

TEST(Reader, ASectionThatMayBeLeftOutIsReadWhenItIsThere) {
  const Batch b = read(with("second_rest.temperature = \"72 °C\""), "b.toml", batch);
  ASSERT_TRUE(b.second_rest);
  EXPECT_EQ(b.second_rest->temperature, units::Temperature::celsius(72));
}

TEST(Reader, AValueOutsideItsRangeIsToldWithTheRange) {
  EXPECT_EQ(
      fault(with("second_rest.temperature = \"180 °C\"")),
      "b.toml:1:27: second_rest.temperature is \"180 °C\"; accepted: a temperature such as "
      "\"66 °C\" or \"150 °F\", from 40 °C to 80 °C.");
  EXPECT_EQ(
      fault(with("jars = 0")),
      "b.toml:1:8: jars is \"0\"; accepted: a whole number, written without quotes, from 1 "
      "to 40.");
  EXPECT_EQ(fault(with("second_rest = {temperature = \"66 °C\", time = \"-5 min\"}")),
            "b.toml:1:46: second_rest.time is \"-5 min\"; accepted: a duration such as \"90 "
            "min\" or \"3 days\", 0 s or more.");
  EXPECT_EQ(
      fault(with("mash.efficiency = \"7 %\"")),
      "b.toml:1:19: mash.efficiency is \"7 %\"; accepted: a share such as \"75 %\", from 20 "
      "% to 100 %.");
}

TEST(Reader, ABareNumberWhereAUnitIsNeededIsToldHowToWriteIt) {
  EXPECT_EQ(
      fault("name = \"x\"\nmash.rest.temperature = \"66 °C\"\n[[mash_bill]]\n"
            "grain = \"rye\"\nmass = 4.50\n"),
      "b.toml:5:8: mash_bill[1].mass is \"4.50\"; accepted: a mass in quotes with its unit, "
      "such as \"4.5 kg\" or \"12 lb\", from 1 g to 200 kg.");
}

TEST(Reader, AUnitOfAnotherKindIsNamed) {
  EXPECT_EQ(
      fault(with("second_rest.temperature = \"66 kg\"")),
      "b.toml:1:27: second_rest.temperature is \"66 kg\"; accepted: a temperature such as "
      "\"66 °C\" or \"150 °F\" (\"kg\" is a unit of mass), from 40 °C to 80 °C.");
}

TEST(Reader, ItemsOfAListAreCountedFromOne) {
  EXPECT_EQ(fault("name = \"x\"\nmash.rest.temperature = \"66 °C\"\n"
                  "[[mash_bill]]\ngrain = \"rye\"\nmass = \"1 kg\"\n"
                  "[[mash_bill]]\ngrain = \"oats\"\n"),
            "b.toml:6:1: mash_bill[2].mass is missing; accepted: a mass such as \"4.5 kg\" or "
            "\"12 lb\", from 1 g to 200 kg.");
  EXPECT_EQ(fault(with("steps = [\"50 °C\", 66]")),
            "b.toml:1:19: steps[2] is \"66\"; accepted: a temperature in quotes with its unit, "
            "such as \"66 °C\" or \"150 °F\".");
}

TEST(Reader, AnUnknownKeyIsToldWithTheNearestAndAllOthers) {
  EXPECT_EQ(
      fault(with("second_rest = {temperature = \"66 °C\", tiem = \"5 min\"}")),
      "b.toml:1:39: second_rest.tiem is not known here; did you mean \"time\"? Accepted are "
      "the keys temperature, time.");
  EXPECT_EQ(fault(with("cask = 3")),
            "b.toml:1:1: cask is not known here; accepted are the keys name, head, gravity, "
            "strength, jars, reflux, peated, steps, mash_bill, mash, second_rest.");
  EXPECT_EQ(fault(with("") + "[cask]\nsize = 3\n").substr(0, 34),
            "b.toml:5:2: cask is not known here");
}

TEST(Reader, AMisspeltNameIsToldWithTheNearest) {
  EXPECT_EQ(fault(with("head = \"plate\"")),
            "b.toml:1:8: head is \"plate\"; accepted: one of \"pot\", \"plates\" (\"plates\" "
            "is the nearest).");
  EXPECT_EQ(fault(with("head = 3")),
            "b.toml:1:8: head is \"3\"; accepted: one of \"pot\", \"plates\".");
}

TEST(Reader, AJudgementAcrossKeysHasItsPlace) {
  EXPECT_EQ(fault(with("head = \"plates\"")),
            "b.toml: reflux is missing; accepted: a reflux, since the head has plates.");
}

TEST(Reader, TellsEveryMistakeInTheOrderOfTheText) {
  const std::vector<std::string> all = faults(R"(name = ""
jars = "many"
peated = "yes"
reflux = inf
gravity = "15 °P"
strength = 40
colour = "amber"

[mash]
efficiency = "75 ± 4"
[mash.rest]
time = 90
[[mash_bill]]
grain = "rye"
mass = "4,5 kg"
[[mash_bill]]
grain = "oats"
mass = "1 kg"
price = "2"
)");
  const std::vector<std::string> starts{
      "b.toml:1:8: name is missing",
      "b.toml:2:8: jars is \"many\"; accepted: a whole number",
      "b.toml:3:10: peated is \"yes\"; accepted: true or false",
      "b.toml:4:10: reflux is \"inf\"; accepted: a number",
      "b.toml:5:11: gravity is \"15 °P\"; accepted: a specific gravity such as \"1.062\" "
      "(\"°P\"",
      "b.toml:6:12: strength is \"40\"; accepted: a strength such as \"55 %vol\"",
      "b.toml:7:1: colour is not known here; accepted are the keys",
      "b.toml:10:14: mash.efficiency is \"75 ± 4\"",
      "b.toml:11:1: mash.rest.temperature is missing",
      "b.toml:12:8: mash.rest.time is \"90\"; accepted: a duration in quotes",
      "b.toml:15:8: mash_bill[1].mass is \"4,5 kg\"",
      "b.toml:19:9: mash_bill[2].price is \"2\"; accepted: a price such as",
  };
  ASSERT_EQ(all.size(), starts.size()) << ::testing::PrintToString(all);
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_EQ(all[i].substr(0, starts[i].size()), starts[i]);
  }
}

TEST(Reader, AnEmptyTextMissesWhatIsRequired) {
  const std::vector<std::string> all = faults("");
  ASSERT_EQ(all.size(), 3U) << ::testing::PrintToString(all);
  EXPECT_EQ(all[0].substr(0, 28), "b.toml: name is missing; acc");
  EXPECT_EQ(all[1],
            "b.toml: mash_bill is missing; accepted: at least 1 [[mash_bill]] with its "
            "keys.");
  EXPECT_EQ(all[2].substr(0, 46), "b.toml: mash.rest.temperature is missing; acce");
}

TEST(Reader, ATableOfTheWrongShapeIsOneFault) {
  EXPECT_EQ(
      fault("name = \"x\"\nmash_bill = \"rye\"\nmash.rest.temperature = \"66 °C\"\n"),
      "b.toml:2:13: mash_bill is \"rye\"; accepted: at least 1 [[mash_bill]] with its keys.");
  const std::vector<std::string> all = faults("name = \"x\"\nmash_bill = [3]\nmash = 5\n");
  ASSERT_EQ(all.size(), 3U) << ::testing::PrintToString(all);
  EXPECT_EQ(all[1],
            "b.toml:2:14: mash_bill[1] is \"3\"; accepted: at least 1 [[mash_bill]] with its "
            "keys.");
  EXPECT_EQ(all[2], "b.toml:3:8: mash is \"5\"; accepted: a section [mash] with its keys.");
}

TEST(Reader, FaultsTheEngineFindsGetTheirPlace) {
  const auto engine = [](Section& in) {
    const int jars = in.required<int>("jars", "number of jars");
    if (jars > 3) throw base::InputError("jars", "4", "as many as there are");
    return jars;
  };
  try {
    (void)read("\n\njars = 4\n", "b.toml", engine);
    FAIL() << "not refused";
  } catch (const base::InputError& error) {
    EXPECT_EQ(
        error.faults(),
        (std::vector<base::Fault>{{"jars", "4", "as many as there are", "b.toml", 3, 8}}));
  }
}

}  // namespace
}  // namespace lynearm::recipe
