// What a maker waits for beside the still: a reading taken in by a thousand possible stills,
// and the fresh bands and decisions after it, on two threads.
//
//   update             a reading that only weighs them
//   update_with_bands  the same and the forecast
//   move_with_bands    all run anew under another fire, once, and the forecast
//   reconsider_with_bands
//                      a second reading of a still that heats a quarter faster than its kit
//                      says: the belief is made wider, all are drawn and run anew, several
//                      times over, and the forecast
//   one_by_one         a thousand runs on one thread, for the ratio
//
// The column of CPU time is that of both threads together.
#include <benchmark/benchmark.h>

#include <thread>
#include <vector>

#include "still/follow.hpp"
#include "still/runs.hpp"
#include "still/sight.hpp"

namespace lynearm {
namespace {

using still::Follower;
using still::Reading;

numeric::Executor on_two_threads() {
  return [](std::size_t count, const std::function<void(std::size_t)>& task) {
    std::thread other([&] {
      for (std::size_t i = 1; i < count; i += 2) task(i);
    });
    for (std::size_t i = 0; i < count; i += 2) task(i);
    other.join();
  };
}

still::StillPrior prior() {
  still::StillPrior prior;
  prior.charge = still::charge_of(20.0, 27.0);
  still::RunSetting& setting = prior.setting;
  setting.head.loss = units::HeatLoss::watts_per_kelvin(3.5);
  setting.head.wall = units::HeatCapacity::kilojoules_per_kelvin(1.5);
  setting.heating = {units::Power::watts(1500.0), units::Share::percent(94.0),
                     units::HeatLoss::watts_per_kelvin(3.0), units::Temperature::celsius(20.0)};
  setting.to_the_boil = units::Power::watts(2400.0);
  setting.wall = units::HeatCapacity::kilojoules_per_kelvin(4.0);
  setting.hold_up = {units::Volume::millilitres(60.0), units::Volume::millilitres(150.0)};
  return prior;
}

// A run whose heating has so many times the efficiency that is believed.
still::Run run_of(double efficiency) {
  still::Stop stop;
  stop.spout_strength = units::VolumeStrength::percent(10.0);
  still::StillPrior is = prior();
  is.setting.heating.efficiency = is.setting.heating.efficiency * efficiency;
  return distil(is.charge, is.setting, still::at_one_atmosphere(), stop);
}

Reading reading_of(const still::Run& run, double minutes) {
  const still::Sight seen = sight(run, units::Duration::minutes(minutes));
  Reading reading;
  reading.at = units::Duration::minutes(minutes);
  reading.pot_temperature = seen.pot;
  reading.head_temperature = seen.head;
  reading.spout = spirit::Reading{seen.spout->percent(), spirit::Scale::percent_vol};
  reading.spout_temperature = units::Temperature::celsius(20.0);
  reading.collected = seen.collected;
  return reading;
}

Reading reading_at(double minutes) {
  static const still::Run run = run_of(1.0);
  return reading_of(run, minutes);
}

Follower a_thousand() {
  still::CutRules rules;
  rules.heads_end = units::Volume::millilitres(300.0);
  rules.hearts_end = units::VolumeStrength::percent(60.0);
  rules.stop = units::VolumeStrength::percent(20.0);
  return Follower(prior(), rules, still::at_one_atmosphere(), 1, 1000, on_two_threads());
}

const Follower& followed() {
  static const Follower follower = [] {
    Follower made = a_thousand();
    for (const double minutes : {60.0, 68.0, 76.0, 84.0, 92.0, 100.0}) {
      made.take(reading_at(minutes), on_two_threads());
    }
    return made;
  }();
  return follower;
}

void take(benchmark::State& state, double minutes, bool power, bool forecast) {
  const numeric::Executor executor = on_two_threads();
  Reading reading = reading_at(minutes);
  if (power) reading.power = units::Power::watts(1300.0);
  double moved = 0.0;
  for (auto _ : state) {
    state.PauseTiming();
    Follower follower = followed();
    state.ResumeTiming();
    moved += follower.take(reading, executor).moved ? 1.0 : 0.0;
    if (forecast) benchmark::DoNotOptimize(follower.forecast(executor));
  }
  state.counters["moved"] = moved / static_cast<double>(state.iterations());
}

void update(benchmark::State& state) { take(state, 104.0, false, false); }
void update_with_bands(benchmark::State& state) { take(state, 104.0, false, true); }
void move_with_bands(benchmark::State& state) { take(state, 104.0, true, true); }

void reconsider_with_bands(benchmark::State& state) {
  const numeric::Executor executor = on_two_threads();
  const still::Run run = run_of(1.25);
  const double first = run.points.front().since_start.minutes() + 4.0;
  const auto of_spout = [&run](double minutes) {
    Reading reading = reading_of(run, minutes);
    reading.pot_temperature.reset();
    reading.head_temperature.reset();
    return reading;
  };
  Follower before = a_thousand();
  before.take(of_spout(first), executor);
  const Reading second = of_spout(first + 8.0);
  double believed = 0.0;
  for (auto _ : state) {
    state.PauseTiming();
    Follower follower = before;
    state.ResumeTiming();
    const bool wider = follower.take(second, executor).earlier.empty();
    if (wider) believed += 1.0;
    benchmark::DoNotOptimize(follower.forecast(executor));
  }
  // That what was doubted at first is believed tells that the belief was made wider.
  state.counters["believed"] = believed / static_cast<double>(state.iterations());
}

void one_by_one(benchmark::State& state) {
  const still::StillPrior is = prior();
  still::RunSetting setting = is.setting;
  setting.tolerance = 1e-6;
  still::Stop stop;
  stop.spout_strength = units::VolumeStrength::percent(4.0);
  for (auto _ : state) {
    for (int k = 0; k < 1000; ++k) {
      benchmark::DoNotOptimize(distil(is.charge, setting, still::at_one_atmosphere(), stop));
    }
  }
}

BENCHMARK(update)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();
BENCHMARK(update_with_bands)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(move_with_bands)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(reconsider_with_bands)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(one_by_one)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

}  // namespace
}  // namespace lynearm
