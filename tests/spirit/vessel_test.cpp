#include "spirit/vessel.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <set>
#include <string>

#include "base/error.hpp"
#include "spirit/refusal.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Mass;
using units::MassFraction;
using units::Share;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

TEST(Vessel, a_steel_drum_holds_more_when_it_is_warm) {
  // 200 L marked for 20 °C, at 30 °C: 200 (1 + 10 x 51.8e-6).
  const Vessel drum = vessel_of(material("stainless-304"));
  const Volume marked = Volume::litres(200.0);
  EXPECT_NEAR(true_volume(marked, Temperature::celsius(30.0), drum).litres(), 200.1036, 1e-9);
  EXPECT_LT(true_volume(marked, Temperature::celsius(10.0), drum), marked);
  EXPECT_EQ(true_volume(marked, reference_20C, drum), marked);
}

TEST(Vessel, without_a_material_a_mark_is_the_volume) {
  EXPECT_EQ(true_volume(Volume::litres(7.0), Temperature::celsius(35.0), {}),
            Volume::litres(7.0));
}

TEST(Vessel, a_litre_at_20C_is_the_lot_of_its_strength) {
  const VolumeStrength strength = VolumeStrength::percent(62.4);
  const Lot plain = lot(Volume::litres(1.0), strength);
  const Lot marked = lot_at_mark(Volume::litres(1.0), mass_fraction(strength), reference_20C,
                                 vessel_of(material("soda-lime")));
  EXPECT_DOUBLE_EQ(marked.ethanol.kilograms(), plain.ethanol.kilograms());
  EXPECT_DOUBLE_EQ(marked.water.kilograms(), plain.water.kilograms());
}

TEST(Vessel, spirit_outgrows_every_vessel_but_plastic_outgrows_water) {
  const MassFraction spirit = mass_fraction(VolumeStrength::percent(50.0));
  const Temperature warm = Temperature::celsius(30.0);
  for (const Material& each : materials()) {
    EXPECT_LT(volume_correction(spirit, warm, reference_20C, vessel_of(each)), 1.0) << each.id;
  }
  EXPECT_GT(volume_correction({}, warm, reference_20C, vessel_of(material("hdpe"))), 1.0);
}

// Above 30 % by mass a spirit has no densest temperature in the range: warmer is always larger.
TEST(Vessel, the_correction_falls_as_the_spirit_is_warmer) {
  for (int p = 30; p <= 100; p += 5) {
    double before = std::numeric_limits<double>::infinity();
    for (int t = -20; t <= 40; ++t) {
      const double factor =
          volume_correction(MassFraction::percent(p), Temperature::celsius(t), reference_60F);
      EXPECT_LT(factor, before) << p << " % mass at " << t << " °C";
      before = factor;
    }
  }
}

Vessel any_vessel() {
  return {*rc::gen::inRange(0, 1001) * 1e-6, Temperature::celsius(*rc::gen::inRange(-20, 41))};
}
Temperature any_temperature() {
  return Temperature::celsius(*rc::gen::inRange(-2000, 4001) / 100.0);
}
MassFraction any_spirit() { return MassFraction::fraction(*rc::gen::inRange(0, 100001) / 1e5); }

RC_GTEST_PROP(VesselProperty, a_lot_comes_back_from_the_mark_it_stands_at, ()) {
  const Vessel vessel = any_vessel();
  const Temperature t = any_temperature();
  const MassFraction p = any_spirit();
  const Mass mass = Mass::grams(*rc::gen::inRange(1, 100000000) / 100.0);
  const Lot before{mass * p.fraction(), mass * (1.0 - p.fraction())};
  const Lot after = lot_at_mark(mark_of(before, t, vessel), mass_fraction(before), t, vessel);
  RC_ASSERT(std::abs((after.ethanol - before.ethanol) / mass) < 1e-12);
  RC_ASSERT(std::abs((after.water - before.water) / mass) < 1e-12);
  RC_ASSERT(std::abs(after.mass() / mass - 1.0) < 1e-12);
}

RC_GTEST_PROP(VesselProperty, a_mark_comes_back_from_its_lot, ()) {
  const Vessel vessel = any_vessel();
  const Temperature t = any_temperature();
  const Volume marked = Volume::millilitres(*rc::gen::inRange(1, 100000000) / 10.0);
  const Lot there = lot_at_mark(marked, any_spirit(), t, vessel);
  RC_ASSERT(std::abs(mark_of(there, t, vessel) / marked - 1.0) < 1e-12);
  RC_ASSERT(std::abs(marked_volume(true_volume(marked, t, vessel), t, vessel) / marked - 1.0) <
            1e-15);
}

RC_GTEST_PROP(VesselProperty, the_correction_is_the_volume_at_the_other_temperature, ()) {
  const Vessel vessel = any_vessel();
  const Temperature from = any_temperature();
  const Temperature to = any_temperature();
  const MassFraction p = any_spirit();
  const Volume marked = Volume::litres(100.0);
  const Volume there = volume(lot_at_mark(marked, p, from, vessel), to);
  RC_ASSERT(std::abs(marked * volume_correction(p, from, to, vessel) / there - 1.0) < 1e-12);
  // There and back again, with walls that do not grow.
  RC_ASSERT(std::abs(volume_correction(p, from, to) * volume_correction(p, to, from) - 1.0) <
            1e-15);
}

TEST(Vessel, each_material_has_its_range_and_its_source) {
  std::set<std::string_view> ids;
  for (const Material& each : materials()) {
    EXPECT_LE(each.expansion_per_K.low, each.expansion_per_K.value) << each.id;
    EXPECT_GE(each.expansion_per_K.high, each.expansion_per_K.value) << each.id;
    EXPECT_FALSE(each.expansion_per_K.source.document.empty()) << each.id;
    EXPECT_NO_THROW(
        static_cast<void>(true_volume(Volume::litres(1.0), reference_60F, vessel_of(each))));
    EXPECT_TRUE(ids.insert(each.id).second) << each.id;
  }
}

TEST(Vessel, each_measure_has_one_kind_of_error_a_material_and_a_source) {
  std::set<std::string_view> ids;
  for (const VolumeMeasure& each : volume_measures()) {
    EXPECT_NE(each.absolute_error > Volume{}, each.relative_error > Share{}) << each.id;
    EXPECT_NO_THROW(static_cast<void>(material(each.material))) << each.id;
    EXPECT_FALSE(each.source.document.empty()) << each.id;
    EXPECT_TRUE(ids.insert(each.id).second) << each.id;
  }
}

TEST(Vessel, class_B_glass_may_be_off_by_twice_as_much_as_class_A) {
  int pairs = 0;
  for (const VolumeMeasure& a : volume_measures()) {
    const std::size_t at = a.id.find("-a-");
    if (at == std::string_view::npos) continue;
    std::string id(a.id);
    id[at + 1] = 'b';
    EXPECT_DOUBLE_EQ(volume_measure(id).absolute_error.litres(),
                     2.0 * a.absolute_error.litres())
        << id;
    EXPECT_EQ(volume_measure(id).capacity, a.capacity);
    ++pairs;
  }
  EXPECT_EQ(pairs, 13);
}

TEST(Vessel, the_most_error_is_absolute_in_glass_and_a_share_in_a_cask) {
  EXPECT_EQ(most_error(volume_measure("flask-a-1000"), Volume::litres(1.0)),
            Volume::millilitres(0.4));
  EXPECT_DOUBLE_EQ(most_error(volume_measure("cask"), Volume::litres(200.0)).litres(), 4.0);
}

TEST(Vessel, refuses_with_what_would_be_accepted) {
  const Volume litre = Volume::litres(1.0);
  EXPECT_EQ(base::sentence(fault_of([] { return material("stainles-304"); })),
            "material is \"stainles-304\"; accepted: one such as \"stainless-304\".");
  EXPECT_EQ(fault_of([] { return volume_measure("bucket"); }).field, "measure");
  EXPECT_EQ(fault_of([&] { return true_volume(-litre, reference_20C, {}); }).field, "volume");
  EXPECT_EQ(fault_of([&] { return true_volume(litre, Temperature::celsius(41.0), {}); }).field,
            "temperature");
  EXPECT_EQ(
      base::sentence(fault_of([&] { return true_volume(litre, reference_20C, {0.0518}); })),
      "vessel.expansion is \"0.0518 per kelvin\"; accepted: 0 to 0.001 per kelvin (cubic: "
      "three "
      "times the linear).");
  // A reference that was never set is 0 K.
  EXPECT_EQ(fault_of([&] {
              return true_volume(litre, reference_20C, {1e-5, Temperature{}});
            }).field,
            "vessel.marked_at");
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(fault_of([&] { return true_volume(litre, reference_20C, {nan}); }).field,
            "vessel.expansion");
  EXPECT_EQ(fault_of([&] { return mark_of({}, Temperature::celsius(nan)); }).field,
            "temperature");
}

}  // namespace
}  // namespace lynearm::spirit
