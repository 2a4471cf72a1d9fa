#include "spirit/measured_reduction.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/any_lot.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Mass;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

TEST(MeasuredReduction, at_20_degrees_is_the_plain_reduction) {
  const Lot spirit = lot(Volume::litres(4.0), VolumeStrength::percent(70.0));
  const VolumeStrength to = VolumeStrength::percent(55.0);
  const MeasuredReduction m = reduce(spirit, to, MixingTemperatures{});
  const Reduction plain = reduce(spirit, to);
  EXPECT_NEAR(m.spirit.litres(), 4.0, 1e-12);
  EXPECT_NEAR(m.water / plain.water_at_20C, 1.0, 1e-14);
  EXPECT_NEAR(m.result / plain.volume_at_20C, 1.0, 1e-14);
  EXPECT_NEAR(m.contraction.litres(), plain.contraction.litres(), 1e-14);
}

// By the densities of OIML R 22: pure ethanol 780.65 kg/m³ at 30 °C (Table I), water at 20 °C
// 998.201 (coefficient A1). A litre of ethanol at 30 °C with a litre of water at 20 °C.
TEST(MeasuredReduction, counts_each_volume_at_its_own_temperature) {
  const Temperature warm = Temperature::celsius(30.0);
  const Lot ethanol = lot(Volume::litres(1.0), VolumeStrength::percent(100.0), warm);
  EXPECT_NEAR(ethanol.mass().kilograms(), 0.78065, 0.00000501);
  const Mass water = water_mass(Volume::litres(1.0), reference_20C);
  EXPECT_NEAR(water.kilograms(), 0.998201, 0.000000501);
  const Reduction r = dilute(ethanol, water);
  const MeasuredReduction m = measured(ethanol, r, {warm, reference_20C, reference_20C});
  EXPECT_NEAR(m.spirit.litres(), 1.0, 1e-14);
  EXPECT_NEAR(m.water.litres(), 1.0, 1e-14);
  EXPECT_NEAR((m.spirit + m.water - m.contraction) / r.volume_at_20C, 1.0, 1e-14);
}

TEST(MeasuredReduction, of_warm_spirit_loses_more_and_of_cold_spirit_less) {
  const VolumeStrength seventy = VolumeStrength::percent(70.0);
  const VolumeStrength to = VolumeStrength::percent(55.0);
  const auto contraction = [&](double t_C) {
    const Temperature t = Temperature::celsius(t_C);
    return reduce(lot(Volume::litres(4.0), seventy, t), to, {t, reference_20C, reference_20C})
        .contraction.litres();
  };
  EXPECT_GT(contraction(30.0), contraction(20.0));
  EXPECT_GT(contraction(20.0), contraction(10.0));
  // At 0 °C the spirit's swelling to 20 °C outweighs the contraction of mixing.
  EXPECT_LT(contraction(0.0), 0.0);
}

RC_GTEST_PROP(MeasuredReductionProperty, temperature_changes_volumes_and_no_mass, ()) {
  const Temperature spirit_t = any_temperature(-20.0, 40.0);
  const Temperature water_t = any_temperature(0.0, 40.0);
  const Temperature result_t = any_temperature(-20.0, 40.0);
  const Volume litres = Volume::litres(any_figure(0.1, 500.0));
  const Lot spirit = lot(litres, any_strength(2.0, 100.0), spirit_t);
  const VolumeStrength to = any_strength(1.0, strength(spirit).percent());
  const MeasuredReduction m = reduce(spirit, to, {spirit_t, water_t, result_t});
  RC_ASSERT(equal_to(m.spirit, litres, 1e-12));
  RC_ASSERT(std::abs((water_mass(m.water, water_t) - m.by_mass.water) / spirit.mass()) < 1e-12);
  RC_ASSERT(
      equal_to(lot(m.result, to, result_t).mass(), spirit.mass() + m.by_mass.water, 1e-12));
  RC_ASSERT(equal_to(lot(m.result, to, result_t).ethanol, spirit.ethanol, 1e-12));
}

TEST(MeasuredReduction, refuses_hot_water_and_ice) {
  for (const double t_C : {-0.1, 40.1, 80.0, 120.0, std::nan("")}) {
    try {
      static_cast<void>(water_mass(Volume::litres(1.0), Temperature::celsius(t_C)));
      ADD_FAILURE() << t_C;
    } catch (const base::InputError& error) {
      EXPECT_EQ(error.faults().at(0).field, "water_temperature");
      EXPECT_EQ(
          error.faults().at(0).accepted,
          "0 to 40 °C; let warmer water cool first, it drives vapour off the spirit, which "
          "can burn");
    }
  }
}

TEST(MeasuredReduction, names_the_temperature_it_refuses) {
  const Lot spirit = lot(Volume::litres(1.0), VolumeStrength::percent(70.0));
  const VolumeStrength to = VolumeStrength::percent(55.0);
  const Temperature hot = Temperature::celsius(40.01);
  const auto field = [&](MixingTemperatures t) -> std::string {
    try {
      static_cast<void>(reduce(spirit, to, t));
    } catch (const base::InputError& error) {
      return error.faults().at(0).field;
    }
    return "";
  };
  EXPECT_EQ(field({hot, reference_20C, reference_20C}), "spirit_temperature");
  EXPECT_EQ(field({reference_20C, hot, reference_20C}), "water_temperature");
  EXPECT_EQ(field({reference_20C, reference_20C, hot}), "result_temperature");
  EXPECT_EQ(field({}), "");
  EXPECT_THROW(static_cast<void>(water_mass(Volume::litres(-1.0), reference_20C)),
               base::InputError);
  EXPECT_THROW(static_cast<void>(water_volume(Mass::kilograms(-1.0), reference_20C)),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::spirit
