#include "spirit/reduction_steps.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/any_lot.hpp"
#include "spirit/given_lots.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Mass;
using units::Volume;
using units::VolumeStrength;

TEST(ReductionSteps, of_70_to_55_in_three_stop_at_65_and_60) {
  const Lot spirit = lot(Volume::litres(4.0), percent(70.0));
  const auto steps = reduce_in_steps(spirit, percent(55.0), 3);
  ASSERT_EQ(steps.size(), 3U);
  EXPECT_NEAR(steps[0].after.percent(), 65.0, 1e-12);
  EXPECT_NEAR(steps[1].after.percent(), 60.0, 1e-12);
  EXPECT_EQ(steps[2].after.percent(), 55.0);
  EXPECT_NEAR(steps[1].before.percent(), 65.0, 1e-12);
  // The same points of strength take more water the weaker it already is.
  EXPECT_LT(steps[0].water, steps[1].water);
  EXPECT_LT(steps[1].water, steps[2].water);
}

RC_GTEST_PROP(ReductionStepsProperty, together_are_one_reduction, ()) {
  const Lot spirit = any_lot(2.0, 100.0);
  const VolumeStrength to = any_strength(1.0, strength(spirit).percent());
  const int n = *rc::gen::inRange(1, most_steps + 1);
  const MixingTemperatures t{reference_20C, any_temperature(0.0, 40.0),
                             any_temperature(-20.0, 40.0)};
  const auto steps = reduce_in_steps(spirit, to, n, t);
  const MeasuredReduction once = reduce(spirit, to, t);
  RC_ASSERT(steps.size() == static_cast<std::size_t>(n));
  Mass water;
  Volume water_by_volume;
  Lot standing = spirit;
  for (const ReductionStep& step : steps) {
    RC_ASSERT(step.water >= Mass{});
    standing = standing + Lot{{}, step.water};
    RC_ASSERT(std::abs((standing.mass() - step.result.mass()) / standing.mass()) < 1e-12);
    RC_ASSERT(std::abs((strength(step.result) - step.after).fraction()) < 1e-12);
    RC_ASSERT(equal_to(lot(step.volume, step.after, t.result).mass(), standing.mass(), 1e-12));
    // Each is what reducing the one before would ask for.
    water += step.water;
    water_by_volume += step.water_volume;
  }
  RC_ASSERT(std::abs((water - once.by_mass.water) / spirit.mass()) < 1e-12);
  RC_ASSERT(std::abs((water_by_volume - once.water).litres()) <
            1e-12 * spirit.mass().kilograms());
  RC_ASSERT(equal_to(steps.back().volume, once.result, 1e-12));
  RC_ASSERT(steps.back().result.ethanol == spirit.ethanol);
}

TEST(ReductionSteps, each_is_a_reduction_of_what_stood_before) {
  const Lot spirit = lot(Volume::litres(7.0), percent(82.0));
  Lot standing = spirit;
  for (const ReductionStep& step : reduce_in_steps(spirit, percent(46.0), 9)) {
    const Reduction alone = reduce(standing, step.after);
    EXPECT_NEAR(alone.water / step.water, 1.0, 1e-11);
    standing = alone.result;
  }
}

TEST(ReductionSteps, to_its_own_strength_add_nothing) {
  const Lot spirit = lot(Volume::litres(4.0), percent(55.0));
  for (const ReductionStep& step : reduce_in_steps(spirit, percent(55.0), 4)) {
    EXPECT_NEAR(step.water.kilograms(), 0.0, 1e-11);
  }
}

TEST(ReductionSteps, of_at_most_so_many_points_are_the_fewest_that_do) {
  EXPECT_EQ(steps_of_at_most(percent(2.0), percent(70.0), percent(60.0)), 5);
  EXPECT_EQ(steps_of_at_most(percent(2.0), percent(70.0), percent(59.9)), 6);
  EXPECT_EQ(steps_of_at_most(percent(50.0), percent(70.0), percent(60.0)), 1);
  EXPECT_EQ(steps_of_at_most(percent(1.0), percent(60.0), percent(60.0)), 1);
  // 0.1 is not exact in binary; fifty of them are still fifty.
  EXPECT_EQ(steps_of_at_most(percent(0.1), percent(60.0), percent(55.0)), 50);
}

TEST(ReductionSteps, refuse_what_is_no_number_of_steps) {
  const Lot spirit = lot(Volume::litres(4.0), percent(70.0));
  EXPECT_THROW(static_cast<void>(reduce_in_steps(spirit, percent(55.0), 0)), base::InputError);
  EXPECT_THROW(static_cast<void>(reduce_in_steps(spirit, percent(55.0), 101)),
               base::InputError);
  EXPECT_THROW(static_cast<void>(reduce_in_steps(spirit, percent(75.0), 2)), base::InputError);
  for (const double step : {0.0, -1.0, 0.01, std::nan("")}) {
    EXPECT_THROW(
        static_cast<void>(steps_of_at_most(percent(step), percent(70.0), percent(55.0))),
        base::InputError)
        << step;
  }
  EXPECT_THROW(static_cast<void>(steps_of_at_most(percent(1.0), percent(50.0), percent(55.0))),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::spirit
