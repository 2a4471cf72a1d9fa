#include "still/charge.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "still/runs.hpp"

namespace lynearm::still {
namespace {

using units::Mass;
using units::Temperature;

TEST(HotVolume, OfWaterIsKells) {
  // Kell 1975, recommended densities, from memory: 50 °C 988.04, 80 °C 971.80, 100 °C 958.36
  // kg/m³. OIML R 22 and Kell differ by 0.02 kg/m³ at 40 °C, where they are joined.
  const spirit::Lot litre{Mass{}, Mass::kilograms(1.0)};
  const auto density = [&](double t_C) {
    return 1e3 / hot_volume(litre, Temperature::celsius(t_C)).litres();
  };
  EXPECT_NEAR(density(50.0), 988.04, 0.05);
  EXPECT_NEAR(density(80.0), 971.80, 0.05);
  EXPECT_NEAR(density(100.0), 958.36, 0.05);
}

TEST(HotVolume, JoinsTheCoolFormulaAtFortyDegrees) {
  const spirit::Lot spirit = charge_of(100.0, 30.0).spirit;
  const double below = hot_volume(spirit, Temperature::celsius(40.0)).litres();
  const double above = hot_volume(spirit, Temperature::celsius(40.0001)).litres();
  EXPECT_NEAR(above, below, 1e-4);
  EXPECT_GT(hot_volume(spirit, Temperature::celsius(86.0)).litres(), 103.0);
  EXPECT_EQ(hot_volume({}, Temperature::celsius(86.0)).litres(), 0.0);
  EXPECT_THROW((void)hot_volume(spirit, Temperature::celsius(111.0)), base::InputError);
}

TEST(Volume, OfAChargeCountsItsExtract) {
  Charge wash = charge_of(50.0, 8.0);
  wash.extract = Mass::kilograms(2.0);
  EXPECT_NEAR(volume(wash, Temperature::celsius(20.0)).litres(), 51.24, 1e-9);
}

TEST(Moles, GoThereAndBack) {
  const spirit::Lot spirit = charge_of(22.0, 8.0).spirit;
  const spirit::Lot back = lot(moles(spirit));
  EXPECT_NEAR(back.ethanol / spirit.ethanol, 1.0, 1e-14);
  EXPECT_NEAR(back.water / spirit.water, 1.0, 1e-14);
  EXPECT_EQ(moles({}).fraction().fraction(), 0.0);
}

TEST(BoilingTemperature, RefusesAnEmptyPot) {
  EXPECT_THROW((void)boiling_temperature({}, at_one_atmosphere()), base::InputError);
  EXPECT_NEAR(boiling_temperature(charge_of(10.0, 10.0), at_one_atmosphere()).celsius(), 92.6,
              0.1);  // Groning: 92.6 °C
}

}  // namespace
}  // namespace lynearm::still
