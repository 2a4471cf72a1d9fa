#include "spirit/account.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <type_traits>

#include "base/error.hpp"

namespace lynearm::spirit {
namespace {

using units::Mass;
using units::MassFraction;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

// Litres and proof gallons of alcohol are told apart by the compiler.
static_assert(!std::is_convertible_v<PureAlcohol, ProofGallons>);
static_assert(!std::is_convertible_v<double, PureAlcohol>);
static_assert(!std::is_convertible_v<Volume, PureAlcohol>);

TEST(Account, a_proof_gallon_in_kilograms_and_litres) {
  const ProofGallons one = ProofGallons::gallons(1.0);
  EXPECT_NEAR(ethanol_in(one).kilograms(), 1.500977, 5e-7);
  EXPECT_NEAR(litres_of_alcohol(one).litres(), 1.901803, 5e-7);
  EXPECT_NEAR(proof_gallons(PureAlcohol::litres(1.0)).gallons(), 0.525817, 5e-7);
  // Not half a gallon: the ethanol has swollen by 0.48 % from 60 °F to 20 °C.
  EXPECT_NEAR(litres_of_alcohol(one).litres() / (3.785411784 / 2.0), 1.00481, 5e-6);
}

TEST(Account, a_gallon_of_100_proof_at_60F_is_one_proof_gallon) {
  const MassFraction p = mass_fraction(Proof::degrees(100.0));
  const double kilograms = density(p, reference_60F).kilograms_per_cubic_metre() *
                           Volume::us_gallons(1.0).cubic_metres();
  const Lot gallon{Mass::kilograms(kilograms) * p.fraction(),
                   Mass::kilograms(kilograms) * (1.0 - p.fraction())};
  const Account written = account(gallon);
  EXPECT_NEAR(written.volume_60F.us_gallons(), 1.0, 1e-14);
  EXPECT_NEAR(written.proof.degrees(), 100.0, 1e-11);
  EXPECT_NEAR(written.proof_gallons.gallons(), 1.0, 1e-13);
}

TEST(Account, ten_litres_of_40_percent_hold_four_litres) {
  const Account written = account(lot(Volume::litres(10.0), VolumeStrength::percent(40.0)));
  EXPECT_NEAR(written.alcohol.litres(), 4.0, 1e-13);
  EXPECT_NEAR(written.volume_20C.litres(), 10.0, 1e-13);
  EXPECT_NEAR(written.strength.percent(), 40.0, 1e-12);
  EXPECT_NEAR(written.mass.kilograms(), 9.4805, 5e-5);
  // Less its air at 60 °F, on weights of 8000 kg/m³.
  const double kgm3 = density(mass_fraction(VolumeStrength::percent(40.0)), reference_60F)
                          .kilograms_per_cubic_metre();
  EXPECT_NEAR(written.weight / written.mass, (1.0 - 1.2 / kgm3) / (1.0 - 1.2 / 8000.0), 1e-13);
}

TEST(Account, of_nothing_is_nothing) {
  const Account written = account({});
  EXPECT_EQ(written.mass, Mass{});
  EXPECT_EQ(written.weight, Mass{});
  EXPECT_EQ(written.volume_20C, Volume{});
  EXPECT_EQ(written.alcohol, PureAlcohol{});
  EXPECT_EQ(written.proof_gallons, ProofGallons{});
  EXPECT_EQ(written.proof, Proof{});
}

TEST(Account, parts_of_pure_ethanol_and_of_water) {
  const Parts pure = parts_at_60F(MassFraction::fraction(1.0));
  EXPECT_DOUBLE_EQ(pure.alcohol, 100.0);
  EXPECT_DOUBLE_EQ(pure.water, 0.0);
  const Parts water = parts_at_60F({});
  EXPECT_DOUBLE_EQ(water.alcohol, 0.0);
  EXPECT_DOUBLE_EQ(water.water, 100.0);
}

Lot any_lot() {
  return {Mass::grams(*rc::gen::inRange(0, 10000000) / 100.0),
          Mass::grams(*rc::gen::inRange(0, 10000000) / 100.0)};
}
Lot any_lot_but_none() { return any_lot() + Lot{{}, Mass::grams(1.0)}; }
bool near(double a, double b) { return std::abs(a - b) <= 1e-12 * std::abs(b); }

RC_GTEST_PROP(AccountProperty, alcohol_is_volume_times_strength_on_both_scales, ()) {
  const Lot any = any_lot_but_none();
  const Account written = account(any);
  RC_ASSERT(near(written.volume_20C.litres() * written.strength.fraction(),
                 written.alcohol.litres()));
  RC_ASSERT(near(written.volume_60F.us_gallons() * written.proof.degrees() / 100.0,
                 written.proof_gallons.gallons()));
  RC_ASSERT(written.alcohol.litres() == pure_alcohol(any).litres());
}

RC_GTEST_PROP(AccountProperty, the_two_alcohols_convert_through_one_mass, ()) {
  const Mass ethanol = any_lot_but_none().ethanol;
  RC_ASSERT(near(ethanol_in(litres_of_alcohol(ethanol)).grams(), ethanol.grams()));
  RC_ASSERT(near(ethanol_in(proof_gallons(ethanol)).grams(), ethanol.grams()));
  const PureAlcohol litres = litres_of_alcohol(ethanol);
  RC_ASSERT(near(litres_of_alcohol(proof_gallons(litres)).litres(), litres.litres()));
}

RC_GTEST_PROP(AccountProperty, alcohol_and_mass_add, ()) {
  const Lot a = any_lot_but_none();
  const Lot b = any_lot_but_none();
  const Account sum = account(a + b);
  const Account one = account(a);
  const Account other = account(b);
  RC_ASSERT(near((one.alcohol + other.alcohol).litres(), sum.alcohol.litres()));
  RC_ASSERT(
      near((one.proof_gallons + other.proof_gallons).gallons(), sum.proof_gallons.gallons()));
  RC_ASSERT(near((one.mass + other.mass).grams(), sum.mass.grams()));
}

RC_GTEST_PROP(AccountProperty, parts_weigh_what_the_spirit_weighs, ()) {
  const MassFraction p = MassFraction::fraction(*rc::gen::inRange(0, 100001) / 1e5);
  const Parts parts = parts_at_60F(p);
  const auto kgm3 = [](double ethanol) {
    return density(MassFraction::fraction(ethanol), reference_60F).kilograms_per_cubic_metre();
  };
  RC_ASSERT(
      near(parts.alcohol * kgm3(1.0) + parts.water * kgm3(0.0), 100.0 * kgm3(p.fraction())));
  RC_ASSERT(std::abs(parts.alcohol - proof(p).degrees() / 2.0) < 1e-12);
  RC_ASSERT(parts.alcohol + parts.water >= 100.0 - 1e-12);
}

TEST(Account, more_ethanol_in_a_kilogram_is_more_alcohol) {
  double litres = -1.0;
  double gallons = -1.0;
  for (int p = 0; p <= 100; ++p) {
    const Account written = account({Mass::grams(10.0 * p), Mass::grams(1000.0 - 10.0 * p)});
    EXPECT_GT(written.alcohol.litres(), litres);
    EXPECT_GT(written.proof_gallons.gallons(), gallons);
    litres = written.alcohol.litres();
    gallons = written.proof_gallons.gallons();
  }
}

TEST(Account, refuses_less_than_nothing) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinite = std::numeric_limits<double>::infinity();
  for (const Lot& bad : {Lot{Mass::kilograms(-1.0), Mass::kilograms(2.0)},
                         Lot{Mass::kilograms(1.0), Mass::kilograms(-2.0)},
                         Lot{Mass::kilograms(nan), {}}, Lot{{}, Mass::kilograms(infinite)}}) {
    try {
      static_cast<void>(account(bad));
      FAIL() << "a lot of less than nothing was written down";
    } catch (const base::InputError& error) {
      EXPECT_EQ(error.faults().front().field, "lot");
      EXPECT_EQ(error.faults().front().accepted, "zero or more of each");
    }
  }
  EXPECT_THROW(static_cast<void>(account({}, Temperature::celsius(60.0))), base::InputError);
}

}  // namespace
}  // namespace lynearm::spirit
