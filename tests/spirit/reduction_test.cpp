#include "spirit/reduction.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "base/error.hpp"
#include "spirit/any_lot.hpp"
#include "spirit/given_lots.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Volume;
using units::VolumeStrength;

TEST(Reduction, of_4_litres_at_70_to_55_takes_1_141_kg_and_makes_5_091_litres) {
  const Reduction r = reduce(litres(4.0, 70.0), VolumeStrength::percent(55.0));
  EXPECT_NEAR(r.water.kilograms(), 1.141, 0.0005);
  EXPECT_NEAR(r.volume_at_20C.litres(), 5.091, 0.0005);
}

// An independent computation from the standard's densities, printed to 0.01 kg and 0.01 L.
TEST(Reduction, agrees_with_an_independent_computation) {
  struct Row {
    double from, to, water_kg, volume_L, tolerance_kg, tolerance_L;
  };
  // clang-format off
  constexpr Row rows[] = {{70.0, 40.0, 77.35, 175.00, 0.0051, 0.0051},
                          {70.0, 62.5, 12.63, 112.00, 0.0051, 0.0051},
                          {62.5, 40.0, 57.79, 156.25, 0.0051, 0.0051},
                          {95.0, 40.0, 144.0, 237.50, 0.051, 0.0051},
                          {60.0, 46.0, 31.40, 130.43, 0.0051, 0.0051}};
  // clang-format on
  for (const Row& row : rows) {
    const Reduction r = reduce(litres(100.0, row.from), VolumeStrength::percent(row.to));
    EXPECT_NEAR(r.water.kilograms(), row.water_kg, row.tolerance_kg) << row.from;
    EXPECT_NEAR(r.volume_at_20C.litres(), row.volume_L, row.tolerance_L) << row.from;
  }
}

TEST(Reduction, to_the_same_strength_adds_no_water) {
  const Reduction r = reduce(litres(2.0, 55.0), VolumeStrength::percent(55.0));
  EXPECT_NEAR(r.water.kilograms(), 0.0, 1e-11);
  EXPECT_NEAR(r.contraction.litres(), 0.0, 1e-11);
}

TEST(Reduction, keeps_mass_and_pure_alcohol) {
  for (double from = 10.0; from <= 95.0; from += 5.0) {
    for (double to = 5.0; to < from; to += 5.0) {
      const Lot spirit = litres(7.3, from);
      const Reduction r = reduce(spirit, VolumeStrength::percent(to));
      EXPECT_NEAR(r.result.mass() / (spirit.mass() + r.water), 1.0, 1e-14);
      EXPECT_NEAR(pure_alcohol(r.result) / pure_alcohol(spirit), 1.0, 1e-14);
      EXPECT_NEAR(strength(r.result).percent(), to, 1e-10);
      // Strong spirit shrinks with water; under about 40 %vol the mixture is already at its
      // most shrunken and further water lets it swell again by a few thousandths.
      if (from >= 60.0 && to >= 40.0) {
        EXPECT_GT(r.contraction.litres(), 0.0);
      }
    }
  }
}

TEST(Reduction, refuses_to_strengthen_with_water) {
  try {
    static_cast<void>(reduce(litres(1.0, 40.0), VolumeStrength::percent(46.0)));
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "to");
    EXPECT_NE(error.faults().at(0).accepted.find("40.00"), std::string::npos);
  }
  EXPECT_THROW(static_cast<void>(reduce(litres(1.0, 40.0), VolumeStrength::percent(0.0))),
               base::InputError);
}

RC_GTEST_PROP(ReductionProperty, keeps_mass_and_pure_alcohol_and_meets_the_strength, ()) {
  const Lot spirit = any_lot(1.0, 100.0);
  const VolumeStrength to = any_strength(0.5, strength(spirit).percent());
  const Reduction r = reduce(spirit, to);
  RC_ASSERT(equal_to(r.result.mass(), spirit.mass() + r.water, 1e-12));
  RC_ASSERT(r.result.ethanol == spirit.ethanol);
  RC_ASSERT(equal_to(strength(r.result), to, 1e-12));
}

RC_GTEST_PROP(ReductionProperty, more_water_is_weaker_and_a_higher_target_takes_less_water,
              ()) {
  const Lot spirit = any_lot(5.0, 100.0);
  const units::Mass water = spirit.mass() * any_figure(0.0, 20.0);
  const units::Mass more = water + spirit.mass() * any_figure(0.001, 5.0);
  RC_ASSERT(strength(dilute(spirit, more).result) < strength(dilute(spirit, water).result));
  const VolumeStrength low = any_strength(1.0, 0.999 * strength(spirit).percent());
  const VolumeStrength high = low + (strength(spirit) - low) * any_figure(0.01, 1.0);
  RC_ASSERT(reduce(spirit, high).water < reduce(spirit, low).water);
}

RC_GTEST_PROP(ReductionProperty, dilute_undoes_reduce, ()) {
  const Lot spirit = any_lot(1.0, 100.0);
  const units::Mass water = spirit.mass() * any_figure(0.001, 20.0);
  const Reduction forward = dilute(spirit, water);
  RC_ASSERT(std::abs((reduce(spirit, strength(forward.result)).water - water) /
                     forward.result.mass()) < 1e-12);
}

// Where the density formula says a mixture takes less room than its parts, mixing with water
// shrinks. Every spirit against pure water does; only further water into what is already weak
// lets it swell again.
RC_GTEST_PROP(ReductionProperty, no_mixture_takes_more_room_than_ethanol_and_water_apart, ()) {
  const Lot spirit = any_lot(0.5, 99.9);
  const units::Volume apart = volume(Lot{spirit.ethanol, {}}) + volume(Lot{{}, spirit.water});
  RC_ASSERT(volume(spirit) < apart);
}

RC_GTEST_PROP(ReductionProperty, strong_spirit_down_to_40_shrinks, ()) {
  const Lot spirit = any_lot(50.0, 100.0);
  const VolumeStrength to = any_strength(40.0, strength(spirit).percent() - 0.1);
  RC_ASSERT(reduce(spirit, to).contraction > Volume{});
}

// The least strength from which the first water still shrinks the mixture lies near 30 %vol; a
// spirit of 20 swells. The sign is a fact of the densities (see docs on contraction).
TEST(Reduction, of_weak_spirit_swells_by_thousandths) {
  const Reduction r = reduce(litres(100.0, 20.0), VolumeStrength::percent(10.0));
  EXPECT_LT(r.contraction.litres(), 0.0);
  EXPECT_GT(r.contraction / r.volume_at_20C, -0.003);
}

TEST(Reduction, refuses_amounts_that_are_none) {
  const units::Mass nan = units::Mass::kilograms(std::nan(""));
  EXPECT_THROW(static_cast<void>(dilute(litres(1.0, 40.0), nan)), base::InputError);
  EXPECT_THROW(static_cast<void>(dilute(litres(1.0, 40.0), units::Mass::kilograms(-0.1))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(dilute(Lot{nan, {}}, units::Mass{})), base::InputError);
  EXPECT_THROW(
      static_cast<void>(reduce(litres(1.0, 40.0), VolumeStrength::percent(std::nan("")))),
      base::InputError);
}

RC_GTEST_PROP(BlendingProperty, keeps_mass_and_alcohol_within_the_strengths_of_its_parts, ()) {
  const int n = *rc::gen::inRange(1, 12);
  std::vector<Lot> parts;
  units::Mass ethanol;
  units::Mass mass;
  for (int i = 0; i < n; ++i) {
    parts.push_back(any_lot(0.0, 100.0));
    ethanol += parts.back().ethanol;
    mass += parts.back().mass();
  }
  const auto stronger = [](const Lot& a, const Lot& b) { return strength(a) < strength(b); };
  const VolumeStrength weakest =
      strength(*std::min_element(parts.begin(), parts.end(), stronger));
  const VolumeStrength strongest =
      strength(*std::max_element(parts.begin(), parts.end(), stronger));
  const Blend b = blend(parts);
  RC_ASSERT(std::abs((b.result.mass() - mass) / mass) < 1e-12);
  RC_ASSERT(std::abs((b.result.ethanol - ethanol) / mass) < 1e-12);
  RC_ASSERT(b.strength.fraction() >= weakest.fraction() - 1e-12);
  RC_ASSERT(b.strength.fraction() <= strongest.fraction() + 1e-12);
  std::vector<Lot> turned = parts;
  std::rotate(turned.begin(), turned.begin() + *rc::gen::inRange(0, n), turned.end());
  if (*rc::gen::arbitrary<bool>()) std::reverse(turned.begin(), turned.end());
  const Blend other = blend(turned);
  RC_ASSERT(equal_to(other.volume_at_20C, b.volume_at_20C, 1e-12));
  RC_ASSERT(std::abs((other.strength - b.strength).fraction()) < 1e-12);
}

TEST(Blending, does_not_care_for_the_order) {
  const Lot a = litres(1.2, 74.0);
  const Lot b = litres(2.0, 61.0);
  const Lot c = litres(0.4, 33.0);
  const Blend forward = blend({a, b, c});
  const Blend backward = blend({c, b, a});
  EXPECT_NEAR(forward.volume_at_20C / backward.volume_at_20C, 1.0, 1e-14);
  EXPECT_NEAR(
      pure_alcohol(forward.result) / (pure_alcohol(a) + pure_alcohol(b) + pure_alcohol(c)), 1.0,
      1e-14);
}

TEST(Blending, of_nothing_is_refused) {
  EXPECT_THROW(static_cast<void>(blend({})), base::InputError);
}

TEST(Lot, of_a_volume_has_that_volume_and_strength) {
  for (const double t_C : {5.0, 20.0, 35.0}) {
    const units::Temperature t = units::Temperature::celsius(t_C);
    const Lot spirit = lot(Volume::litres(3.0), VolumeStrength::percent(64.0), t);
    EXPECT_NEAR(volume(spirit, t).litres(), 3.0, 1e-12);
    EXPECT_NEAR(strength(spirit).percent(), 64.0, 1e-9);
  }
}

TEST(Lot, that_is_empty_has_no_strength_and_no_volume) {
  EXPECT_EQ(strength(Lot{}).percent(), 0.0);
  EXPECT_EQ(volume(Lot{}).litres(), 0.0);
}

}  // namespace
}  // namespace lynearm::spirit
