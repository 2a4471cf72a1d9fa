#include "plan/timeline.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "plan/plan.hpp"
#include "plan/tern.hpp"

namespace lynearm::plan {
namespace {

using units::Duration;

TEST(Timeline, tells_time_by_day_and_clock) {
  EXPECT_EQ(clock(Duration::hours(8.0)), "day 1 08:00");
  EXPECT_EQ(clock(Duration::hours(24.0)), "day 2 00:00");
  EXPECT_EQ(clock(Duration::days(3.0) + Duration::minutes(61.0)), "day 4 01:01");
}

TEST(Timeline, never_leaves_two_main_steps_at_once) {
  const Plan plan = make(tern::recipe_8(), tern::kit_8());
  Duration free;
  for (const Step& step : plan.timeline.steps) {
    if (step.beside) continue;
    EXPECT_GE(step.start.minutes(), free.minutes() - 1e-6) << step.what;
    free = step.end();
  }
}

TEST(Timeline, lets_hands_rest_at_night) {
  const Plan plan = make(tern::recipe_8(), tern::kit_8());
  for (const Step& step : plan.timeline.steps) {
    // What must follow at once (the still's run and its end) may reach into the evening.
    if (step.attention == Attention::wait || step.stage == "Strip" ||
        step.stage == "Spirit run") {
      continue;
    }
    const double hour = step.start.hours() - 24.0 * std::floor(step.start.days());
    EXPECT_GE(hour, 7.0) << step.what;
    EXPECT_LE(hour, 21.01) << step.what;
  }
}

TEST(Timeline, heats_the_sparge_water_in_the_still_while_the_maize_cooks) {
  const Plan plan = make(tern::recipe_8(), tern::kit_8());
  const auto& steps = plan.timeline.steps;
  const auto beside = std::find_if(steps.begin(), steps.end(), [](const Step& step) {
    return step.beside && step.what.find("still's boiler") != std::string::npos;
  });
  ASSERT_NE(beside, steps.end());
  const auto cook = std::find_if(steps.begin(), steps.end(), [](const Step& step) {
    return step.what.find("Cook the grain") != std::string::npos;
  });
  ASSERT_NE(cook, steps.end());
  EXPECT_LT(beside->start, cook->end());
}

// Once a step stood at eight the next morning that turned the heat off under a still which had
// run out the evening before.
TEST(Timeline, turns_the_heat_off_when_the_run_ends) {
  for (const double power_kW : {2.0, 3.0, 4.0, 6.0}) {
    Kit kit = tern::kit_8();
    kit.still.boiler.power = units::Power::kilowatts(power_kW);
    const Plan plan = make(tern::recipe_8(), kit);
    const Step* before = nullptr;
    for (const Step& step : plan.timeline.steps) {
      if (step.beside) continue;
      if (step.what.find("heat off") != std::string::npos) {
        ASSERT_NE(before, nullptr);
        EXPECT_NEAR(step.start.minutes(), before->end().minutes(), 1e-6) << step.what;
      }
      before = &step;
    }
  }
}

TEST(Timeline, has_a_step_for_each_run_of_the_still) {
  const Plan plan = make(tern::recipe_8(), tern::kit_8());
  const auto runs = std::count_if(
      plan.timeline.steps.begin(), plan.timeline.steps.end(),
      [](const Step& step) { return step.what.find(": charge") != std::string::npos; });
  EXPECT_EQ(runs, plan.strip.runs + plan.spirit.runs);
}

// The malts alone, infused in a tub that the kit does not heat.
Plan infused(units::Temperature hottest_at_hand) {
  Recipe recipe = tern::recipe_8();
  recipe.bill.erase(recipe.bill.begin());  // the maize that is cooked
  recipe.mash.cook.reset();
  recipe.mash.water = units::Volume::litres(30.0);
  Kit kit = tern::kit_8();
  kit.liquor.hot = hottest_at_hand;
  return make(recipe, kit);
}

TEST(Timeline, plans_no_heating_in_a_tub_without_heat) {
  for (const double hot_C : {90.0, 68.0}) {
    const Plan plan = infused(units::Temperature::celsius(hot_C));
    const auto& steps = plan.timeline.steps;
    EXPECT_EQ(steps[1].what.rfind("Fill the mash tub with 30.0 L of water at ", 0), 0U)
        << steps[1].what;
    EXPECT_EQ(steps[1].attention, Attention::hands_on);
    const bool mixed = steps[1].what.find("the rest cold") != std::string::npos;
    EXPECT_EQ(mixed, hot_C > 80.0) << steps[1].what;
  }
}

}  // namespace
}  // namespace lynearm::plan
