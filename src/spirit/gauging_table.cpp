#include "spirit/gauging_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"

namespace lynearm::spirit {
namespace {

constexpr int most_decimals = 6;

// Decimals that `figure` needs, up to six.
int decimals_needed(double figure) {
  double scale = 1.0;
  for (int decimals = 0; decimals < most_decimals; ++decimals) {
    const double scaled = figure * scale;
    if (std::abs(scaled - std::round(scaled)) < 1e-7 * scale) return decimals;
    scale *= 10.0;
  }
  return most_decimals;
}

}  // namespace

units::Temperature temperature(double figure, Degree degree) {
  return degree == Degree::celsius ? units::Temperature::celsius(figure)
                                   : units::Temperature::fahrenheit(figure);
}

bool GaugingTable::has(Cell reason) const {
  return std::find(cells.begin(), cells.end(), reason) != cells.end();
}

std::string unit_of(Scale scale) {
  const std::string printed = print(Reading{0.0, scale});
  return printed.substr(printed.find(' ') + 1);
}

int decimals_of(Scale scale) {
  return scale == Scale::specific_gravity || scale == Scale::specific_gravity_60F ? 4 : 1;
}

int decimals_of(const std::vector<double>& figures) {
  int most = 0;
  for (const double figure : figures) most = std::max(most, decimals_needed(figure));
  return most;
}

std::vector<double> heads(double from, double to, double step) {
  if (!(step > 0.0 && std::isfinite(step))) {
    throw base::InputError("step", fmt::format("{}", step), "a step above zero");
  }
  if (!(to >= from && std::isfinite(to) && std::isfinite(from))) {
    throw base::InputError("to", fmt::format("{}", to), fmt::format("{} or more", from));
  }
  // A range that is whole steps long may miss its end by rounding.
  constexpr double rounding = 1e-6;
  const double steps = std::floor((to - from) / step + rounding);
  if (!(steps < static_cast<double>(most_cells))) {
    throw base::InputError("step", fmt::format("{}", step),
                           fmt::format("a step that makes at most {} of them", most_cells));
  }
  const double scale = std::pow(10.0, std::max(decimals_needed(from), decimals_needed(step)));
  std::vector<double> figures;
  figures.reserve(static_cast<std::size_t>(steps) + 1);
  for (double i = 0.0; i <= steps; i += 1.0) {
    figures.push_back(std::round((from + i * step) * scale) / scale);
  }
  return figures;
}

}  // namespace lynearm::spirit
