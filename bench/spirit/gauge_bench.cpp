// Gauging a shelf of jars: many densities at one temperature, each turned into a mass fraction.
// Way one asks mass_fraction_at() for each; way two folds the formula once with DensityAt. Both
// are timed in one run and only their ratio counts: times differ between machines.
#include <benchmark/benchmark.h>

#include <chrono>
#include <cstddef>
#include <vector>

#include "spirit/density.hpp"
#include "spirit/density_kernel.hpp"
#include "units/quantity.hpp"

namespace {

using lynearm::units::Density;
using lynearm::units::MassFraction;
using lynearm::units::Temperature;

constexpr double t_C = 17.5;

std::vector<double> shelf(std::size_t jars) {
  std::vector<double> density_kgm3;
  for (std::size_t i = 0; i < jars; ++i) {
    const double p = 0.05 + 0.9 * static_cast<double>(i) / static_cast<double>(jars);
    density_kgm3.push_back(
        lynearm::spirit::density(MassFraction::fraction(p), Temperature::celsius(t_C))
            .kilograms_per_cubic_metre());
  }
  return density_kgm3;
}

template <class Work>
double seconds(const Work& work) {
  const auto begun = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
}

void one_by_one_over_folded(benchmark::State& state) {
  const std::vector<double> jars = shelf(static_cast<std::size_t>(state.range(0)));
  double one_by_one = 0.0;
  double folded = 0.0;
  for ([[maybe_unused]] auto pass : state) {
    one_by_one += seconds([&] {
      for (const double rho : jars) {
        benchmark::DoNotOptimize(lynearm::spirit::mass_fraction_at(
            Density::kilograms_per_cubic_metre(rho), Temperature::celsius(t_C)));
      }
    });
    folded += seconds([&] {
      const lynearm::spirit::DensityAt at(t_C);
      double guess = 0.5;
      for (const double rho : jars) {
        benchmark::DoNotOptimize(guess = at.mass_fraction(rho, guess));
      }
    });
  }
  state.counters["one_by_one_over_folded"] = one_by_one / folded;
}
BENCHMARK(one_by_one_over_folded)->Arg(1)->Arg(14)->Arg(1000);

}  // namespace
