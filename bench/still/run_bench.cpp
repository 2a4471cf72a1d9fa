// Where a maker waits at the still: one spirit run to its end, bare, with all congeners, with
// plates, and with everything that `lynearm spirit` shows of it. The bare run is timed in the
// same program, so that a slow machine shows as a slow bare run too. Limits: docs/speed.md.
#include <benchmark/benchmark.h>

#include "spirit/lot.hpp"
#include "still/told_run.hpp"
#include "vapour/boiling_curve.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::still {
namespace {

const vapour::BoilingCurve& curve() {
  static const vapour::BoilingCurve at_sea(units::Pressure::atmospheres(1.0));
  return at_sea;
}
const vapour::CongenerCurve& volatility() {
  static const vapour::CongenerCurve at_sea(curve());
  return at_sea;
}

Charge charge(bool congeners) {
  Charge made;
  made.spirit = spirit::lot(units::Volume::litres(14.0), units::VolumeStrength::percent(28.0));
  if (congeners) made.congeners = usual_amounts(spirit::pure_alcohol(made.spirit));
  return made;
}

// A small pot with a head that loses heat, coil and parrot.
RunSetting setting(int plates) {
  RunSetting made;
  made.head.loss = units::HeatLoss::watts_per_kelvin(1.24);
  made.head.plates = plates;
  made.heating = {units::Power::kilowatts(1.2), units::Share::percent(98.0),
                  units::HeatLoss::watts_per_kelvin(3.7), units::Temperature::celsius(20.0)};
  made.hold_up = {units::Volume::millilitres(30.0), units::Volume::millilitres(120.0)};
  return made;
}

Stop to_the_end() {
  Stop stop;
  stop.spout_strength = units::VolumeStrength::percent(1.0);
  return stop;
}

void run_of(benchmark::State& state, bool congeners, int plates) {
  const Charge made = charge(congeners);
  const RunSetting set = setting(plates);
  for (auto _ : state) {
    benchmark::DoNotOptimize(distil(made, set, curve(), to_the_end(), &volatility()));
  }
}

void run_without_congeners(benchmark::State& state) { run_of(state, false, 0); }
void run_with_all_congeners(benchmark::State& state) { run_of(state, true, 0); }
void run_with_congeners_and_three_plates(benchmark::State& state) { run_of(state, true, 3); }
BENCHMARK(run_without_congeners)->Unit(benchmark::kMicrosecond);
BENCHMARK(run_with_all_congeners)->Unit(benchmark::kMicrosecond);
BENCHMARK(run_with_congeners_and_three_plates)->Unit(benchmark::kMicrosecond);

void run_told_whole(benchmark::State& state) {
  const Charge made = charge(true);
  const RunSetting set = setting(0);
  for (auto _ : state) {
    Run run = distil(made, set, curve(), to_the_end(), &volatility());
    const VapourFlow vapour{run.first().over_mol_per_s, run.first().leaving_ethanol};
    Asked asked;
    asked.jar = units::Volume::millilitres(250.0);
    asked.borders =
        Borders{units::Volume::millilitres(140.0), units::VolumeStrength::percent(73.0),
                units::VolumeStrength::percent(62.0)};
    asked.conductance = conductance(vapour, {}, curve());
    asked.coolant = coolant_at_approaches(vapour, {}, curve());
    benchmark::DoNotOptimize(tell(std::move(run), asked, curve()));
  }
}
BENCHMARK(run_told_whole)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace lynearm::still
