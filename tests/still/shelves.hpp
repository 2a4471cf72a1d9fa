// Shelves of jars for the tests of cut planning: one from a run computed here by small steps,
// and random ones.
#pragma once

#include <rapidcheck.h>

#include <string>
#include <vector>

#include "still/estimated_loads.hpp"
#include "still/jar.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::still {

struct SteppedRun {
  std::vector<Jar> jars;  // without loads
  double alcohol_left = 0.0;
};

/// Rayleigh's differential distillation of a plain pot in steps of a fifth of a mole, caught in
/// a first jar of 100 mL and then in jars of `each_L`, until the spout runs at `stop_percent`.
inline SteppedRun stepped_run(double charge_L, double charge_percent, double each_L,
                              double stop_percent) {
  constexpr double ethanol_g = 46.06844;
  constexpr double water_g = 18.01528;
  const spirit::Lot charge = spirit::lot(units::Volume::litres(charge_L),
                                         units::VolumeStrength::percent(charge_percent));
  double ethanol = charge.ethanol.grams() / ethanol_g;
  double water = charge.water.grams() / water_g;
  const double before = ethanol;
  SteppedRun run;
  double in_ethanol = 0.0;
  double in_water = 0.0;
  const auto lot = [&] {
    return spirit::Lot{units::Mass::grams(in_ethanol * ethanol_g),
                       units::Mass::grams(in_water * water_g)};
  };
  const auto close = [&] {
    run.jars.push_back(
        {std::to_string(run.jars.size() + 1), spirit::volume(lot()), spirit::strength(lot())});
    in_ethanol = in_water = 0.0;
  };
  double spout_percent = 100.0;
  while (spout_percent > stop_percent) {
    const auto x = units::MoleFraction::fraction(ethanol / (ethanol + water));
    const double y =
        vapour::bubble_point(x, units::Pressure::atmospheres(1.0)).vapour.fraction();
    const double step = 0.2;
    in_ethanol += step * y;
    in_water += step * (1.0 - y);
    ethanol -= step * y;
    water -= step * (1.0 - y);
    const double mass_share = y * ethanol_g / (y * ethanol_g + (1.0 - y) * water_g);
    spout_percent =
        spirit::strength({units::Mass::grams(mass_share), units::Mass::grams(1.0 - mass_share)})
            .percent();
    const double size_L = run.jars.empty() ? 0.1 : each_L;
    if (spirit::volume(lot()).litres() >= size_L) close();
  }
  if (in_ethanol > 0.0) close();
  run.alcohol_left = ethanol / before;
  return run;
}

/// A spirit run of a 20 L still, with estimated loads.
inline std::vector<Jar> usual_jars() {
  return fill_loads(stepped_run(20.0, 28.0, 0.5, 10.0).jars).jars;
}

/// A figure from `low` to `high` in a thousand steps.
inline double any_figure(double low, double high) {
  return low + (high - low) * (*rc::gen::inRange(0, 1001) / 1e3);
}

inline Load any_load(double most_g) {
  const double g = any_figure(0.0, most_g);
  return {units::Mass::grams(g), units::Mass::grams(0.6 * g), units::Mass::grams(1.5 * g)};
}

/// Jars of every kind of load, in no order; the first is the foreshots.
inline std::vector<Jar> any_jars(int least, int most) {
  std::vector<Jar> jars;
  const int count = *rc::gen::inRange(least, most + 1);
  for (int i = 0; i < count; ++i) {
    Jar jar;
    jar.label = std::to_string(i + 1);
    jar.volume = units::Volume::litres(any_figure(0.1, 2.0));
    jar.strength = units::VolumeStrength::percent(any_figure(15.0, 85.0));
    jar.early = any_load(2.0);
    jar.middle = any_load(4.0);
    jar.late = any_load(1.0);
    jar.fault = *rc::gen::inRange(0, 4) == 0 ? any_figure(0.0, 6.0) : 0.0;
    jar.use = i == 0 ? Use::foreshots : Use::open;
    jars.push_back(jar);
  }
  return jars;
}

}  // namespace lynearm::still
