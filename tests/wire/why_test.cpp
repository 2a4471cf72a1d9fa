// Every answer of the gauge, of cuts and of a followed run carries its inputs, model, source
// and what its band is made of.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "spirit/gauging.hpp"
#include "spirit/lot.hpp"
#include "still/estimated_loads.hpp"
#include "still/propose_cut.hpp"
#include "wire/answer.hpp"
#include "wire/ask.hpp"
#include "wire/run_forecast.hpp"

namespace lynearm::wire {
namespace {

using nlohmann::json;

void expect_whole(const json& why) {
  for (const char* part : {"what", "model", "source", "band"}) {
    EXPECT_FALSE(why.at(part).get<std::string>().empty()) << part;
  }
  // Whoever asks is told the source itself, not the page of ours that names it.
  EXPECT_EQ(why["source"].get<std::string>().find("docs/"), std::string::npos);
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
  ReductionMade made;
  made.spirit = spirit::lot(*asked.volume, asked.strength, asked.at);
  made.measured =
      spirit::reduce(made.spirit, asked.to, {asked.at, asked.water_at, spirit::reference_20C});
  const json told = json::parse(reduced_json(asked, made));
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

ShelfJars three_jars() {
  ShelfJars shelf;
  for (const auto& [label, percent] : {std::pair{"1", 74.0}, {"2", 70.0}, {"3", 62.0}}) {
    still::Jar jar;
    jar.label = label;
    jar.volume = units::Volume::litres(0.5);
    jar.strength = units::VolumeStrength::percent(percent);
    shelf.jars.push_back(std::move(jar));
    shelf.numbers.push_back(static_cast<int>(shelf.jars.size()));
  }
  shelf.jars[2].fault = 4.0;
  shelf.jars = still::fill_loads(std::move(shelf.jars)).jars;
  shelf.alcohol_left = units::Share::percent(7.0);
  return shelf;
}

TEST(Why, JarsPouredTellEachJarAndWhereItGoes) {
  const ShelfJars shelf = three_jars();
  const auto mL = [](double v) { return units::Volume::millilitres(v); };
  const still::Allotment parts = {
      {mL(500), {}, {}, {}}, {{}, mL(400), mL(100), {}}, {{}, {}, {}, mL(500)}};
  const json told =
      json::parse(poured_json(shelf, {parts, still::evaluate(shelf.jars, parts)}));
  expect_whole(told["why"]);
  EXPECT_EQ(told["why"]["inputs"][1]["name"], "Jar 2");
  EXPECT_EQ(told["why"]["inputs"][1]["value"],
            "0.500 L at 70.0 %vol; 400 mL to the hearts, 100 mL to the feints");
  EXPECT_EQ(told["why"]["inputs"][3]["value"],
            "7 % of the charge's alcohol, by the strengths of the first and the last jar");
  EXPECT_NEAR(told["hearts"]["volume_L_20C"].get<double>(), 0.4, 1e-9);
}

TEST(Why, ProposalsTellWhatIsWishedAndEachItsJars) {
  const ShelfJars shelf = three_jars();
  const still::Purpose& clean = still::purpose("clean");
  still::Wishes wishes;
  wishes.weights = clean.weights;
  const json told = json::parse(cuts_json(shelf, clean, still::propose(shelf.jars, wishes)));
  expect_whole(told["why"]);
  EXPECT_EQ(told["why"]["inputs"][0]["value"], std::string(clean.words));
  EXPECT_EQ(told["why"]["inputs"][2]["value"], "jar 3: 4; 0 nothing found, 10 spoiled");
  ASSERT_FALSE(told["alternatives"].empty());
  for (const json& one : told["alternatives"]) expect_whole(one["poured"]["why"]);
}

TEST(Why, AForecastTellsItsReadingsAndWhatTheyTaughtOfTheStill) {
  RunForecast run;
  run.readings = {journal::Id{}, journal::Id{}};
  run.crowded = 1;
  run.doubts.push_back({});
  run.now.at = units::Duration::minutes(132.0);
  run.air = units::Pressure::hectopascals(1006.0);
  run.constants = {{still::Constant::head_loss, 2.05, 0.2, 2.4, 0.9},
                   {still::Constant::pot_loss, 3.0, 0.5, 3.0, 0.5}};
  const json told = json::parse(run_forecast_json(run));
  expect_whole(told["why"]);
  const json inputs = told["why"]["inputs"];
  EXPECT_EQ(
      inputs[0]["value"],
      "2, 1 not weighed in full beside others of the same minute, figures not believed: 1");
  EXPECT_EQ(inputs[1]["value"], "132 min of the run");
  const still::LearntWords head = still::words(run.constants[0]);
  EXPECT_EQ(inputs[2]["value"], "1006 hPa, by the kit");
  EXPECT_EQ(inputs[3]["name"], "head loss");
  EXPECT_EQ(inputs[3]["value"], head.now + "; " + head.before + " by kit and charge alone");
  EXPECT_EQ(inputs[4]["value"], still::words(run.constants[1]).now + ", by kit and charge");
}

TEST(RunForecast, TellsThatTheHeatGoesOffWhereTheElementMayBeBare) {
  RunForecast run;
  run.now.floor = {units::Volume::litres(6.0), true};
  const auto left = [&run](double least_L) {
    run.now.left_in_pot = {units::Volume::litres(least_L), units::Volume::litres(least_L + 0.4),
                           units::Volume::litres(least_L + 0.8)};
    return json::parse(run_forecast_json(run));
  };
  EXPECT_FALSE(left(6.0).contains("heat_off"));  // to be watched, no more
  const json bare = left(5.8);
  EXPECT_EQ(bare["heat_off"]["says"], bare["cautions"][0]);
  EXPECT_EQ(bare["heat_off"]["brief"], "Element bare: heat off first");
  // Its words are those for a heat that is on.
  run.now.heated = false;
  const json off = left(5.8);
  EXPECT_EQ(off["heat_off"], bare["heat_off"]);
  EXPECT_NE(off["cautions"][0], bare["cautions"][0]);
}

}  // namespace
}  // namespace lynearm::wire
