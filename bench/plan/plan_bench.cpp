// Where a maker waits: a whole plan, and an ensemble of 500. One gauge correction is timed in
// the same run, so that a slow machine shows as a slow gauge too. Limits: docs/speed.md.
#include <benchmark/benchmark.h>

#include "numeric/ensemble.hpp"
#include "plan/figures.hpp"
#include "plan/plan.hpp"
#include "plan/tern.hpp"
#include "spirit/hydrometer.hpp"

namespace lynearm::plan {
namespace {

void gauge_correction(benchmark::State& state) {
  double reading = 20.0;
  for (auto _ : state) {
    reading = reading < 90.0 ? reading + 0.01 : 20.0;
    benchmark::DoNotOptimize(spirit::true_mass_fraction(spirit::Reading{reading},
                                                        units::Temperature::celsius(27.5)));
  }
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(gauge_correction);

void whole_plan(benchmark::State& state) {
  const Recipe recipe = tern::recipe_8();
  const Kit kit = tern::kit_8();
  for (auto _ : state) benchmark::DoNotOptimize(make(recipe, kit));
}
BENCHMARK(whole_plan)->Unit(benchmark::kMillisecond);

void ensemble_of_500(benchmark::State& state) {
  const Recipe recipe = tern::recipe_8();
  const Kit kit = tern::kit_8();
  const Plan plan = make(recipe, kit);
  for (auto _ : state) {
    benchmark::DoNotOptimize(bands(recipe, kit, plan, 500, 1, numeric::one_after_another()));
  }
}
BENCHMARK(ensemble_of_500)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace lynearm::plan
