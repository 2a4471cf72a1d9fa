#include "spirit/buoyancy.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <limits>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/refusal.hpp"

namespace lynearm::spirit {
namespace {

using units::Density;
using units::Mass;
using units::MassFraction;
using units::Pressure;
using units::Share;
using units::Temperature;
using units::Volume;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

Density kgm3(double v) { return Density::kilograms_per_cubic_metre(v); }

double moist(double t_C, double p_hPa, double humidity_percent) {
  return moist_air(Temperature::celsius(t_C), Pressure::hectopascals(p_hPa),
                   Share::percent(humidity_percent))
      .density.kilograms_per_cubic_metre();
}

// An independent account of the same air: two ideal gases, the vapour's pressure from Magnus'
// formula (6.112 hPa, 17.62, 243.12 °C), dry air 287.05 J/(kg K), vapour 0.622 as heavy.
double ideal(double t_C, double p_hPa, double humidity_percent) {
  const double vapour_hPa =
      humidity_percent / 100.0 * 6.112 * std::exp(17.62 * t_C / (243.12 + t_C));
  return 100.0 * (p_hPa - 0.378 * vapour_hPa) / (287.05 * (t_C + 273.15));
}

double worst_off_ideal(int from_C, int to_C, int from_hPa, int most_percent) {
  double worst = 0.0;
  for (int t = from_C; t <= to_C; t += 5) {
    for (int p = from_hPa; p <= 1100; p += 50) {
      for (int h = 0; h <= most_percent; h += 20) {
        worst = std::max(worst, std::abs(moist(t, p, h) / ideal(t, p, h) - 1.0));
      }
    }
  }
  return worst;
}

TEST(Buoyancy, moist_air_agrees_with_two_ideal_gases) {
  const double usual = worst_off_ideal(10, 30, 900, 80);
  const double whole = worst_off_ideal(-20, 40, 500, 100);
  std::cout << "moist air against ideal gases: worst " << usual << " in the source's range, "
            << whole << " in ours (relative)\n";
  EXPECT_LT(usual, 4e-4);
  EXPECT_LT(whole, 3.6e-3);
}

TEST(Buoyancy, the_conventional_air_is_that_of_a_room_near_sea_level) {
  EXPECT_NEAR(moist(20.0, 1013.25, 50.0), 1.2, 0.001);
}

TEST(Buoyancy, warm_and_damp_air_is_light) {
  EXPECT_LT(moist(30.0, 1013.25, 50.0), moist(10.0, 1013.25, 50.0));
  EXPECT_LT(moist(20.0, 1013.25, 90.0), moist(20.0, 1013.25, 10.0));
  EXPECT_LT(moist(20.0, 850.0, 50.0), moist(20.0, 1013.25, 50.0));
}

TEST(Buoyancy, a_litre_of_water_weighs_997_15_grams) {
  // (998.201 - 1.2) / (1 - 1.2 / 8000), by hand.
  EXPECT_NEAR(weight_in_air(Volume::litres(1.0), kgm3(998.201)).grams(), 997.1506, 1e-4);
}

TEST(Buoyancy, a_weight_of_8000_weighs_itself_in_any_air) {
  for (const double air : {0.0, 0.9, 1.2, 1.4}) {
    EXPECT_NEAR(
        weight_in_air(Mass::kilograms(5.0), conventional_weights, {kgm3(air)}).kilograms(), 5.0,
        1e-15);
  }
}

TEST(Buoyancy, nothing_is_lost_in_vacuum) {
  const Air none{kgm3(0.0)};
  EXPECT_EQ(weight_in_air(Mass::kilograms(3.0), kgm3(800.0), none).kilograms(), 3.0);
  EXPECT_EQ(gravity_in_air(kgm3(800.0), kgm3(1000.0), none).ratio(), 0.8);
}

TEST(Buoyancy, the_conventional_mass_of_brass_is_the_mass_of_the_steel_that_balances_it) {
  // 1 kg of brass and 1 kg of steel, each less its air: 1 - 1.2/8400 over 1 - 1.2/8000.
  EXPECT_NEAR(conventional_mass(Mass::kilograms(1.0), brass_weights).milligrams() - 1e6, 7.144,
              0.001);
}

TEST(Buoyancy, gravity_in_air_is_further_from_one_than_in_vacuum) {
  for (int p = 1; p <= 100; ++p) {
    const MassFraction ethanol = MassFraction::percent(p);
    EXPECT_LT(in_air(specific_gravity(ethanol)).ratio(), specific_gravity(ethanol).ratio());
  }
  // At pure ethanol 2.5e-4: (1 - 0.7907) 1.2 / 997.
  const MassFraction pure = MassFraction::fraction(1.0);
  EXPECT_NEAR(specific_gravity(pure).ratio() - in_air(specific_gravity(pure)).ratio(), 2.52e-4,
              1e-6);
}

RC_GTEST_PROP(BuoyancyProperty, the_mass_comes_back_from_its_weight, ()) {
  const Mass mass = Mass::grams(*rc::gen::inRange(0, 100000000) / 1000.0);
  const Density density = kgm3(*rc::gen::inRange(700, 9000));
  const Air air{kgm3(*rc::gen::inRange(0, 1500) / 1000.0)};
  const Density weights = kgm3(*rc::gen::inRange(2000, 9000));
  const Mass shown = weight_in_air(mass, density, air, weights);
  RC_ASSERT(std::abs(mass_of(shown, density, air, weights).grams() - mass.grams()) <=
            1e-14 * mass.grams());
}

RC_GTEST_PROP(BuoyancyProperty, the_density_comes_back_from_a_volume_and_its_weight, ()) {
  const Volume volume = Volume::millilitres(*rc::gen::inRange(1, 10000000) / 10.0);
  const Density density = kgm3(*rc::gen::inRange(700000, 1100000) / 1000.0);
  const Air air{kgm3(*rc::gen::inRange(0, 1500) / 1000.0)};
  const Mass shown = weight_in_air(volume, density, air);
  RC_ASSERT(std::abs(density_of(shown, volume, air) / density - 1.0) < 1e-14);
}

RC_GTEST_PROP(BuoyancyProperty, gravities_come_back, ()) {
  const MassFraction ethanol = MassFraction::fraction(*rc::gen::inRange(0, 100001) / 1e5);
  const Temperature t = Temperature::celsius(*rc::gen::inRange(-20, 41));
  const Air air{kgm3(*rc::gen::inRange(0, 1500) / 1000.0)};
  const double back = mass_fraction(gravity_in_air(ethanol, t, air), t, air).fraction();
  RC_ASSERT(std::abs(back - ethanol.fraction()) < 1e-11);
  const double sg = specific_gravity(ethanol).ratio();
  RC_ASSERT(std::abs(in_vacuum_20C(in_air(specific_gravity(ethanol), air), air).ratio() - sg) <
            1e-15);
  const SpecificGravity60F at_60F = specific_gravity_60F(ethanol);
  RC_ASSERT(std::abs(in_vacuum_60F(in_air(at_60F, air), air).ratio() - at_60F.ratio()) < 1e-15);
}

TEST(Buoyancy, refuses_what_no_room_and_no_liquid_is) {
  const base::Fault pressure = fault_of([] { return moist(20.0, 1013250.0, 50.0); });
  EXPECT_EQ(
      base::sentence(pressure),
      "air.pressure is \"1013250.00 hPa\"; accepted: 500 to 1100 hPa, as it stands in the "
      "room.");
  EXPECT_EQ(fault_of([] { return moist(41.0, 1000.0, 50.0); }).field, "air.temperature");
  EXPECT_EQ(fault_of([] { return moist(20.0, 1000.0, 101.0); }).field, "air.humidity");
  EXPECT_EQ(fault_of([] { return moist(20.0, 1000.0, nan); }).field, "air.humidity");
  const Mass one = Mass::kilograms(1.0);
  EXPECT_EQ(base::sentence(fault_of([&] { return weight_in_air(one, kgm3(0.93)); })),
            "density is \"0.9300 kg/m³\"; accepted: 100 to 25000 kg/m³.");
  EXPECT_EQ(fault_of([&] { return weight_in_air(one, kgm3(nan)); }).field, "density");
  EXPECT_EQ(fault_of([&] { return mass_of(one, kgm3(930.0), {kgm3(2.1)}); }).field, "air");
  EXPECT_EQ(fault_of([&] { return mass_of(one, kgm3(930.0), {}, kgm3(0.0)); }).field,
            "weights");
  EXPECT_EQ(fault_of([&] { return mass_of(-one, kgm3(930.0)); }).field, "mass");
  EXPECT_EQ(fault_of([&] { return density_of(one, Volume{}); }).field, "volume");
  EXPECT_EQ(fault_of([&] { return density_of(one, Volume::litres(1.0), {}, kgm3(0.0)); }).field,
            "weights");
  EXPECT_EQ(fault_of([&] {
              return weight_in_air(Mass::kilograms(std::numeric_limits<double>::infinity()),
                                   kgm3(930.0));
            }).field,
            "mass");
  EXPECT_EQ(
      base::sentence(fault_of(
          [] { return mass_fraction(GravityInAir::ratio(0.78), Temperature::celsius(25.0)); })),
      "gravity is \"0.78000\"; accepted: 0.7870 (pure ethanol) to 1 (water) in air at 25.00 "
      "°C.");
}

}  // namespace
}  // namespace lynearm::spirit
