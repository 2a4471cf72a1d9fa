#include "spirit/check_reading.hpp"

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
using units::VolumeStrength;

TEST(CheckReading, too_strong_takes_a_little_water) {
  const Correction c = correct(litres(5.0, 55.4), percent(55.0));
  EXPECT_EQ(c.remedy, Remedy::add_water);
  EXPECT_NEAR(c.water / reduce(litres(5.0, 55.4), percent(55.0)).water, 1.0, 1e-14);
  EXPECT_EQ(c.spirit.mass(), Mass{});
}

TEST(CheckReading, too_weak_takes_a_little_of_the_strong_spirit) {
  const Correction c = correct(litres(5.0, 54.5), percent(55.0), percent(70.0));
  EXPECT_EQ(c.remedy, Remedy::add_spirit);
  EXPECT_EQ(c.water, Mass{});
  EXPECT_NEAR(strength(c.spirit).percent(), 70.0, 1e-10);
  EXPECT_NEAR(strength(c.result).percent(), 55.0, 1e-10);
}

TEST(CheckReading, near_enough_is_left_alone) {
  EXPECT_EQ(correct(litres(5.0, 55.04), percent(55.0), {}, percent(0.05)).remedy, Remedy::none);
  EXPECT_EQ(correct(litres(5.0, 55.06), percent(55.0), {}, percent(0.05)).remedy,
            Remedy::add_water);
  EXPECT_EQ(correct(litres(5.0, 55.0), percent(55.0)).remedy, Remedy::none);
}

RC_GTEST_PROP(CheckReadingProperty, the_remedy_reaches_the_strength_and_keeps_the_masses, ()) {
  const Lot found = any_lot(1.0, 99.0);
  const VolumeStrength wanted = any_strength(1.0, 97.0);
  const VolumeStrength strong = any_strength(wanted.percent() + 1.0, 100.0);
  const Correction c = correct(found, wanted, strong);
  RC_ASSERT(std::abs((strength(c.result) - wanted).fraction()) < 1e-12);
  const Lot sum = found + c.spirit + Lot{{}, c.water};
  RC_ASSERT(equal_to(c.result.mass(), sum.mass(), 1e-12));
  RC_ASSERT(equal_to(c.result.ethanol, sum.ethanol, 1e-12));
  RC_ASSERT(c.water >= Mass{} && c.spirit.ethanol >= Mass{} && c.spirit.water >= Mass{});
}

TEST(CheckReading, too_weak_without_strong_spirit_is_told) {
  for (const auto& strong : {std::optional<VolumeStrength>{}, std::optional{percent(54.8)},
                             std::optional{percent(55.0)}, std::optional{percent(101.0)},
                             std::optional{percent(std::nan(""))}}) {
    try {
      static_cast<void>(correct(litres(5.0, 54.5), percent(55.0), strong));
      ADD_FAILURE();
    } catch (const base::InputError& error) {
      EXPECT_EQ(error.faults().at(0).field, "strong");
      EXPECT_EQ(error.faults().at(0).accepted,
                "a spirit above 55.00 %vol, since what was found is too weak");
    }
  }
}

// A mistake is made on purpose, and must be found again by the account that fits it.
RC_GTEST_PROP(CheckReadingProperty, a_mistake_with_the_water_is_found, ()) {
  const Lot spirit = any_lot(20.0, 99.0);
  const Mass water = spirit.mass() * any_figure(0.05, 1.0);
  const Mass given = water * any_figure(0.5, 1.5);
  const Mistake m = mistake(spirit, water, spirit + Lot{{}, given});
  RC_ASSERT(std::abs((m.water - (given - water)) / spirit.mass()) < 1e-12);
  RC_ASSERT(std::abs((m.mass - m.water) / spirit.mass()) < 1e-12);
  RC_ASSERT(std::abs(m.pure_alcohol.litres()) < 1e-12 * spirit.mass().kilograms());
}

RC_GTEST_PROP(CheckReadingProperty, a_mistake_with_the_spirits_strength_is_found, ()) {
  const Lot planned = any_lot(20.0, 95.0);
  const VolumeStrength really = any_strength(10.0, 100.0);
  const Lot spirit = lot(planned.mass(), really);
  const Mass water = planned.mass() * any_figure(0.0, 1.0);
  const Mistake m = mistake(planned, water, spirit + Lot{{}, water});
  RC_ASSERT(m.spirit_strength.has_value());
  RC_ASSERT(std::abs((*m.spirit_strength - really).fraction()) < 1e-11);
  RC_ASSERT(std::abs(m.mass / planned.mass()) < 1e-12);
}

RC_GTEST_PROP(CheckReadingProperty, a_mistake_with_the_amount_of_spirit_is_found, ()) {
  const Lot planned = any_lot(20.0, 95.0);
  const double times = any_figure(0.5, 1.5);
  const Mass water = planned.mass() * any_figure(0.1, 1.0);
  const Mistake m = mistake(planned, water, planned * times + Lot{{}, water});
  RC_ASSERT(m.spirit_mass.has_value());
  RC_ASSERT(std::abs((*m.spirit_mass - planned.mass() * (times - 1.0)) / planned.mass()) <
            1e-10);
  RC_ASSERT(std::abs((m.mass - *m.spirit_mass) / planned.mass()) < 1e-10);
}

TEST(CheckReading, as_planned_shows_no_mistake) {
  const Lot spirit = litres(4.0, 70.0);
  const Reduction r = reduce(spirit, percent(55.0));
  const Mistake m = mistake(spirit, r.water, r.result);
  EXPECT_NEAR(m.mass.kilograms(), 0.0, 1e-12);
  EXPECT_NEAR(m.strength.percent(), 0.0, 1e-10);
  EXPECT_NEAR(m.water.kilograms(), 0.0, 1e-12);
  EXPECT_NEAR(m.spirit_strength.value().percent(), 70.0, 1e-10);
  EXPECT_NEAR(m.spirit_mass.value().kilograms(), 0.0, 1e-11);
}

TEST(CheckReading, what_no_spirit_explains_has_no_figure) {
  // 4 L of 95 %vol with 4 kg of water found at 80 %vol: not even pure ethanol is so strong.
  const Mistake m = mistake(litres(4.0, 95.0), Mass::kilograms(4.0), litres(8.0, 80.0));
  EXPECT_FALSE(m.spirit_strength.has_value());
  // Found stronger than the spirit: no amount of it explains that.
  EXPECT_FALSE(mistake(litres(4.0, 60.0), Mass::kilograms(1.0), litres(5.0, 61.0))
                   .spirit_mass.has_value());
}

TEST(CheckReading, refuses_what_is_no_finding) {
  EXPECT_THROW(static_cast<void>(correct(Lot{}, percent(40.0))), base::InputError);
  EXPECT_THROW(static_cast<void>(correct(litres(1.0, 40.0), percent(0.0))), base::InputError);
  EXPECT_THROW(static_cast<void>(correct(litres(1.0, 40.0), percent(40.0), {}, percent(-0.1))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(mistake(Lot{}, Mass{}, litres(1.0, 40.0))), base::InputError);
  EXPECT_THROW(static_cast<void>(mistake(litres(1.0, 40.0), Mass{}, Lot{})), base::InputError);
  EXPECT_THROW(
      static_cast<void>(mistake(litres(1.0, 40.0), Mass::kilograms(-1.0), litres(1.0, 40.0))),
      base::InputError);
}

}  // namespace
}  // namespace lynearm::spirit
