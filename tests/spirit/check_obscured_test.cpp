#include "spirit/check_obscured.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/any_lot.hpp"
#include "spirit/oak_tea.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Mass;
using units::MassConcentration;

Mass any_solids(const Lot& lot) {
  return volume(lot).litres() * Mass::grams(*rc::gen::inRange(0, 3000) / 100.0);
}

RC_GTEST_PROP(CheckObscuredProperty, the_remedy_reaches_the_true_strength_and_keeps_the_masses,
              ()) {
  const Lot plain = any_lot(5.0, 90.0);
  const ObscuredLot found{plain, any_solids(plain)};
  const Lot spirit = any_lot(92.0, 96.0);
  const ObscuredLot strong{spirit, any_solids(spirit) * 0.1};
  const auto wanted = any_strength(5.0, 88.0);
  const ObscuredCorrection c = correct(found, wanted, strong, {});
  RC_ASSERT(std::abs((true_strength(c.result) - wanted).fraction()) < 1e-11);
  const ObscuredLot sum = found + c.spirit + ObscuredLot{{{}, c.water}, {}};
  RC_ASSERT(std::abs(c.result.mass() / sum.mass() - 1.0) < 1e-12);
  RC_ASSERT(c.water >= Mass{} && c.spirit.mass() >= Mass{});
}

RC_GTEST_PROP(CheckObscuredProperty, without_solids_it_is_the_check_of_a_plain_spirit, ()) {
  const Lot found = any_lot(5.0, 90.0);
  const Lot spirit = any_lot(92.0, 96.0);
  const auto wanted = any_strength(5.0, 88.0);
  const Correction plain = correct(found, wanted, strength(spirit));
  const ObscuredCorrection c = correct(ObscuredLot{found, {}}, wanted, {spirit, {}}, {});
  RC_ASSERT(c.remedy == plain.remedy);
  RC_ASSERT(std::abs((c.water - plain.water).kilograms()) < 1e-9 * found.mass().kilograms());
  RC_ASSERT(std::abs(c.spirit.mass() / found.mass() - plain.spirit.mass() / found.mass()) <
            1e-9 * (1.0 + plain.spirit.mass() / found.mass()));
}

// A mistake that was made is the one that is found.
TEST(CheckObscured, names_the_mistake_that_was_made) {
  const auto litres = units::Volume::litres(4.0);
  const auto percent = [](double p) { return units::VolumeStrength::percent(p); };
  const auto extract = MassConcentration::grams_per_litre(15.0);
  const ObscuredLot spirit = obscured_lot(litres, percent(68.0), extract);
  const ObscuredReduction planned = reduce(spirit, percent(46.0));
  const Mass more = Mass::grams(150.0);
  const ObscuredLot watered = planned.result + ObscuredLot{{{}, more}, {}};
  const Mistake water = mistake(spirit, {}, planned.water, watered);
  EXPECT_NEAR(water.mass.grams(), 150.0, 1e-6);
  EXPECT_NEAR(water.water.grams(), 150.0, 1e-6);
  EXPECT_LT(water.strength.percent(), 0.0);
  const ObscuredLot stronger = obscured_lot(litres, percent(69.0), extract);
  const ObscuredLot found = stronger * (spirit.spirit.mass() / stronger.spirit.mass()) +
                            ObscuredLot{{{}, planned.water}, {}};
  EXPECT_NEAR(mistake(spirit, {}, planned.water, found).spirit_strength.value().percent(), 69.0,
              0.01);
}

TEST(CheckObscured, too_weak_without_a_stronger_spirit_is_told) {
  const auto percent = [](double p) { return units::VolumeStrength::percent(p); };
  const auto lot = [&](double p) {
    return obscured_lot(units::Volume::litres(1.0), percent(p),
                        MassConcentration::grams_per_litre(5.0));
  };
  for (const ObscuredLot& strong : {ObscuredLot{}, lot(40.0), lot(46.0)}) {
    try {
      static_cast<void>(correct(lot(45.0), percent(46.0), strong, {}));
      ADD_FAILURE();
    } catch (const base::InputError& error) {
      EXPECT_EQ(error.faults().front().field, "strong");
    }
  }
}

}  // namespace
}  // namespace lynearm::spirit
