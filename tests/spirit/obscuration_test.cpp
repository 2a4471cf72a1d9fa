#include "spirit/obscuration.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>

#include "base/error.hpp"
#include "spirit/any_lot.hpp"
#include "spirit/given_lots.hpp"
#include "spirit/obscuration_rule.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Mass;
using units::MassConcentration;
using units::Volume;
using units::VolumeStrength;

// CRC Handbook of Chemistry and Physics, 102nd ed., concentrative properties of aqueous
// solutions: density of sucrose solutions at 20 °C, printed to 1e-4 g/mL. What a gram of the
// sugar adds to its water's volume lies between 0.61 and 0.63 mL; the last digit moves it by
// 5e-5 / share.
TEST(Obscuration, sucrose_takes_the_volume_we_take_for_solids) {
  struct Row {
    double percent_mass, g_per_mL;
  };
  // clang-format off
  constexpr Row rows[] = {{1, 1.0021}, {5, 1.0178}, {10, 1.0381}, {20, 1.0810}, {40, 1.1765},
                          {60, 1.2864}};
  // clang-format on
  const double water = density(units::MassFraction{}, reference_20C).grams_per_millilitre();
  for (const Row& row : rows) {
    const double share = row.percent_mass / 100.0;
    const double mL_per_g = (1.0 / row.g_per_mL - (1.0 - share) / water) / share;
    EXPECT_NEAR(mL_per_g, sucrose_mL_per_g, 0.01 + 5e-5 / share) << row.percent_mass;
  }
}

TEST(Obscuration, without_solids_there_is_none) {
  for (const double s : {0.0, 10.0, 43.0, 70.0, 96.0, 100.0}) {
    EXPECT_EQ(true_strength(percent(s), grams(0.0)).percent(), s);
    EXPECT_EQ(apparent_strength(percent(s), grams(0.0)).percent(), s);
    EXPECT_EQ(residue(percent(s), percent(s)).grams_per_litre(), 0.0);
  }
  const ObscuredLot plain{lot(Volume::litres(3.0), percent(50.0)), {}};
  EXPECT_NEAR(true_strength(plain).percent(), 50.0, 1e-10);
  EXPECT_NEAR(apparent_strength(plain).percent(), 50.0, 1e-10);
}

TEST(Obscuration, of_a_gram_a_litre_is_a_fifth_of_a_percent_at_46) {
  // Our own figures, a regression value: the middle and the ends of the solids' volume.
  EXPECT_NEAR(46.0 - apparent_strength(percent(46.0), grams(1.0)).percent(), 0.201, 0.0005);
  EXPECT_NEAR(46.0 - apparent_strength(percent(46.0), grams(1.0), 0.60).percent(), 0.212,
              0.0005);
  EXPECT_NEAR(46.0 - apparent_strength(percent(46.0), grams(1.0), 0.70).percent(), 0.156,
              0.0005);
}

// The other way to the same figure: weigh out a lot, fill its volume, float in it.
RC_GTEST_PROP(ObscurationProperty, lots_and_strengths_agree, ()) {
  const double v = any_figure(0.60, 0.70);
  const VolumeStrength strength = any_strength(10.0, 90.0);
  const MassConcentration c = grams(any_figure(0.0, 20.0));
  const units::Temperature t = any_temperature(-20.0, 40.0);
  const Volume filled = Volume::litres(any_figure(0.1, 200.0));
  const ObscuredLot lot = obscured_lot(filled, strength, c, t, v);
  RC_ASSERT(equal_to(volume(lot, t, v), filled, 1e-12));
  RC_ASSERT(std::abs((true_strength(lot, v) - strength).fraction()) < 1e-12);
  RC_ASSERT(std::abs((residue(lot, v) - c).grams_per_litre()) < 1e-9);
  RC_ASSERT(
      std::abs((apparent_strength(lot, v) - apparent_strength(strength, c, v)).fraction()) <
      1e-11);
}

RC_GTEST_PROP(ObscurationProperty, every_way_undoes_the_others, ()) {
  const double v = any_figure(least_solids_mL_per_g, most_solids_mL_per_g);
  const VolumeStrength strength = any_strength(10.0, 95.0);
  const MassConcentration c = grams(any_figure(0.01, 15.0));
  const VolumeStrength shown = apparent_strength(strength, c, v);
  RC_ASSERT(shown < strength);
  RC_ASSERT(std::abs((true_strength(shown, c, v) - strength).fraction()) < 1e-11);
  // Solids are told by a small difference of two densities: 1e-10 kg/m³ of one is 1e-9 g/L.
  RC_ASSERT(std::abs((residue(shown, strength, v) - c).grams_per_litre()) < 1e-8);
}

RC_GTEST_PROP(ObscurationProperty, more_solids_hide_more, ()) {
  const VolumeStrength strength = any_strength(10.0, 95.0);
  const double low = any_figure(0.0, 10.0);
  const double high = low + any_figure(0.01, 5.0);
  RC_ASSERT(apparent_strength(strength, grams(high)) < apparent_strength(strength, grams(low)));
  RC_ASSERT(true_strength(strength, grams(high)) > true_strength(strength, grams(low)));
}

RC_GTEST_PROP(ObscurationProperty, solids_that_take_more_room_hide_less, ()) {
  const VolumeStrength shown = any_strength(10.0, 95.0);
  const double v = any_figure(0.30, 0.70);
  RC_ASSERT(true_strength(shown, grams(2.0), v + 0.05) < true_strength(shown, grams(2.0), v));
}

TEST(Obscuration, blending_obscured_lots_adds_their_masses) {
  const ObscuredLot a = obscured_lot(Volume::litres(2.0), percent(60.0), grams(3.0));
  const ObscuredLot b = obscured_lot(Volume::litres(1.0), percent(40.0), grams(0.0));
  const ObscuredLot sum = a + b;
  EXPECT_NEAR(sum.solids.grams(), 6.0, 1e-12);
  EXPECT_NEAR((sum - b).mass() / a.mass(), 1.0, 1e-14);
  EXPECT_NEAR((a * 2.0).solids.grams(), 12.0, 1e-12);
  EXPECT_LT(residue(sum).grams_per_litre(), 3.0);
}

TEST(Obscuration, an_empty_lot_has_no_strength_no_residue_and_no_density) {
  EXPECT_EQ(true_strength(ObscuredLot{}).percent(), 0.0);
  EXPECT_EQ(residue(ObscuredLot{}).grams_per_litre(), 0.0);
  EXPECT_THROW(static_cast<void>(density(ObscuredLot{})), base::InputError);
}

TEST(Obscuration, syrup_shows_nothing_on_an_alcoholmeter) {
  const ObscuredLot syrup = obscured_lot(Volume::litres(1.0), percent(5.0), grams(50.0));
  try {
    static_cast<void>(apparent_strength(syrup));
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "spirit");
  }
  EXPECT_THROW(static_cast<void>(apparent_strength(percent(5.0), grams(50.0))),
               base::InputError);
}

TEST(Obscuration, refuses_what_is_no_spirit) {
  const double nan = std::nan("");
  for (const double c : {-0.1, 50.1, nan}) {
    EXPECT_THROW(static_cast<void>(true_strength(percent(40.0), grams(c))), base::InputError);
    EXPECT_THROW(static_cast<void>(apparent_strength(percent(40.0), grams(c))),
                 base::InputError);
  }
  for (const double s : {-0.1, 100.1, nan}) {
    EXPECT_THROW(static_cast<void>(true_strength(percent(s), grams(1.0))), base::InputError);
    EXPECT_THROW(static_cast<void>(apparent_strength(percent(s), grams(1.0))),
                 base::InputError);
    EXPECT_THROW(static_cast<void>(residue(percent(40.0), percent(s))), base::InputError);
  }
  for (const double v : {0.29, 0.76, nan}) {
    EXPECT_THROW(static_cast<void>(true_strength(percent(40.0), grams(1.0), v)),
                 base::InputError);
  }
  // True under apparent; further above than 50 g/L explain; pure ethanol that shows solids.
  EXPECT_THROW(static_cast<void>(residue(percent(40.0), percent(39.9))), base::InputError);
  EXPECT_THROW(static_cast<void>(residue(percent(40.0), percent(70.0))), base::InputError);
  EXPECT_THROW(static_cast<void>(true_strength(percent(99.9), grams(10.0))), base::InputError);
  EXPECT_THROW(static_cast<void>(apparent_strength(percent(99.9), grams(10.0))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(obscured_lot(Volume::litres(-1.0), percent(40.0), grams(1.0))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(volume(ObscuredLot{{}, Mass::grams(-1.0)})), base::InputError);
}

TEST(ObscurationRule, says_how_to_gauge_by_the_residue) {
  EXPECT_EQ(us_gauging(grams(0.0)), UsGauging::hydrometer);
  EXPECT_EQ(us_gauging(grams(4.0)), UsGauging::hydrometer);
  EXPECT_EQ(us_gauging(grams(4.001)), UsGauging::hydrometer_and_obscuration);
  EXPECT_EQ(us_gauging(grams(6.0)), UsGauging::hydrometer_and_obscuration);
  EXPECT_EQ(us_gauging(grams(6.001)), UsGauging::distil);
  EXPECT_THROW(static_cast<void>(us_gauging(grams(-1.0))), base::InputError);
  EXPECT_THROW(static_cast<void>(us_gauging(grams(std::nan("")))), base::InputError);
  EXPECT_THROW(static_cast<void>(obscuration(grams(6.001))), base::InputError);
  EXPECT_EQ(words(UsGauging::distil), "distil a sample and gauge the distillate");
}

TEST(ObscurationRule, proof_of_a_lot_without_solids_is_its_proof) {
  const ObscuredLot plain{lot(Volume::litres(1.0), percent(55.0)), {}};
  const double degrees = proof(mass_fraction(plain.spirit)).degrees();
  EXPECT_NEAR(true_proof(plain).degrees(), degrees, 1e-10);
  EXPECT_NEAR(apparent_proof(plain).degrees(), degrees, 1e-9);
}

}  // namespace
}  // namespace lynearm::spirit
