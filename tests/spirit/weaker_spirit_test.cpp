#include "spirit/weaker_spirit.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>

#include "base/error.hpp"
#include "spirit/any_lot.hpp"
#include "spirit/given_lots.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Mass;
using units::Share;
using units::VolumeStrength;

// Everything a reduction with weaker spirit must keep.
void assert_sound(const Lot& spirit, const WeakerReduction& r, VolumeStrength to) {
  const Lot sum = spirit + r.weaker + Lot{{}, r.water};
  RC_ASSERT(r.water >= Mass{});
  RC_ASSERT(equal_to(r.result.mass(), sum.mass(), 1e-12));
  RC_ASSERT(equal_to(r.result.ethanol, sum.ethanol, 1e-12));
  RC_ASSERT(std::abs((strength(r.result) - to).fraction()) < 1e-11);
  RC_ASSERT(std::abs((reduce(spirit, to).water - r.water - r.water_saved) / sum.mass()) <
            1e-12);
}

RC_GTEST_PROP(WeakerSpiritProperty, a_given_amount_and_water_reach_the_strength, ()) {
  const Lot spirit = any_lot(30.0, 100.0);
  const VolumeStrength to = any_strength(10.0, strength(spirit).percent());
  const Lot weaker = any_lot(0.0, 100.0);
  if (strength(spirit + weaker) < to) {
    RC_ASSERT_THROWS_AS(static_cast<void>(reduce_with(spirit, weaker, to)), base::InputError);
    return;
  }
  const WeakerReduction r = reduce_with(spirit, weaker, to);
  assert_sound(spirit, r, to);
  RC_ASSERT((strength(weaker) < to) == (r.water_saved > Mass{}) ||
            std::abs(r.water_saved / spirit.mass()) < 1e-9);
}

RC_GTEST_PROP(WeakerSpiritProperty, a_share_of_the_diluent_is_that_share, ()) {
  const Lot spirit = any_lot(30.0, 100.0);
  const VolumeStrength to = any_strength(15.0, strength(spirit).percent() - 0.5);
  const VolumeStrength weaker = any_strength(0.0, to.percent() - 1.0);
  const Share share = Share::fraction(any_figure(0.0, 1.0));
  const bool by_volume = *rc::gen::arbitrary<bool>();
  const WeakerReduction r =
      reduce_with_share(spirit, weaker, share, to, by_volume ? ShareBy::volume : ShareBy::mass);
  assert_sound(spirit, r, to);
  const double found = by_volume
                           ? volume(r.weaker) / (volume(r.weaker) + volume(Lot{{}, r.water}))
                           : r.weaker.mass() / (r.weaker.mass() + r.water);
  RC_ASSERT(std::abs(found - share.fraction()) < 1e-12);
}

RC_GTEST_PROP(WeakerSpiritProperty, only_weaker_spirit_needs_no_water, ()) {
  const Lot spirit = any_lot(30.0, 100.0);
  const VolumeStrength to = any_strength(15.0, strength(spirit).percent());
  const WeakerReduction r = reduce_with_only(spirit, any_strength(0.0, to.percent() - 1.0), to);
  assert_sound(spirit, r, to);
  RC_ASSERT(r.water == Mass{});
  // The same amount, given, leaves no room for water.
  RC_ASSERT(std::abs(reduce_with(spirit, r.weaker * (1.0 - 1e-9), to).water / spirit.mass()) <
            1e-6);
}

TEST(WeakerSpirit, of_no_strength_is_water) {
  const Lot spirit = litres(4.0, 70.0);
  const Reduction water = reduce(spirit, percent(55.0));
  const WeakerReduction r = reduce_with_only(spirit, percent(0.0), percent(55.0));
  EXPECT_NEAR(r.weaker.mass() / water.water, 1.0, 1e-12);
  EXPECT_NEAR(r.contraction.litres(), water.contraction.litres(), 1e-12);
}

TEST(WeakerSpirit, too_much_of_it_is_told_with_the_amount_that_fits) {
  try {
    static_cast<void>(reduce_with(litres(4.0, 70.0), litres(5.0, 30.0), percent(55.0)));
    FAIL();
  } catch (const base::InputError& error) {
    const base::Fault& fault = error.faults().at(0);
    EXPECT_EQ(fault.field, "weaker");
    EXPECT_EQ(fault.value, "5.000 L of 30.00 %vol");
    // The figure fits, and a thousandth more does not.
    const double most = std::stod(fault.accepted.substr(std::string("at most ").size()));
    EXPECT_NO_THROW(static_cast<void>(
        reduce_with(litres(4.0, 70.0), litres(most - 0.001, 30.0), percent(55.0))));
    EXPECT_THROW(static_cast<void>(
                     reduce_with(litres(4.0, 70.0), litres(most + 0.001, 30.0), percent(55.0))),
                 base::InputError);
  }
}

TEST(WeakerSpirit, too_strong_a_diluent_is_told_with_the_share_that_fits) {
  const auto reduced = [](double share) {
    return reduce_with_share(litres(4.0, 70.0), percent(60.0), Share::percent(share),
                             percent(55.0));
  };
  try {
    static_cast<void>(reduced(95.0));
    FAIL();
  } catch (const base::InputError& error) {
    const base::Fault& fault = error.faults().at(0);
    EXPECT_EQ(fault.field, "share");
    EXPECT_EQ(fault.value, "95.00 % of 60.00 %vol");
    const double under = std::stod(fault.accepted.substr(std::string("under ").size()));
    EXPECT_NO_THROW(static_cast<void>(reduced(under - 0.01)));
    EXPECT_THROW(static_cast<void>(reduced(under + 0.01)), base::InputError);
  }
  try {
    static_cast<void>(reduce_with_only(litres(4.0, 70.0), percent(55.0), percent(55.0)));
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "weaker");
    EXPECT_EQ(error.faults().at(0).accepted,
              "0 to under 55.00 %vol, the strength wanted: no amount of stronger spirit brings "
              "it there");
  }
}

TEST(WeakerSpirit, above_the_target_asks_for_more_water_than_none_at_all) {
  const WeakerReduction r = reduce_with(litres(4.0, 70.0), litres(1.0, 60.0), percent(55.0));
  EXPECT_LT(r.water_saved.kilograms(), 0.0);
}

TEST(WeakerSpirit, refuses_shares_and_amounts_that_are_none) {
  const Lot spirit = litres(4.0, 70.0);
  for (const double share : {-1.0, 101.0, std::nan("")}) {
    EXPECT_THROW(static_cast<void>(reduce_with_share(spirit, percent(20.0),
                                                     Share::percent(share), percent(55.0))),
                 base::InputError);
  }
  EXPECT_THROW(
      static_cast<void>(reduce_with(spirit, Lot{Mass::kilograms(-1.0), {}}, percent(55.0))),
      base::InputError);
  EXPECT_THROW(static_cast<void>(reduce_with(spirit, litres(1.0, 20.0), percent(75.0))),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::spirit
