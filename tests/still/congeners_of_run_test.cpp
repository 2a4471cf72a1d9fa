// Congeners of a run at any volume: nothing lost between the fractions, and the cubic between
// the run's points held against a run with many more of them.
#include "still/congeners_of_run.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>

#include "base/error.hpp"
#include "still/estimated_loads.hpp"
#include "still/runs.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::still {
namespace {

using units::Volume;
using units::VolumeStrength;

const vapour::CongenerCurve& volatility() {
  static const vapour::CongenerCurve curve(at_one_atmosphere());
  return curve;
}

Run with_congeners(double litres, double percent, double stop_percent, double tolerance,
                   HoldUp hold_up = {}) {
  Charge charge = charge_of(litres, percent);
  charge.congeners = usual_amounts(spirit::pure_alcohol(charge.spirit));
  RunSetting setting = setting_with(5.0);
  setting.hold_up = hold_up;
  setting.tolerance = tolerance;
  return distil(charge, setting, at_one_atmosphere(), spout_at(stop_percent), &volatility());
}

// Of each congener's charge, at all moments of the finer run.
double worst_between(const Run& run, const Run& fine) {
  double worst = 0.0;
  for (std::size_t i = 0; i < fine.points.size(); ++i) {
    const CongenerAmounts here =
        congeners_to(run, std::min(fine.points[i].collected, run.last().collected));
    const CongenerAmounts there = fine.congeners_collected(i);
    for (std::size_t c = 0; c < here.grams.size(); ++c) {
      worst = std::max(
          worst, std::abs(here.grams[c] - there.grams[c]) / run.charge.congeners->grams[c]);
    }
  }
  std::cout << "congeners between points, worst " << worst << " of the charge\n";
  return worst;
}

TEST(UsualCongeners, StandInTheOrderOfTheTable) {
  for (std::size_t c = 0; c < vapour::congener_count; ++c) {
    const UsualCongener& usual = usual_congeners()[c];
    EXPECT_EQ(usual.id, vapour::congeners()[c].id);
    EXPECT_LT(usual.in_pure_alcohol.low, usual.in_pure_alcohol.value);
    EXPECT_LT(usual.in_pure_alcohol.value, usual.in_pure_alcohol.high);
    EXPECT_EQ(usual.in_pure_alcohol.source.standing, base::Standing::from_memory);
  }
}

TEST(UsualCongeners, AgreeWithTheGroupsThatJarsAreEstimatedWith) {
  // Both are our estimates of one thing: the groups of estimated_loads.hpp, within their range.
  const Groups groups = groups_of(usual_amounts(Volume::litres(1.0)));
  const auto expect_within = [](double grams, const UsualGroup& usual) {
    EXPECT_GE(grams, usual.in_charge.low.grams_per_litre());
    EXPECT_LE(grams, usual.in_charge.high.grams_per_litre());
  };
  expect_within(groups.early_g, usual_early());
  expect_within(groups.middle_g, usual_middle());
  expect_within(groups.late_g, usual_late());
}

TEST(CongenersOfARun, BetweenItsPointsAreThoseOfAFinerRun) {
  const still::Run run = with_congeners(20.0, 28.0, 5.0, 1e-9);
  const still::Run fine = with_congeners(20.0, 28.0, 5.0, 1e-13);
  ASSERT_GT(fine.points.size(), 2 * run.points.size());
  EXPECT_LT(worst_between(run, fine), 1e-6);
}

TEST(CongenersOfARun, WithHoldUpAreThoseOfTheSameRunWithMorePoints) {
  // One run, of which all but every sixth point are taken away: as many are left as a run at
  // the usual tolerance has. So it is the curve between points that is held, not the tanks.
  const still::Run fine = with_congeners(
      20.0, 28.0, 5.0, 1e-13, {Volume::millilitres(30.0), Volume::millilitres(120.0)});
  still::Run thin = fine;
  thin.points.clear();
  thin.smooth.clear();
  thin.congeners_in_pot.clear();
  thin.congeners_held.clear();
  for (std::size_t i = 0; i < fine.points.size(); ++i) {
    const auto begins = [&](std::size_t k) {
      return std::find(fine.smooth.begin(), fine.smooth.end(), k) != fine.smooth.end();
    };
    const bool last = i + 1 == fine.points.size();
    if (i % 6 != 0 && !begins(i) && !begins(i + 1) && !last) continue;
    if (begins(i)) thin.smooth.push_back(thin.points.size());
    thin.points.push_back(fine.points[i]);
    thin.congeners_in_pot.push_back(fine.congeners_in_pot[i]);
    thin.congeners_held.push_back(fine.congeners_held[i]);
  }
  EXPECT_LT(worst_between(thin, fine), 2e-4);
}

TEST(CongenersOfARun, SumOverItsFractions) {
  const still::Run run = with_congeners(20.0, 28.0, 10.0, 1e-9);
  const Cuts cuts = cut(run, {Volume::millilitres(150.0), VolumeStrength::percent(73.0),
                              VolumeStrength::percent(60.0)});
  const CongenerAmounts all = run.congeners_collected(run.points.size() - 1);
  for (std::size_t c = 0; c < all.grams.size(); ++c) {
    double sum_g = 0.0;
    for (const Fraction& part : {cuts.foreshots, cuts.heads, cuts.hearts, cuts.tails}) {
      sum_g += congeners_in(run, part).grams[c];
    }
    EXPECT_NEAR(sum_g, all.grams[c], 1e-12 * run.charge.congeners->grams[c]);
  }
}

TEST(CongenersOfARun, NeverRunBack) {
  const still::Run run = with_congeners(20.0, 28.0, 1.0, 1e-9);
  CongenerAmounts before{};
  for (int i = 0; i <= 1000; ++i) {
    const CongenerAmounts now = congeners_to(run, run.last().collected * (i / 1000.0));
    for (std::size_t c = 0; c < now.grams.size(); ++c) {
      EXPECT_GE(now.grams[c], before.grams[c] - 1e-13 * run.charge.congeners->grams[c]);
    }
    before = now;
  }
}

TEST(CongenersOfARun, AreRefusedWhereThereAreNone) {
  const still::Run run = run_of(20.0, 28.0, 5.0, 10.0);
  EXPECT_THROW((void)congeners_to(run, Volume::litres(1.0)), base::InputError);
  const still::Run with = with_congeners(20.0, 28.0, 10.0, 1e-9);
  EXPECT_THROW((void)congeners_to(with, Volume::litres(100.0)), base::InputError);
  EXPECT_THROW((void)congeners_to(with, Volume::litres(-1.0)), base::InputError);
}

TEST(Groups, LeaveMethanolOut) {
  CongenerAmounts methanol;
  methanol.grams[vapour::congener_index("methanol")] = 5.0;
  const Groups groups = groups_of(methanol);
  EXPECT_EQ(groups.early_g + groups.middle_g + groups.late_g, 0.0);
}

}  // namespace
}  // namespace lynearm::still
