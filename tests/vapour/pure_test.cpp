#include "vapour/pure.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/error.hpp"

namespace lynearm::vapour {
namespace {

using units::Pressure;
using units::Temperature;

TEST(BoilingPoint, OfThePureLiquidsAtOneAtmosphereIsWherePublishedToATenthKelvin) {
  // IAPWS-95: 373.124 K; CRC Handbook: 351.39 K. Perry's equations come out 0.044 and 0.070 K
  // later; a tenth is what a still's thermometer can tell.
  const auto p = Pressure::atmospheres(1.0);
  EXPECT_NEAR(boiling_point(Substance::water, p).kelvins(), 373.124, 0.1);
  EXPECT_NEAR(boiling_point(Substance::ethanol, p).kelvins(), 351.39, 0.1);
}

TEST(BoilingPoint, GivesBackItsPressure) {
  for (const Substance s : {Substance::ethanol, Substance::water}) {
    for (const double kPa : {20.0, 33.3, 70.0, 101.325, 120.0}) {
      const auto p = Pressure::kilopascals(kPa);
      EXPECT_NEAR(vapour_pressure(s, boiling_point(s, p)) / p, 1.0, 1e-12);
    }
  }
}

TEST(VapourPressure, HasTheSlopeItSays) {
  for (const Substance s : {Substance::ethanol, Substance::water}) {
    const auto ln = [s](double t_C) {
      return std::log(vapour_pressure(s, Temperature::celsius(t_C)).pascals());
    };
    const double slope = (ln(80.001) - ln(79.999)) / 0.002;
    EXPECT_NEAR(log_slope_per_K(s, Temperature::celsius(80.0)), slope, 1e-8);
  }
}

TEST(LatentHeat, IsWithinOnePercentOfTheHandbook) {
  // CRC Handbook. Perry's equation is 0.4 % high for water at its boil, 1.0 % for ethanol;
  // 1.05 % keeps what is seen.
  const auto kJ = [](Substance s, double t_K) {
    return latent_heat(s, Temperature::kelvins(t_K)).joules_per_mole() * 1e-3;
  };
  EXPECT_NEAR(kJ(Substance::water, 373.12) / 40.65, 1.0, 0.0105);
  EXPECT_NEAR(kJ(Substance::ethanol, 351.44) / 38.56, 1.0, 0.0105);
  EXPECT_NEAR(kJ(Substance::water, 298.15) / 43.98, 1.0, 0.0105);
  EXPECT_NEAR(kJ(Substance::ethanol, 298.15) / 42.32, 1.0, 0.0105);
}

TEST(LiquidHeatCapacity, AtRoomTemperatureIsThatOfTheHandbook) {
  // CRC Handbook at 298.15 K: 75.3 and 112.3 J/(mol K), printed to 0.1; Perry's fits within 0.5
  // %.
  const auto room = Temperature::kelvins(298.15);
  EXPECT_NEAR(liquid_heat_capacity(Substance::water, room).joules_per_mole_kelvin(), 75.3, 0.1);
  EXPECT_NEAR(liquid_heat_capacity(Substance::ethanol, room).joules_per_mole_kelvin(), 112.3,
              0.56);
}

TEST(LiquidEnthalpy, RisesByItsHeatCapacity) {
  for (const Substance s : {Substance::ethanol, Substance::water}) {
    const double rise = (liquid_enthalpy(s, Temperature::celsius(60.01)) -
                         liquid_enthalpy(s, Temperature::celsius(59.99)))
                            .joules_per_mole() /
                        0.02;
    EXPECT_NEAR(rise,
                liquid_heat_capacity(s, Temperature::celsius(60.0)).joules_per_mole_kelvin(),
                1e-5);
    EXPECT_EQ(liquid_enthalpy(s, Temperature::celsius(0.0)).joules_per_mole(), 0.0);
  }
}

TEST(PureLiquids, RefuseWhatLiesOutsideTheirRange) {
  EXPECT_THROW((void)vapour_pressure(Substance::water, Temperature::celsius(-0.1)),
               base::InputError);
  EXPECT_THROW((void)latent_heat(Substance::water, Temperature::celsius(115.1)),
               base::InputError);
  EXPECT_THROW((void)vapour_pressure(Substance::water, Temperature::celsius(std::nan(""))),
               base::InputError);
  EXPECT_THROW((void)boiling_point(Substance::water, Pressure::kilopascals(19.9)),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::vapour
