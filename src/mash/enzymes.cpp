#include "mash/enzymes.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace lynearm::mash {
namespace {

constexpr double gas_J_per_mol_K = 8.314;

double arrhenius(double prefactor_per_s, double energy_J_per_mol, double t_C) {
  return prefactor_per_s * std::exp(-energy_J_per_mol / gas_J_per_mol_K / (t_C + 273.15));
}

}  // namespace

double swelling_per_s(double t_C, double middle_C) {
  const double as_barley_C = t_C - (middle_C - barley_middle_C);
  return as_barley_C < 60.0 ? arrhenius(5.7e31, 220.6e3, as_barley_C)
                            : arrhenius(3.1e14, 108.3e3, as_barley_C);
}

double reached(double t_C, double onset_C) {
  const double x = std::clamp((t_C - onset_C + 5.0) / 5.0, 0.0, 1.0);
  return x * x * (3.0 - 2.0 * x);
}

double alpha_activity(double t_C) {
  struct Point {
    double t_C, activity;
  };
  static constexpr std::array<Point, 17> points{{{35.0, 0.0},
                                                 {45.0, 0.25},
                                                 {50.0, 0.48},
                                                 {55.0, 0.78},
                                                 {58.0, 0.93},
                                                 {60.0, 0.99},
                                                 {62.0, 1.0},
                                                 {63.0, 0.98},
                                                 {64.0, 0.95},
                                                 {65.0, 0.90},
                                                 {66.0, 0.83},
                                                 {67.0, 0.75},
                                                 {68.0, 0.65},
                                                 {69.0, 0.54},
                                                 {70.0, 0.42},
                                                 {72.0, 0.18},
                                                 {74.0, 0.0}}};
  if (t_C <= points.front().t_C || t_C >= points.back().t_C) return 0.0;
  std::size_t i = 1;
  while (t_C > points[i].t_C) ++i;
  const Point& a = points[i - 1];
  const Point& b = points[i];
  return a.activity + (t_C - a.t_C) / (b.t_C - a.t_C) * (b.activity - a.activity);
}

double beta_activity(double t_C) {
  // The paper's two lines meet at 62.9 °C; the lesser of them is taken, which is the same to
  // 2 % as parting at 63 °C and has no step.
  const double t_K = t_C + 273.15;
  const double rising = (0.0475551 * t_K - 13.4030) / 2.54;
  const double falling = (128.755 - 0.375479 * t_K) / 2.54;
  return std::max(0.0, std::min(rising, falling));
}

double alpha_loss_per_s(double t_C) { return arrhenius(6.9e30, 224.2e3, t_C); }
double beta_loss_per_s(double t_C) { return arrhenius(7.6e60, 410.7e3, t_C); }

}  // namespace lynearm::mash
