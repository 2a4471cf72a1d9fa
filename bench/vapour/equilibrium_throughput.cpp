// The compiled side of against_scipy.py: pairs of a liquid (mole fraction) and a pressure (kPa)
// from standard input; out come the boiling points found in a second, the boiling curves made
// in a second, and each temperature and vapour, which the script holds against its own.
#include <fmt/format.h>

#include <chrono>
#include <cstdio>
#include <iostream>
#include <vector>

#include "vapour/boiling_curve.hpp"
#include "vapour/equilibrium.hpp"

namespace {

// How often a second `once` runs, `each` results at a time.
template <class Once>
double rate(double seconds_to_run, std::size_t each, Once once) {
  std::size_t done = 0;
  const auto begun = std::chrono::steady_clock::now();
  double seconds = 0.0;
  while (seconds < seconds_to_run) {
    once();
    done += each;
    seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
  }
  return static_cast<double>(done) / seconds;
}

}  // namespace

int main() {
  using namespace lynearm;
  struct Point {
    units::MoleFraction liquid;
    units::Pressure pressure;
  };
  std::vector<Point> points;
  for (double x = 0.0, kPa = 0.0; std::cin >> x >> kPa;) {
    points.push_back({units::MoleFraction::fraction(x), units::Pressure::kilopascals(kPa)});
  }
  if (points.empty()) return 1;
  std::vector<vapour::BubblePoint> found(points.size());
  const double boils = rate(2.0, points.size(), [&] {
    for (std::size_t i = 0; i < points.size(); ++i) {
      found[i] = vapour::bubble_point(points[i].liquid, points[i].pressure);
    }
  });
  double kept = 0.0;
  std::size_t next = 0;
  const double curves = rate(0.5, 1, [&] {
    const vapour::BoilingCurve curve(points[next++ % points.size()].pressure);
    kept += curve.azeotrope().fraction();
  });
  if (!(kept > 0.0)) return 1;
  fmt::print("{:.0f}\n{:.0f}\n", boils, curves);
  for (const vapour::BubblePoint& boil : found) {
    fmt::print("{:.17g} {:.17g}\n", boil.temperature.kelvins(), boil.vapour.fraction());
  }
  return 0;
}
