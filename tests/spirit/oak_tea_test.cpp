#include "spirit/oak_tea.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>

#include "base/error.hpp"
#include "spirit/any_lot.hpp"
#include "spirit/given_lots.hpp"
#include "spirit/reduction.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Mass;
using units::Volume;
using units::VolumeStrength;

ObscuredLot plain(double litres, double percent_vol) {
  return {lot(Volume::litres(litres), percent(percent_vol)), {}};
}

void assert_sound(const ObscuredLot& spirit, const ObscuredReduction& r, VolumeStrength to,
                  double v) {
  const ObscuredLot sum = spirit + r.tea + ObscuredLot{{{}, r.water}, {}};
  RC_ASSERT(r.water >= Mass{});
  RC_ASSERT(equal_to(r.result.mass(), sum.mass(), 1e-12));
  RC_ASSERT(equal_to(r.result.spirit.ethanol, sum.spirit.ethanol, 1e-12));
  RC_ASSERT(std::abs((r.result.solids - sum.solids) / sum.mass()) < 1e-12);
  RC_ASSERT(std::abs((true_strength(r.result, v) - to).fraction()) < 1e-11);
  RC_ASSERT(r.apparent_strength.fraction() <= r.true_strength.fraction() + 1e-12);
  RC_ASSERT(std::abs((true_strength(r.apparent_strength, r.residue, v) - to).fraction()) <
            1e-10);
}

RC_GTEST_PROP(OakTeaProperty, without_solids_water_is_that_of_plain_reduction, ()) {
  const Lot spirit = any_lot(5.0, 100.0);
  const VolumeStrength to = any_strength(2.0, strength(spirit).percent());
  const ObscuredReduction r = reduce(ObscuredLot{spirit, {}}, to);
  const Reduction known = reduce(spirit, to);
  RC_ASSERT(std::abs((r.water - known.water) / known.result.mass()) < 1e-12);
  RC_ASSERT(std::abs((r.apparent_strength - to).fraction()) < 1e-11);
  RC_ASSERT(std::abs((r.contraction - known.contraction).litres()) <
            1e-12 * known.result.mass().kilograms());
}

RC_GTEST_PROP(OakTeaProperty, a_wooded_spirit_reaches_its_true_strength, ()) {
  const double v = any_figure(0.60, 0.70);
  const VolumeStrength from = any_strength(30.0, 90.0);
  const ObscuredLot spirit = obscured_lot(Volume::litres(any_figure(0.1, 200.0)), from,
                                          grams(any_figure(0.0, 6.0)), reference_20C, v);
  const VolumeStrength to = any_strength(20.0, from.percent());
  const ObscuredReduction r = reduce(spirit, to, v);
  assert_sound(spirit, r, to, v);
}

RC_GTEST_PROP(OakTeaProperty, tea_and_water_reach_it_too, ()) {
  const ObscuredLot spirit =
      obscured_lot(Volume::litres(any_figure(0.5, 50.0)), any_strength(40.0, 90.0),
                   grams(any_figure(0.0, 3.0)));
  const VolumeStrength to = any_strength(25.0, true_strength(spirit).percent());
  const ObscuredLot tea = obscured_lot(Volume::litres(any_figure(0.0, 5.0)),
                                       any_strength(0.0, 20.0), grams(any_figure(0.0, 10.0)));
  if (true_strength(spirit + tea) < to) {
    RC_ASSERT_THROWS_AS(static_cast<void>(reduce_with_tea(spirit, tea, to)), base::InputError);
    return;
  }
  assert_sound(spirit, reduce_with_tea(spirit, tea, to), to, sucrose_mL_per_g);
}

RC_GTEST_PROP(OakTeaProperty, tea_alone_reaches_it_without_water, ()) {
  const ObscuredLot spirit =
      obscured_lot(Volume::litres(any_figure(0.5, 50.0)), any_strength(40.0, 90.0),
                   grams(any_figure(0.0, 3.0)));
  const VolumeStrength to = any_strength(25.0, true_strength(spirit).percent());
  const ObscuredLot tea = obscured_lot(Volume::litres(any_figure(0.1, 5.0)),
                                       any_strength(0.0, 20.0), grams(any_figure(0.0, 10.0)));
  const ObscuredReduction r = reduce_with_tea_only(spirit, tea, to);
  assert_sound(spirit, r, to, sucrose_mL_per_g);
  RC_ASSERT(r.water == Mass{});
  // The tea added is the tea given, whatever its amount.
  RC_ASSERT(std::abs(r.tea.solids / spirit.mass() * (tea.mass() / spirit.mass()) -
                     r.tea.mass() / spirit.mass() * (tea.solids / spirit.mass())) < 1e-9);
}

TEST(OakTea, of_4_g_a_litre_in_water_hides_some_of_the_strength) {
  const ObscuredLot tea = obscured_lot(Volume::litres(1.0), percent(0.0), grams(4.0));
  const ObscuredReduction r = reduce_with_tea_only(plain(4.0, 70.0), tea, percent(55.0));
  EXPECT_NEAR(r.true_strength.percent(), 55.0, 1e-9);
  // 4 g/L of tea in about a fifth of the volume: 0.9 g/L, hiding some 0.15 %vol.
  EXPECT_NEAR(r.residue.grams_per_litre(), 0.9, 0.02);
  EXPECT_NEAR(r.true_strength.percent() - r.apparent_strength.percent(), 0.9 * 0.170, 0.005);
}

TEST(OakTea, too_much_of_it_is_told_with_the_amount_that_fits) {
  const auto tea = [](double litres) {
    return obscured_lot(Volume::litres(litres), percent(10.0), grams(4.0));
  };
  try {
    static_cast<void>(reduce_with_tea(plain(4.0, 70.0), tea(3.0), percent(55.0)));
    FAIL();
  } catch (const base::InputError& error) {
    const base::Fault& fault = error.faults().at(0);
    EXPECT_EQ(fault.field, "tea");
    EXPECT_EQ(fault.value, "3.000 L of true 10.00 %vol");
    const double most = std::stod(fault.accepted.substr(std::string("at most ").size()));
    EXPECT_NO_THROW(
        static_cast<void>(reduce_with_tea(plain(4.0, 70.0), tea(most - 0.001), percent(55.0))));
    EXPECT_THROW(
        static_cast<void>(reduce_with_tea(plain(4.0, 70.0), tea(most + 0.001), percent(55.0))),
        base::InputError);
  }
}

TEST(OakTea, refuses_strong_tea_no_tea_and_upward_targets) {
  const ObscuredLot strong = obscured_lot(Volume::litres(1.0), percent(55.0), grams(4.0));
  EXPECT_THROW(static_cast<void>(reduce_with_tea_only(plain(4.0, 70.0), strong, percent(55.0))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(reduce_with_tea_only(plain(4.0, 70.0), {}, percent(55.0))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(reduce(plain(4.0, 70.0), percent(70.1))), base::InputError);
  EXPECT_THROW(static_cast<void>(reduce(plain(4.0, 70.0), percent(0.0))), base::InputError);
  EXPECT_THROW(static_cast<void>(reduce(plain(4.0, 70.0), percent(std::nan("")))),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::spirit
