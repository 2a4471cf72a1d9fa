#include "still/hold_up.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "still/run_state.hpp"

namespace lynearm::still {
namespace {

Parcel parcel_of(double mol, double z_from, double z_to, double grams = 0.0) {
  Parcel parcel;
  const double z = 0.5 * (z_from + z_to);
  parcel.ethanol_mol = mol * z;
  parcel.water_mol = mol * (1.0 - z);
  parcel.z_from = z_from;
  parcel.z_to = z_to;
  parcel.congener_g.fill(grams);
  return parcel;
}

Tank filled(double litres, double z) {
  Tank tank(litres);
  while (tank.missing_L() > 1e-9) {
    Parcel parcel = parcel_of(0.01, z, z);
    tank.pass(parcel);
  }
  return tank;
}

TEST(Tank, WithoutAVolumeLetsAllPass) {
  Tank tank(0.0);
  Parcel parcel = parcel_of(1.0, 0.4, 0.3, 2.0);
  tank.pass(parcel);
  EXPECT_EQ(parcel.ethanol_mol, 0.35);
  EXPECT_EQ(parcel.z_to, 0.3);
  EXPECT_EQ(parcel.congener_g[0], 2.0);
}

TEST(Tank, FillsBeforeItFlows) {
  Tank tank(0.1);
  Parcel parcel = parcel_of(1.0, 0.5, 0.5);
  tank.pass(parcel);
  EXPECT_EQ(parcel.mol(), 0.0);
  EXPECT_NEAR(tank.missing_L(), 0.1 - litres_20C(0.5, 0.5), 1e-15);
}

TEST(Tank, OverflowsByWhatIsTooMuch) {
  Tank tank(0.1);
  Parcel parcel = parcel_of(10.0, 0.5, 0.5);
  const double litres = litres_20C(parcel.ethanol_mol, parcel.water_mol);
  tank.pass(parcel);
  EXPECT_NEAR(litres_20C(parcel.ethanol_mol, parcel.water_mol), litres - 0.1, 1e-12);
  EXPECT_NEAR(tank.missing_L(), 0.0, 1e-12);
}

// A parcel whose mean lies off the straight line between its ends, as those of a run do, and
// that fills the tank but for next to nothing: what flows over is spirit like the rest of it.
TEST(Tank, WhatFlowsOverAfterTheFillIsMixedAsTheParcelWas) {
  for (const double too_much : {1e-3, 1e-6, 1e-9, 1e-11}) {
    Parcel parcel = parcel_of(3.0, 0.56, 0.54);
    parcel.ethanol_mol += 3e-3;
    parcel.water_mol -= 3e-3;
    const double litres = litres_20C(parcel.ethanol_mol, parcel.water_mol);
    Tank tank(litres * (1.0 - too_much));
    tank.pass(parcel);
    EXPECT_GE(parcel.ethanol_mol, 0.0) << too_much;
    EXPECT_GE(parcel.water_mol, 0.0) << too_much;
    EXPECT_NEAR(litres_20C(parcel.ethanol_mol, parcel.water_mol), litres * too_much,
                litres * (0.01 * too_much + 1e-12));
    EXPECT_NEAR(parcel.z_to, 0.551, 1e-3) << too_much;
  }
}

TEST(Tank, ForgetsWhatItHeldByOneInEWithEachVolumeThatPasses) {
  // Two mixtures so near each other that neither volume nor contraction matters.
  Tank tank = filled(0.1, 0.3);
  const double held_mol = tank.ethanol_mol() + tank.water_mol();
  for (int i = 0; i < 10; ++i) {
    Parcel parcel = parcel_of(held_mol / 10.0, 0.3001, 0.3001);
    tank.pass(parcel);
  }
  const double z = tank.ethanol_mol() / (tank.ethanol_mol() + tank.water_mol());
  EXPECT_NEAR((0.3001 - z) / 0.0001, std::exp(-1.0), 1e-3);
}

TEST(Tank, LagsARampByItsOwnVolume) {
  // Long after the start, a stream that falls evenly is shown as it was one volume earlier;
  // alike for parcels large and small against the volume.
  for (const int parcels : {20, 200, 2000}) {
    Tank tank = filled(0.1, 0.31);
    const double held_mol = tank.ethanol_mol() + tank.water_mol();
    const double fall = 0.001;  // a volume
    const double step = 10.0 / parcels;
    double z = 0.31;
    for (int i = 0; i < parcels; ++i) {
      Parcel parcel = parcel_of(held_mol * step, z, z - fall * step);
      tank.pass(parcel);
      z -= fall * step;
    }
    const double shown = tank.ethanol_mol() / (tank.ethanol_mol() + tank.water_mol());
    EXPECT_NEAR((shown - z) / fall, 1.0, 0.02) << parcels;
  }
}

RC_GTEST_PROP(Tank, LosesNothing, ()) {
  Tank tank(*rc::gen::inRange(0, 200) * 1e-3);
  double in_ethanol = 0.0, in_water = 0.0, in_g = 0.0;
  double out_ethanol = 0.0, out_water = 0.0, out_g = 0.0;
  for (int i = 0; i < 30; ++i) {
    const double mol = *rc::gen::inRange(0, 100) * 0.1;
    Parcel parcel =
        parcel_of(mol, *rc::gen::inRange(0, 100) * 0.01, *rc::gen::inRange(0, 100) * 0.01, mol);
    in_ethanol += parcel.ethanol_mol;
    in_water += parcel.water_mol;
    in_g += parcel.congener_g[3];
    tank.pass(parcel);
    RC_ASSERT(parcel.ethanol_mol >= -1e-12);
    RC_ASSERT(parcel.water_mol >= -1e-12);
    RC_ASSERT(tank.missing_L() >= -1e-12);
    out_ethanol += parcel.ethanol_mol;
    out_water += parcel.water_mol;
    out_g += parcel.congener_g[3];
  }
  RC_ASSERT(std::abs(in_ethanol - out_ethanol - tank.ethanol_mol()) < 1e-11);
  RC_ASSERT(std::abs(in_water - out_water - tank.water_mol()) < 1e-11);
  RC_ASSERT(std::abs(in_g - out_g - tank.congener_g(3)) < 1e-11);
}

}  // namespace
}  // namespace lynearm::still
