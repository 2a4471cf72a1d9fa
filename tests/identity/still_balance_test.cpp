// What goes into a still comes out of it, whatever stands there and however it is driven:
// water, ethanol, every congener and heat, over random runs. And what a run shows does not hang
// on how finely it was integrated.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <iostream>
#include <random>

#include "base/error.hpp"
#include "still/congeners_of_run.hpp"
#include "still/run.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::still {
namespace {

using units::Duration;
using units::HeatCapacity;
using units::HeatLoss;
using units::Mass;
using units::MoleFraction;
using units::Power;
using units::Share;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

constexpr int runs = 1000;
constexpr int compared = 60;

struct Air {
  explicit Air(double kPa) : curve(units::Pressure::kilopascals(kPa)), traces(curve) {}
  vapour::BoilingCurve curve;
  vapour::CongenerCurve traces;
};

struct Driven {
  Charge charge;
  RunSetting setting;
  Stop stop;
};

class Dice {
 public:
  explicit Dice(unsigned seed) : random_(seed) {}
  double in(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random_);
  }
  int whole(int low, int high) {
    return std::uniform_int_distribution<int>(low, high)(random_);
  }
  bool one_in(int n) { return whole(1, n) == 1; }

 private:
  std::mt19937 random_;
};

Head head(Dice& dice, Power power) {
  Head head;
  if (dice.one_in(2)) {
    head.fixed_reflux = Share::fraction(dice.in(0.0, 0.5));
  } else {
    head.loss = HeatLoss::watts_per_kelvin(power.watts() * dice.in(0.0, 0.003));
    head.cooling = dice.one_in(3) ? power * dice.in(0.0, 0.2) : Power{};
  }
  if (dice.one_in(2)) head.wall = HeatCapacity::joules_per_kelvin(dice.in(0.0, 3000.0));
  head.plates = dice.one_in(2) ? 0 : dice.whole(1, 4);
  head.plate_efficiency = Share::fraction(dice.in(0.4, 1.0));
  return head;
}

// Fires that change, one of them with a night between.
void steps(Dice& dice, Driven& driven, Power power) {
  if (dice.one_in(3)) {
    driven.setting.power_steps.push_back({Volume::litres(dice.in(0.2, 1.0)), power * 0.8});
    driven.setting.power_steps.push_back({Volume::litres(dice.in(1.5, 3.0)), power * 1.1});
  }
  if (dice.one_in(3)) {
    const double hours = dice.in(0.5, 3.0);
    driven.setting.power_steps.push_back({Duration::hours(hours), Power{}});
    driven.setting.power_steps.push_back(
        {Duration::hours(hours + dice.in(0.05, 14.0)), power * dice.in(0.9, 1.2)});
  }
}

Driven driven(unsigned seed) {
  Dice dice(seed);
  Driven all;
  const double litres = std::exp(dice.in(std::log(5.0), std::log(200.0)));
  all.charge.spirit =
      spirit::lot(Volume::litres(litres), VolumeStrength::percent(dice.in(3.0, 45.0)));
  all.charge.extract = Mass::kilograms(dice.one_in(2) ? 0.0 : dice.in(0.0, 0.04) * litres);
  all.charge.temperature = Temperature::celsius(dice.in(5.0, 60.0));
  all.charge.congeners = usual_amounts(spirit::pure_alcohol(all.charge.spirit));
  const Power power = Power::watts(80.0 * litres * dice.in(0.5, 2.0));
  all.setting.head = head(dice, power);
  const Temperature room = Temperature::celsius(dice.in(5.0, 30.0));
  all.setting.heating = {power, Share::fraction(dice.in(0.7, 1.0)),
                         HeatLoss::watts_per_kelvin(power.watts() * dice.in(0.0, 0.002)), room};
  if (dice.one_in(2)) all.setting.to_the_boil = power * dice.in(1.0, 2.0);
  all.setting.wall = HeatCapacity::joules_per_kelvin(dice.in(0.0, 200.0) * litres);
  if (dice.one_in(2)) {
    all.setting.hold_up = {Volume::litres(dice.in(0.0, 0.005) * litres),
                           Volume::litres(dice.in(0.0, 0.005) * litres)};
  }
  steps(dice, all, power);
  switch (dice.whole(0, 3)) {
    case 0:
      all.stop.spout_strength = VolumeStrength::percent(dice.in(0.5, 15.0));
      break;
    case 1:
      all.stop.collected = Volume::litres(dice.in(0.02, 0.4) * litres);
      break;
    case 2:
      all.stop.least_in_pot = Volume::litres(dice.in(0.3, 0.9) * litres);
      break;
    default:
      all.stop.after = Duration::hours(dice.in(4.0, 20.0));
  }
  // None goes on into water for hours.
  if (!all.stop.spout_strength) all.stop.spout_strength = VolumeStrength::percent(0.2);
  return all;
}

const Air& air(unsigned seed) {
  static const Air airs[] = {Air(101.325), Air(70.0), Air(106.0)};
  return airs[seed % 3];
}

struct Worst {
  double water = 0.0, ethanol = 0.0, congener = 0.0, heat = 0.0;
};

void hold(double& worst, double off) { worst = std::fmax(worst, std::abs(off)); }

// Heat of liquid, metal and extract in the boiling pot, J. By the table that the run was given;
// how true that is to the enthalpies is tested with it.
double pot_J(const Driven& d, double n_mol, MoleFraction x, const vapour::BoilingCurve& curve) {
  const vapour::Boiling boiling = curve.at(x);
  return n_mol * boiling.liquid_enthalpy.joules_per_mole() +
         (d.setting.wall.joules_per_kelvin() +
          d.charge.extract.kilograms() * extract_kJ_per_kg_K * 1e3) *
             boiling.temperature.celsius();
}

spirit::Lot in_pot(const Point& point) {
  const double n = point.in_pot.moles(), x = point.pot_ethanol.fraction();
  return lot({vapour::AmountOfSubstance::moles(n * x),
              vapour::AmountOfSubstance::moles(n * (1.0 - x))});
}

void balance(const Driven& d, const Run& run, const Air& air, Worst& worst) {
  const spirit::Lot& charged = run.charge.spirit;
  const Point& end = run.last();
  const spirit::Lot parts = end.distillate + end.held + in_pot(end);
  hold(worst.water, (parts.water - charged.water) / charged.mass());
  hold(worst.ethanol, parts.ethanol / charged.ethanol - 1.0);
  // Nothing runs backwards from the spout, and what came, is held and is left is what was
  // there.
  CongenerAmounts before = run.congeners_collected(0);
  for (std::size_t p = 0; p < run.points.size(); ++p) {
    const CongenerAmounts came = run.congeners_collected(p);
    for (std::size_t i = 0; i < vapour::congener_count; ++i) {
      const double all = run.charge.congeners->grams[i];
      hold(worst.congener,
           (came.grams[i] + run.congeners_in_pot[p].grams[i] + run.congeners_held[p].grams[i]) /
                   all -
               1.0);
      EXPECT_GE(came.grams[i] - before.grams[i], -1e-12 * all) << p;
    }
    before = came;
  }
  // Since the boil: what went into the pot is what it has more, what the head took and what the
  // vapour carried away. The run integrates these apart; here enthalpies are asked again.
  const Moles first = moles(charged);
  const double start_J = pot_J(d, first.total().moles(), first.fraction(), air.curve);
  const double end_J = pot_J(d, end.in_pot.moles(), end.pot_ethanol, air.curve);
  const double out_J = end.head_heat.joules() + end.carried.joules();
  // Over all the heat that moved: pot and vapour both count from 0 °C.
  hold(worst.heat, (end.into_pot.joules() - (end_J - start_J) - out_J) / (start_J + out_J));
}

TEST(StillBalance, WaterEthanolCongenersAndHeatCloseOverRandomRuns) {
  Worst worst;
  int done = 0, refused = 0;
  std::array<int, 6> endings{};
  for (unsigned seed = 1; done < runs; ++seed) {
    SCOPED_TRACE(seed);
    ASSERT_LT(seed, 4U * runs);
    const Driven d = driven(seed);
    try {
      const still::Run run =
          distil(d.charge, d.setting, air(seed).curve, d.stop, &air(seed).traces);
      balance(d, run, air(seed), worst);
      ++endings[static_cast<std::size_t>(run.ending)];
      ++done;
    } catch (const base::InputError&) {
      ++refused;  // a head that takes all the heat, a stop before the first drop
    }
  }
  EXPECT_LT(worst.water, 1e-8);
  EXPECT_LT(worst.ethanol, 1e-8);
  EXPECT_LT(worst.congener, 1e-8);
  EXPECT_LT(worst.heat, 1e-8);
  for (const Ending ending :
       {Ending::spout_strength, Ending::collected, Ending::least_in_pot, Ending::time}) {
    EXPECT_GT(endings[static_cast<std::size_t>(ending)], runs / 50) << words(ending);
  }
  std::cout << "  " << done << " runs (" << refused << " more refused), worst: water "
            << worst.water << ", ethanol " << worst.ethanol << ", a congener " << worst.congener
            << ", heat " << worst.heat << " of the whole\n";
}

TEST(StillBalance, WhatIsShownDoesNotHangOnTheIntegratorsTolerance) {
  double volume = 0.0, strength_percent = 0.0, time = 0.0, drawn = 0.0, congener = 0.0;
  int done = 0;
  for (unsigned seed = 100001; done < compared; ++seed) {
    SCOPED_TRACE(seed);
    Driven d = driven(seed);
    try {
      const Air& here = air(seed);
      d.setting.tolerance = 1e-9;
      const still::Run usual = distil(d.charge, d.setting, here.curve, d.stop, &here.traces);
      d.setting.tolerance = 1e-12;
      const still::Run fine = distil(d.charge, d.setting, here.curve, d.stop, &here.traces);
      ASSERT_EQ(usual.ending, fine.ending);
      const Point &a = usual.last(), &b = fine.last();
      hold(volume, a.collected / b.collected - 1.0);
      hold(strength_percent, (a.cumulative - b.cumulative).percent());
      hold(strength_percent, (a.spout - b.spout).percent());
      hold(strength_percent, (a.pot - b.pot).percent());
      hold(time, a.since_start / b.since_start - 1.0);
      hold(drawn, a.drawn / b.drawn - 1.0);
      const CongenerAmounts in_a = usual.congeners_collected(usual.points.size() - 1);
      const CongenerAmounts in_b = fine.congeners_collected(fine.points.size() - 1);
      for (std::size_t i = 0; i < vapour::congener_count; ++i) {
        hold(congener, (in_a.grams[i] - in_b.grams[i]) / d.charge.congeners->grams[i]);
      }
      ++done;
    } catch (const base::InputError&) {
    }
  }
  // Shown are four digits of a volume, 0.1 %vol, whole minutes, three digits of a congener.
  EXPECT_LT(volume, 1e-5);
  EXPECT_LT(strength_percent, 1e-3);
  EXPECT_LT(time, 1e-5);
  EXPECT_LT(drawn, 1e-5);
  EXPECT_LT(congener, 1e-4);
  std::cout << "  1e-9 against 1e-12: volume " << volume << ", strengths " << strength_percent
            << " %vol, time " << time << ", energy " << drawn << ", a congener " << congener
            << " of its charge\n";
}

}  // namespace
}  // namespace lynearm::still
