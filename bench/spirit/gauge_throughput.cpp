// The compiled side of against_scipy.py: pairs of a reading (%vol) and a temperature (°C) from
// standard input; out come the readings corrected in a second and each mass fraction, which the
// script holds against its own.
#include <fmt/format.h>

#include <chrono>
#include <cstdio>
#include <iostream>
#include <vector>

#include "spirit/hydrometer_kernel.hpp"

int main() {
  using lynearm::spirit::HydrometerKernel;
  struct Point {
    double reading, t_C;
  };
  std::vector<Point> points;
  for (Point point{}; std::cin >> point.reading >> point.t_C;) points.push_back(point);
  if (points.empty()) return 1;
  const HydrometerKernel kernel(lynearm::spirit::Scale::percent_vol);
  std::vector<double> found(points.size());
  std::size_t done = 0;
  const auto begun = std::chrono::steady_clock::now();
  double seconds = 0.0;
  while (seconds < 2.0) {
    for (std::size_t i = 0; i < points.size(); ++i) {
      found[i] = kernel.mass_fraction(points[i].reading, points[i].t_C).mass_fraction;
    }
    done += points.size();
    seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
  }
  fmt::print("{:.0f}\n", static_cast<double>(done) / seconds);
  for (const double p : found) fmt::print("{:.17g}\n", p);
  return 0;
}
