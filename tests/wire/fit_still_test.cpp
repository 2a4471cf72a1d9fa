// The JSON of a fit: keys and figures of a fit made by hand.
#include "wire/fit_still.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace lynearm::wire {
namespace {

using still::StillConstant;

still::StillFit made_fit() {
  still::StillFit fit;
  fit.runs.resize(1);
  still::FittedConstant head;
  head.constant = StillConstant::head_loss;
  head.value = 3.2;
  head.sd = 0.1;
  head.low = 3.07;
  head.high = 3.33;
  head.before = {StillConstant::head_loss, 3.5, 0.7};
  head.told = true;
  head.left_open = 0.04;
  still::FittedConstant strength;
  strength.constant = StillConstant::charge_strength;
  strength.run = 0;
  strength.before = {StillConstant::charge_strength, 0.0, 1.1, 0};
  strength.left_open = 0.95;
  still::FittedConstant efficiency = head;
  efficiency.constant = StillConstant::heating_efficiency;
  efficiency.low = 0.9;
  fit.constants = {head, strength, efficiency};
  fit.correlations = {1.0, 0.97, 0.0, 0.97, 1.0, 0.0, 0.0, 0.0, 1.0};
  fit.entangled = {{0, 1, 0.97}};
  still::FittedReading reading;
  reading.seen = {still::LogInstrument::hydrometer, 3600.0, 7.0, 0.5, 20.0, 19};
  reading.expected = 70.0;
  reading.spread = 0.5;
  reading.outlying = true;
  fit.readings = {reading};
  fit.instruments = {{still::LogInstrument::hydrometer, 1, 1, 0.0, 0.5, 0.5}};
  fit.passed_over = {{0, 4, "power 40000 W, alone between others that agree"}};
  return fit;
}

TEST(FitStillJson, NamesEachConstantItsUnitAndItsRun) {
  const auto object = nlohmann::json::parse(json(made_fit(), {"run.csv"}, "[head]\n"));
  const auto& head = object["constants"][0];
  EXPECT_EQ(head["constant"], "head_loss");
  EXPECT_EQ(head["unit"], "W/K");
  EXPECT_TRUE(head["run"].is_null());
  EXPECT_EQ(head["value"], 3.2);
  EXPECT_EQ(head["standard_uncertainty"], 0.1);
  EXPECT_EQ(head["low_80"], 3.07);
  EXPECT_EQ(head["high_80"], 3.33);
  EXPECT_EQ(head["told"], true);
  EXPECT_EQ(object["constants"][1]["constant"], "charge_strength");
  EXPECT_EQ(object["constants"][1]["run"], 1);
  EXPECT_EQ(object["constants"][1]["told"], false);
}

TEST(FitStillJson, TellsWhatIsDoubted) {
  const auto object = nlohmann::json::parse(json(made_fit(), {"run.csv"}, "[head]\n"));
  EXPECT_EQ(object["entangled"][0]["first"], "head loss");
  EXPECT_EQ(object["entangled"][0]["correlation"], 0.97);
  EXPECT_EQ(object["outlying"][0]["line"], 19);
  EXPECT_EQ(object["outlying"][0]["minutes"], 60.0);
  EXPECT_EQ(object["outlying"][0]["expected"], 70.0);
  EXPECT_EQ(object["passed_over"][0]["line"], 4);
  EXPECT_EQ(object["instruments"][0]["instrument"], "hydrometer");
  EXPECT_EQ(object["runs"][0], "run.csv");
  EXPECT_EQ(object["kit_section"], "[head]\n");
  EXPECT_EQ(
      object["account"][0],
      "1 reading is too few to check each other: a constant is told only by more readings "
      "than constants.");
  EXPECT_EQ(
      object["account"][1],
      "Not told by this run: charge strength. It is hardly better known than before: what "
      "stands there is mostly what was believed.");
}

}  // namespace
}  // namespace lynearm::wire
