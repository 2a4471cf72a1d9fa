// Invented figures to draw with, shared by the tests of this room.
#pragma once

#include <cmath>
#include <vector>

#include "sheet/chart.hpp"
#include "sheet/stream.hpp"

namespace lynearm::sheet {

inline Chart spirit_run() {
  Chart chart;
  chart.description = "Strength and temperature over a spirit run";
  chart.x = {"From the first drop", "min", 0.0, {}};
  chart.left = {"Strength", "%vol", {}, {}};
  chart.right = Axis{"Temperature in the head", "°C", {}, {}};
  Series strength{.label = "strength of the spirit", .points = {}};
  Series pot{.label = "in the jar", .points = {}, .stroke = Stroke::dash};
  Series head{.label = "head", .points = {}, .stroke = Stroke::dot, .on_right_axis = true};
  for (int i = 0; i <= 60; ++i) {
    const double t = 3.0 * i;
    const double s = 80.0 - 42.0 * std::pow(t / 180.0, 2.2);
    strength.points.push_back({t, s});
    strength.band.push_back({t, s - 1.0 - t / 60.0, s + 1.0 + t / 80.0});
    pot.points.push_back({t, 80.0 - 14.0 * std::pow(t / 180.0, 1.8)});
    head.points.push_back({t, 79.2 + 15.0 * std::pow(t / 180.0, 2.0)});
  }
  chart.series = {strength, pot, head};
  chart.ranges = {
      {0, 4, "foreshots"}, {4, 22, "heads"}, {22, 128, "hearts"}, {128, 180, "tails"}};
  chart.borders = {{22, "hearts 79.6 %vol"}, {128, "tails 60 %vol"}};
  return chart;
}

inline Chart mash() {
  Chart chart;
  chart.description = "Temperature and extract in the mash";
  chart.x = {"Time of day", "h", {}, {}};
  chart.left = {"Mash", "°C", 40.0, {}};
  chart.plot_mm = 48.0;
  chart.series = {
      {.label = "mash",
       .points = {{9, 88}, {9.7, 85}, {10.5, 68.5}, {12, 65.0}, {12.5, 64.5}, {13.2, 30}}}};
  chart.ranges = {{9, 10, "maize boils"},
                  {10, 10.5, "cooling to the malt"},
                  {10.5, 12, "conversion"},
                  {12, 12.4, "draining"},
                  {12.4, 13.2, "cooling"}};
  return chart;
}

inline Flow flow(const char* stage, const char* name, double litres, Course course) {
  return {stage, name, units::Volume::litres(litres), course};
}

inline std::vector<Flow> stream_of_a_batch() {
  return {
      flow("Mash", "starch of the grain", 4.62, Course::in),
      flow("Mash", "sugar", 0.80, Course::in),
      flow("Mash", "not converted", 0.34, Course::lost),
      flow("Mash", "held by the grain", 0.41, Course::lost),
      flow("Ferment", "not fermented", 0.22, Course::lost),
      flow("Ferment", "grown into yeast", 0.16, Course::lost),
      flow("Ferment", "with the gas", 0.02, Course::lost),
      flow("Ferment", "left with the lees", 0.21, Course::lost),
      flow("Strip", "left in the pot", 0.13, Course::lost),
      flow("Strip", "past the condenser", 0.01, Course::lost),
      flow("Spirit run", "feints of the last batch", 0.72, Course::in),
      flow("Spirit run", "foreshots", 0.05, Course::lost),
      flow("Spirit run", "feints kept for the next batch", 1.13, Course::kept),
      flow("Spirit run", "left in the pot", 0.09, Course::lost),
      flow("Wood", "evaporated", 0.18, Course::lost),
      flow("Wood", "soaked into the staves", 0.08, Course::lost),
      flow("Wood", "samples", 0.015, Course::kept),
      flow("Bottle", "filter and pump", 0.02, Course::lost),
      flow("Bottle", "7 bottles of 0.7 L", 2.70, Course::out),
      flow("Bottle", "remainder", 0.31, Course::out),
  };
}

}  // namespace lynearm::sheet
