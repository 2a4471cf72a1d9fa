// What a temperature asks for on mash day, at each step; held against the plan's own balance.
#include "station/advice_mash.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <vector>

#include "base/error.hpp"
#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "mash/dough_in.hpp"
#include "mash/enzymes.hpp"
#include "station/demonstration.hpp"

namespace lynearm::station {
namespace {

using namespace journal;
using units::Temperature;
using wire::MashAdvice;
using wire::MashPlace;

const PlanMade& made_of(const std::string& example) {
  static Planned planned(numeric::one_after_another());
  static std::vector<std::shared_ptr<const PlanMade>> kept;
  kept.push_back(planned.of(demo_example(example).recipe, demo_example(example).kit, 0));
  return *kept.back();
}

// The plan's words for the step that begins so.
std::string step(const PlanMade& made, const std::string& begins) {
  for (const plan::Step& one : made.plan.timeline.steps) {
    if (one.what.starts_with(begins)) return one.what;
  }
  return begins;
}

MashAdvice asked(const PlanMade& made, double read_C, const std::string& begins) {
  return mash_advice(made, {}, Temperature::celsius(read_C),
                     begins.empty() ? begins : step(made, begins));
}

// Where the malts settle in this liquor, stirred in as the plan does.
double settles_C(const PlanMade& made, const mash::Contents& liquor) {
  const plan::MashPlan& mash = *made.plan.mash.mash;
  mash::Grist grist{{}, {}, made.pair.kit.place.ambient};
  units::Mass moisture;
  for (const mash::GristLine& line : made.plan.mash.bill.grain) {
    if (line.role != mash::Role::dough_in) continue;
    grist.mass += line.mass;
    moisture += line.mass * line.ingredient.moisture.value.fraction();
  }
  grist.moisture = units::Share::fraction(moisture / grist.mass);
  mash::MashVessel tub{
      made.pair.kit.vessel(made.pair.recipe.mash.vessel)->wall_heat_capacity(), {}, true, {}};
  // What the plan lets escape while it is stirred: the difference to its own balance.
  mash::Contents planned = mash.cook->landed.contents;
  planned.temperature = mash.dough_in;
  const mash::Contents closed = mash::dough_in(planned, grist, tub);
  tub.lost =
      units::Energy::joules((closed.temperature - mash.doughed_in.temperature).kelvins() *
                            (mash::heat_capacity(closed) + tub.wall).joules_per_kelvin());
  return mash::dough_in(liquor, grist, tub).temperature.celsius();
}

// A temperature read after the rest was judged against the rest: 10 L of hot water into a wort
// that was being cooled for its yeast.
TEST(MashAdvice, AfterTheRestNothingIsStirredIn) {
  const PlanMade& made = made_of("Tern 8");
  for (const double read_C : {20.0, 30.0, 66.0, 75.0, 98.0}) {
    for (const char* const begins : {"Drain", "Sparge", "Cool the wort", ""}) {
      const MashAdvice advice = asked(made, read_C, begins);
      if (advice.at == MashPlace::sparging && read_C > 75.0) continue;  // cold into its water
      EXPECT_EQ(advice.correction.with, mash::Mend::nothing) << begins << " " << read_C;
    }
  }
  EXPECT_EQ(asked(made, 66.0, "Drain").at, MashPlace::draining);
  const MashAdvice water = asked(made, 66.0, "Sparge");
  EXPECT_EQ(water.at, MashPlace::sparging);
  EXPECT_NEAR(water.target->celsius(), 75.0, 1e-9);
  EXPECT_NEAR(water.of->litres(), 33.0, 1e-9);
  EXPECT_GT(water.heating->middle, units::Duration{});
  const plan::CoolingPlan& cooling = *made.plan.mash.wort.cooling;
  const MashAdvice wort = asked(made, cooling.from.celsius(), "Cool the wort");
  EXPECT_NEAR(wort.target->celsius(), cooling.to.celsius(), 1e-9);
  EXPECT_NEAR(*wort.clock / cooling.planned, 1.0, 1e-6);  // as the plan has it
  EXPECT_LT(wort.lid_on->least, wort.lid_on->middle);
  EXPECT_LT(wort.lid_on->middle, wort.lid_on->most);
  const MashAdvice cooled = asked(made, cooling.to.celsius(), "");
  EXPECT_FALSE(cooled.clock);
  EXPECT_NEAR(cooled.topped_up->celsius(), made.pair.recipe.ferment.pitch_temperature.celsius(),
              0.05);
}

TEST(MashAdvice, InTheRestColdWaterBringsItBackAndTheEnzymesLossIsTold) {
  const PlanMade& made = made_of("Tern 8");
  const MashAdvice hot = asked(made, 75.0, "Rest");
  EXPECT_EQ(hot.at, MashPlace::rest);
  EXPECT_EQ(hot.correction.with, mash::Mend::cold_water);
  EXPECT_NEAR(hot.beta_halves->seconds() * mash::beta_loss_per_s(75.0), std::log(2.0), 1e-9);
  EXPECT_LT(*hot.beta_halves, units::Duration::minutes(1.0));
  EXPECT_GT(*hot.alpha_halves, *hot.beta_halves);
  EXPECT_EQ(asked(made, 65.6, "Rest").correction.with, mash::Mend::nothing);
  EXPECT_EQ(asked(made, 63.0, "Rest").correction.with, mash::Mend::hot_water);
}

TEST(MashAdvice, WhatTheThermometerItselfMayBeOffByIsNotMended) {
  const PlanMade& made = made_of("Tern 8");
  const double off = made.pair.kit.instruments.thermometer.kelvins();
  const double target = made.pair.recipe.mash.rest_temperature.celsius();
  for (const double side : {-1.0, 1.0}) {
    const MashAdvice within = asked(made, target + side * 0.9 * off, "Rest");
    EXPECT_EQ(within.correction.with, mash::Mend::nothing);
    EXPECT_FALSE(within.heating);
    EXPECT_FALSE(within.alpha_halves);
  }
  EXPECT_EQ(asked(made, target + 1.5 * off, "Rest").correction.with, mash::Mend::cold_water);
}

TEST(MashAdvice, BeforeTheMaltsItTellsHowLongItCoolsAndTheWaterInstead) {
  const PlanMade& made = made_of("Tern 8");
  const plan::CookPlan& cook = *made.plan.mash.mash->cook;
  const MashAdvice landed = asked(made, cook.landed.contents.temperature.celsius(), "Cool to");
  EXPECT_NEAR(*landed.clock / cook.cooling->planned, 1.0, 1e-6);
  EXPECT_NEAR(landed.lid_off->middle / *cook.cooling->lid_off, 1.0, 1e-6);
  EXPECT_NEAR(landed.target->celsius(), made.plan.mash.mash->dough_in.celsius(), 1e-6);
  // All of the water in, and the malts at what is then told: they settle at the rest.
  const MashAdvice warm = asked(made, 74.0, "Stir in");
  ASSERT_EQ(warm.correction.with, mash::Mend::cold_water);
  ASSERT_FALSE(warm.correction.room_is_short);
  mash::Contents liquor = cook.landed.contents;
  liquor.water += mash::water(warm.correction.wanted, warm.water).water;
  liquor.temperature = *warm.target_then;
  EXPECT_LT(*warm.target_then, *warm.target);
  EXPECT_NEAR(settles_C(made, liquor), made.pair.recipe.mash.rest_temperature.celsius(), 0.01);
}

TEST(MashAdvice, ReadInThePotItTellsWhereItLands) {
  const PlanMade& made = made_of("Tern 8");
  const plan::CookPlan& cook = *made.plan.mash.mash->cook;
  const MashAdvice pot = asked(made, cook.cooked.contents.temperature.celsius(), "Move to");
  EXPECT_NEAR(pot.lands->celsius(), cook.landed.contents.temperature.celsius(), 1e-6);
  EXPECT_FALSE(asked(made, 90.0, "Move to").lands);
}

TEST(MashAdvice, StrikeWaterTooHotIsCooledToWhatTheMaltsWant) {
  const PlanMade& made = made_of("Tern 7");
  ASSERT_FALSE(made.plan.mash.mash->cook);
  std::string strike;
  for (const plan::Step& one : made.plan.timeline.steps) {
    if (one.stage != "Mash" || one.beside || one.what.starts_with("Mill")) continue;
    strike = one.what;
    break;
  }
  const MashAdvice hot = asked(made, 85.0, strike);
  EXPECT_EQ(hot.at, MashPlace::strike);
  EXPECT_NEAR(hot.target->celsius(), made.plan.mash.mash->dough_in.celsius(), 1e-6);
  EXPECT_EQ(hot.correction.with, mash::Mend::cold_water);
  EXPECT_GT(hot.lid_on->middle, units::Duration{});
}

TEST(MashAdvice, WhereNoStepIsNamedTheJournalKnowsIt) {
  const PlanMade& made = made_of("Tern 8");
  Book book;
  book.tell(0, BatchBegun{"Tern 9", "", true});
  book.tell(1, BatchPlanned{demo_example("Tern 8").recipe, demo_example("Tern 8").kit});
  const auto at = [&] {
    const HouseState house = fold(book.entries);
    return mash_advice(made, house.batches.at(*book.batch), Temperature::celsius(66.0), {}).at;
  };
  EXPECT_EQ(at(), MashPlace::milling);
  book.tell(60, StepMarked{step(made, "Stir in"), true}, Stage::mash);
  EXPECT_EQ(at(), MashPlace::rest);
  book.tell(200, WortDrawn{"first runnings", litres_at_20C(32), gravity_at_20C(1.09)});
  EXPECT_EQ(at(), MashPlace::sparging);
  book.tell(300, Pitched{litres_at_20C(108.0), gravity_at_20C(1.0590), "distillers-dry",
                         units::Mass::grams(55)});
  EXPECT_EQ(at(), MashPlace::over);
}

TEST(MashAdvice, WhatIsNoStepAndNoTemperatureIsRefused) {
  const PlanMade& made = made_of("Tern 8");
  EXPECT_THROW(static_cast<void>(asked(made, 66.0, "Sing")), base::InputError);
  EXPECT_THROW(static_cast<void>(asked(made, 150.0, "Rest")), base::InputError);
}

}  // namespace
}  // namespace lynearm::station
