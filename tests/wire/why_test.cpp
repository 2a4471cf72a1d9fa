// Every answer of the gauge carries its inputs, model, source and what its band is made of.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "spirit/gauging.hpp"
#include "spirit/lot.hpp"
#include "wire/answer.hpp"
#include "wire/ask.hpp"

namespace lynearm::wire {
namespace {

using nlohmann::json;

void expect_whole(const json& why) {
  for (const char* part : {"what", "model", "source", "band"}) {
    EXPECT_FALSE(why.at(part).get<std::string>().empty()) << part;
  }
  EXPECT_FALSE(why.at("inputs").empty());
  for (const json& input : why["inputs"]) {
    EXPECT_FALSE(input.at("name").get<std::string>().empty());
    EXPECT_FALSE(input.at("value").get<std::string>().empty());
  }
}

TEST(Why, AGaugingTellsWhatWasRead) {
  const GaugeAsked asked = read_gauge_asked(R"({"reading":73.1,"scale":"proof","at_C":29})");
  const json told = json::parse(gauged_json(asked, spirit::Gauging{}, std::nullopt));
  expect_whole(told["why"]);
  EXPECT_EQ(told["why"]["inputs"][0]["value"], "73.1 proof");
  EXPECT_EQ(told["why"]["inputs"][1]["value"], "29.0 °C");
}

TEST(Why, AReductionTellsFromWhatToWhat) {
  const ReduceAsked asked = read_reduce_asked(
      R"({"volume_L":3.9,"strength_percent_vol":68.2,"at_C":20,"to_percent_vol":55})");
  const spirit::Lot lot = spirit::lot(asked.volume, asked.strength, asked.at);
  const json told = json::parse(reduced_json(
      asked, spirit::reduce(lot, asked.to, {asked.at, asked.water_at, spirit::reference_20C})));
  expect_whole(told["why"]);
  EXPECT_EQ(told["why"]["inputs"][0]["value"], "3.900 L at 68.2 %vol, 20.0 °C");
  // 27 CFR 30.11 by way of a litre of pure alcohol, 0.525817 proof gallons (account.hpp).
  EXPECT_NEAR(told["proof_gallons"].get<double>(), 3.9 * 0.682 * 0.525817, 2e-6);
}

TEST(Why, ABlendTellsEachLot) {
  const std::vector<PartAsked> parts =
      read_blend_asked(R"({"parts":[{"volume_L_20C":1,"strength_percent_vol":70},)"
                       R"({"volume_L_20C":2,"strength_percent_vol":40}]})");
  const json told =
      json::parse(blend_json(parts, spirit::lot(parts[0].volume, parts[0].strength) +
                                        spirit::lot(parts[1].volume, parts[1].strength)));
  expect_whole(told["why"]);
  EXPECT_EQ(told["why"]["inputs"][1]["value"], "2.000 L at 40.0 %vol");
}

TEST(Why, AGravityTellsItsYieldWhereAlcoholIsImplied) {
  const GravityAsked asked = read_gravity_asked(
      R"({"reading":6.5,"scale":"brix","at_C":20,"original_specific_gravity":1.06})");
  const json told = json::parse(gravity_json(
      asked, {units::SpecificGravity::ratio(1.0), units::Plato::degrees(0), std::nullopt}));
  expect_whole(told["why"]);
  EXPECT_EQ(told["why"]["inputs"][2]["value"], "1.0600");
}

}  // namespace
}  // namespace lynearm::wire
