#include "spirit/reduction_inverse.hpp"

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
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

TEST(ReductionInverse, five_litres_at_55_take_3_93_litres_at_70) {
  // 4 L at 70 %vol make 5.091 L at 55 (independent computation in reduction_test.cpp), so 5 L
  // take 4 * 5 / 5.091 L and 1.141 * 5 / 5.091 kg of water.
  const SpiritNeeded n = spirit_needed(Volume::litres(5.0), percent(55.0), percent(70.0));
  EXPECT_NEAR(volume(n.spirit).litres(), 4.0 * 5.0 / 5.091, 0.0005);
  EXPECT_NEAR(n.reduction.water.kilograms(), 1.141 * 5.0 / 5.091, 0.0006);
  EXPECT_NEAR(n.reduction.volume_at_20C.litres(), 5.0, 5e-12);
}

RC_GTEST_PROP(ReductionInverseProperty, spirit_needed_makes_what_was_wanted, ()) {
  const Volume wanted = Volume::litres(any_figure(0.1, 500.0));
  const Temperature t = any_temperature(-20.0, 40.0);
  const VolumeStrength from = any_strength(1.0, 100.0);
  const VolumeStrength to = any_strength(0.5, from.percent());
  const SpiritNeeded n = spirit_needed(wanted, to, from, t);
  RC_ASSERT(equal_to(volume(n.reduction.result, t), wanted, 1e-12));
  RC_ASSERT(std::abs((strength(n.reduction.result) - to).fraction()) < 1e-12);
  RC_ASSERT(std::abs((strength(n.spirit) - from).fraction()) < 1e-11);
  RC_ASSERT(std::abs((reduce(n.spirit, to).water - n.reduction.water) /
                     n.reduction.result.mass()) < 1e-11);
}

RC_GTEST_PROP(ReductionInverseProperty, what_stood_before_and_what_was_added_come_back, ()) {
  const Lot spirit = any_lot(2.0, 100.0);
  const VolumeStrength to = any_strength(1.0, strength(spirit).percent());
  const Reduction r = reduce(spirit, to);
  const Lot before = before_water(r.result, r.water);
  RC_ASSERT(before.ethanol == spirit.ethanol);
  RC_ASSERT(std::abs((before.water - spirit.water) / r.result.mass()) < 1e-12);
  RC_ASSERT(std::abs((water_added(r.result, strength(spirit)) - r.water) / r.result.mass()) <
            1e-12);
}

TEST(ReductionInverse, refuses_what_cannot_have_been) {
  const Lot forty = lot(Volume::litres(1.0), percent(40.0));
  EXPECT_THROW(static_cast<void>(before_water(forty, Mass::kilograms(0.64))), base::InputError);
  EXPECT_THROW(static_cast<void>(before_water(forty, Mass::kilograms(-0.1))), base::InputError);
  EXPECT_THROW(static_cast<void>(before_water(forty, Mass::kilograms(std::nan("")))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(water_added(forty, percent(39.9))), base::InputError);
  EXPECT_THROW(static_cast<void>(water_added(forty, percent(100.1))), base::InputError);
  EXPECT_THROW(static_cast<void>(water_added(Lot{}, percent(50.0))), base::InputError);
  EXPECT_THROW(
      static_cast<void>(spirit_needed(Volume::litres(5.0), percent(55.0), percent(50.0))),
      base::InputError);
  EXPECT_THROW(
      static_cast<void>(spirit_needed(Volume::litres(0.0), percent(55.0), percent(70.0))),
      base::InputError);
  EXPECT_THROW(
      static_cast<void>(spirit_needed(Volume::litres(5.0), percent(55.0), percent(101.0))),
      base::InputError);
  EXPECT_NEAR(water_added(forty, percent(40.0)).kilograms(), 0.0, 1e-12);
}

}  // namespace
}  // namespace lynearm::spirit
