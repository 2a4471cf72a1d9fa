#include "still/feints.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "base/error.hpp"
#include "still/runs.hpp"

namespace lynearm::still {
namespace {

using units::Share;
using units::Volume;
using units::VolumeStrength;

const vapour::CongenerCurve& traces() {
  static const vapour::CongenerCurve curve(at_one_atmosphere());
  return curve;
}

// A boiler of 30 L that takes 20 L of low wines and what comes back.
Recycling usual() {
  Recycling recycling;
  recycling.low_wines.lot = spirit::lot(Volume::litres(20.0), VolumeStrength::percent(27.0));
  recycling.low_wines.congeners = usual_amounts(spirit::pure_alcohol(recycling.low_wines.lot));
  recycling.charge_at_most = VolumeStrength::percent(30.0);
  recycling.setting = setting_with(8.0);
  recycling.stop = spout_at(10.0);
  recycling.borders = {Volume::millilitres(100.0), Volume::millilitres(500.0),
                       VolumeStrength::percent(62.0)};
  return recycling;
}

// The largest part of a charge that its parts leave over.
double left_over(const Generation& g) {
  const Carried parts = g.foreshots + g.heads + g.hearts + g.tails + g.left;
  double worst = std::fmax(std::abs(parts.lot.ethanol / g.charge.lot.ethanol - 1.0),
                           std::abs(parts.lot.water / g.charge.lot.water - 1.0));
  for (std::size_t i = 0; i < vapour::congener_count; ++i) {
    worst = std::fmax(worst,
                      std::abs(parts.congeners.grams[i] / g.charge.congeners.grams[i] - 1.0));
  }
  return worst;
}

TEST(Feints, EveryChargeIsTheSumOfItsParts) {
  for (const Share bled : {Share::percent(0.0), Share::percent(30.0)}) {
    Recycling recycling = usual();
    recycling.bled = bled;
    const std::vector<Generation> all =
        generations(recycling, 6, at_one_atmosphere(), traces());
    const Generation* before = nullptr;
    for (const Generation& g : all) {
      EXPECT_LT(left_over(g), 1e-12) << g.number;
      const units::Mass in = recycling.low_wines.lot.mass() + g.feints_in.lot.mass() + g.water;
      EXPECT_NEAR(g.charge.lot.mass() / in, 1.0, 1e-12);
      if (before != nullptr) {
        const Carried back = before->feints * (1.0 - bled.fraction());
        EXPECT_EQ(g.feints_in.lot.ethanol, back.lot.ethanol);
        EXPECT_EQ(g.feints_in.congeners.grams, back.congeners.grams);
      }
      before = &g;
    }
  }
}

// A balance, not a habit: in the end as much leaves as comes in. Of what comes back in a
// smaller share than alcohol does the hearts then hold less to the litre of alcohol than at
// first.
TEST(Feints, WhatComesLateBuildsUpInTheHeartsAndHigherAlcoholsThinOut) {
  const auto all = generations(usual(), 5, at_one_atmosphere(), traces());
  EXPECT_EQ(all[0].feints_in.lot.mass(), units::Mass{});
  for (std::size_t i = 1; i < all.size(); ++i) {
    EXPECT_GT(all[i].feints_volume(), all[i - 1].feints_volume());
    EXPECT_LT(oils(all[i].hearts).higher, oils(all[i - 1].hearts).higher);
  }
  EXPECT_GT(oils(all[4].hearts).late / oils(all[0].hearts).late, 1.05);
  const auto back = [&](const char* id) {
    const std::size_t i = vapour::congener_index(id);
    return all[4].feints.congeners.grams[i] / all[4].charge.congeners.grams[i];
  };
  const double alcohol_back = all[4].feints.lot.ethanol / all[4].charge.lot.ethanol;
  EXPECT_GT(back("furfural"), alcohol_back);
  EXPECT_LT(back("isoamyl-alcohol"), alcohol_back);
}

TEST(Feints, OilsAreTheHigherAlcoholsAndWhatComesLate) {
  Carried litre{spirit::lot(Volume::litres(10.0), VolumeStrength::percent(10.0)), {}};
  litre.congeners.grams[vapour::congener_index("methanol")] = 5.0;
  litre.congeners.grams[vapour::congener_index("acetaldehyde")] = 3.0;
  EXPECT_EQ(oils(litre).both(), units::MassConcentration{});
  litre.congeners.grams[vapour::congener_index("isoamyl-alcohol")] = 2.0;
  litre.congeners.grams[vapour::congener_index("furfural")] = 0.5;
  EXPECT_NEAR(oils(litre).higher.grams_per_litre(), 2.0, 1e-9);
  EXPECT_NEAR(oils(litre).late.grams_per_litre(), 0.5, 1e-9);
  EXPECT_EQ(oils(Carried{}).both(), units::MassConcentration{});
}

// The linear recycle. Started from feints that have settled but are clean of congeners, every
// charge is of the same water and alcohol; so of each congener the same share s comes back, and
// its amounts are the sums of a geometric series.
TEST(Feints, CongenersInASettledRecycleFollowTheClosedForm) {
  for (const double bled : {0.0, 0.25}) {
    Recycling recycling = usual();
    recycling.bled = Share::fraction(bled);
    const Settling settled = settle(recycling, at_one_atmosphere(), traces());
    ASSERT_TRUE(settled.steady);
    recycling.feints_first = {settled.last.feints.lot * (1.0 - bled), {}};
    const auto all = generations(recycling, 5, at_one_atmosphere(), traces());
    for (std::size_t i = 0; i < vapour::congener_count; ++i) {
      SCOPED_TRACE(vapour::congeners()[i].id);
      const double in_g = recycling.low_wines.congeners.grams[i];
      const double s =
          (1.0 - bled) * all[0].feints.congeners.grams[i] / all[0].charge.congeners.grams[i];
      double expected_g = 0.0;
      for (const Generation& g : all) {
        expected_g = in_g + s * expected_g;
        EXPECT_NEAR(g.charge.congeners.grams[i] / expected_g, 1.0, 1e-5);
      }
      // And where the unsettled recycle went to is the sum of the whole series.
      EXPECT_NEAR(settled.last.charge.congeners.grams[i] / (in_g / (1.0 - s)), 1.0, 1e-5);
    }
  }
}

TEST(Feints, SettleWhereNothingChangesAnyMore) {
  const Settling settled = settle(usual(), at_one_atmosphere(), traces());
  ASSERT_TRUE(settled.steady);
  EXPECT_LT(settled.generation, settled.last.number);
  const auto further =
      generations(usual(), settled.last.number + 10, at_one_atmosphere(), traces());
  EXPECT_NEAR(further.back().feints_volume() / settled.last.feints_volume(), 1.0, 1e-5);
  EXPECT_NEAR(oils(further.back().hearts).late / oils(settled.last.hearts).late, 1.0, 1e-5);
  // Over all generations the alcohol that comes in leaves: nothing is stored.
  const Generation& g = settled.last;
  const double in = usual().low_wines.lot.ethanol.kilograms();
  const double out = (g.foreshots.lot + g.hearts.lot + g.left.lot).ethanol.kilograms();
  EXPECT_NEAR(out / in, 1.0, 1e-5);
}

TEST(Feints, AreBledOffWhenTheHeartsCarryTooMuchOil) {
  const FeintsLimit limit{1.05, std::nullopt};
  const Bleeding bleeding = when_to_bleed(usual(), limit, at_one_atmosphere(), traces());
  ASSERT_GT(bleeding.unbled.oils_multiple(), 1.05);
  ASSERT_TRUE(bleeding.from);
  EXPECT_TRUE(bleeding.oils);
  EXPECT_FALSE(bleeding.volume);
  // That generation is the first past the limit.
  const auto all = generations(usual(), *bleeding.from, at_one_atmosphere(), traces());
  const auto multiple = [&](const Generation& g) {
    return oils(g.hearts).late / oils(all.front().hearts).late;
  };
  EXPECT_GT(multiple(all.back()), 1.05);
  EXPECT_LE(multiple(all[all.size() - 2]), 1.05);
  // The share keeps it under, and a hair less does not.
  EXPECT_TRUE(bleeding.bled.steady);
  EXPECT_LE(bleeding.bled.oils_multiple(), 1.05);
  Recycling less = usual();
  less.bled = bleeding.share - Share::fraction(2e-4);
  EXPECT_GT(settle(less, at_one_atmosphere(), traces()).oils_multiple(), 1.05);
}

TEST(Feints, AreBledOffWhenTheChargeOutgrowsTheBoiler) {
  const Settling unbled = settle(usual(), at_one_atmosphere(), traces());
  FeintsLimit limit{10.0, (unbled.first.charge_volume() + unbled.last.charge_volume()) / 2.0};
  const Bleeding bleeding = when_to_bleed(usual(), limit, at_one_atmosphere(), traces());
  ASSERT_TRUE(bleeding.from);
  EXPECT_TRUE(bleeding.volume);
  EXPECT_FALSE(bleeding.unbled.steady);  // it stopped there
  EXPECT_LE(bleeding.bled.last.charge_volume() / *limit.greatest_charge, 1.0 + 1e-9);
  EXPECT_GT(bleeding.bled.last.charge_volume() / *limit.greatest_charge, 0.999);
}

TEST(Feints, NothingIsBledOffWhereNoLimitIsPassed) {
  const Bleeding bleeding =
      when_to_bleed(usual(), {10.0, Volume::litres(60.0)}, at_one_atmosphere(), traces());
  EXPECT_FALSE(bleeding.from);
  EXPECT_EQ(bleeding.share, Share{});
  EXPECT_EQ(bleeding.bled.last.number, bleeding.unbled.last.number);
}

std::string refused(const std::function<void()>& made) {
  try {
    made();
  } catch (const base::InputError& error) {
    return error.faults().front().field;
  }
  return "";
}

TEST(Feints, WhatCannotBeIsRefused) {
  const auto run = [](const Recycling& r, int count) {
    return [r, count] { (void)generations(r, count, at_one_atmosphere(), traces()); };
  };
  EXPECT_EQ(refused(run(usual(), 0)), "generations");
  EXPECT_EQ(refused(run(usual(), most_generations + 1)), "generations");
  Recycling recycling = usual();
  recycling.bled = Share::percent(110.0);
  EXPECT_EQ(refused(run(recycling, 2)), "feints.bled");
  recycling = usual();
  recycling.borders.hearts_end = VolumeStrength::percent(92.0);
  EXPECT_EQ(refused(run(recycling, 2)), "cuts.hearts_end");
  const auto bleed = [](const FeintsLimit& limit) {
    return [limit] { (void)when_to_bleed(usual(), limit, at_one_atmosphere(), traces()); };
  };
  EXPECT_EQ(refused(bleed({1.0, std::nullopt})), "feints.oils_multiple");
  EXPECT_EQ(refused(bleed({1.5, Volume::litres(15.0)})), "feints.greatest_charge");
}

}  // namespace
}  // namespace lynearm::still
