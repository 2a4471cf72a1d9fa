#include "still/jars_of_run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "numeric/normal.hpp"
#include "still/congeners_of_run.hpp"
#include "still/cuts.hpp"

namespace lynearm::still {
namespace {

// What came of a congener between two moments, from the share still under way at each: as the
// run has it, and with its volatility at either end of its band.
Load load(double total_g, double left_before, double left_after, double spread,
          double amount_factor) {
  const auto came = [&](double power) {
    return std::max(0.0, std::pow(left_before, power) - std::pow(left_after, power));
  };
  const double f = std::pow(spread, numeric::half_of_80);
  const double usual = came(1.0);
  const auto [least, most] = std::minmax({usual, came(f), came(1.0 / f)});
  Load result;
  result.mass = units::Mass::grams(total_g * usual);
  if (usual <= 0.0) {
    result.low = result.mass;
    result.high = units::Mass::grams(total_g * most * amount_factor);
    return result;
  }
  // Independent causes: their logarithms add as squares.
  const double amount = std::log(amount_factor);
  const double up = std::hypot(std::log(most / usual), amount);
  result.high = result.mass * std::exp(up);
  result.low = least > 0.0
                   ? result.mass * std::exp(-std::hypot(std::log(usual / least), amount))
                   : units::Mass{};
  return result;
}

}  // namespace

std::vector<Jar> jars_of(const Run& run, units::Volume each, double amount_factor) {
  if (!(amount_factor >= 1.0 && std::isfinite(amount_factor))) {
    throw base::InputError("amount_factor", fmt::format("{:.3g}", amount_factor), "1 or more");
  }
  const double litres = run.last().collected.litres();
  if (!(each.litres() > 0.0 && litres / each.litres() <= static_cast<double>(most_jars))) {
    throw base::InputError("jar", fmt::format("{:.4g} L", each.litres()),
                           fmt::format("a volume that fills at most {} jars: {:.3g} L or more",
                                       most_jars, litres / static_cast<double>(most_jars)));
  }
  std::vector<Jar> jars;
  CongenerAmounts before = congeners_to(run, run.first().collected);
  for (const Fraction& fraction : into_jars(run, each)) {
    const CongenerAmounts after = congeners_to(run, fraction.to.collected);
    Jar jar;
    jar.label = fmt::format("{}", jars.size() + 1);
    jar.volume = fraction.volume;
    jar.strength = fraction.strength;
    jar.early = jar.middle = jar.late = Load{};
    for (std::size_t c = 0; c < after.grams.size(); ++c) {
      const double total = run.charge.congeners->grams[c];
      if (!(total > 0.0)) continue;
      const auto left = [&](double came_g) {
        return std::clamp(1.0 - came_g / total, 0.0, 1.0);
      };
      const Load one = load(total, left(before.grams[c]), left(after.grams[c]),
                            vapour::congeners()[c].spread.value, amount_factor);
      if (in_group(c, vapour::Comes::early)) jar.early = *jar.early + one;
      if (in_group(c, vapour::Comes::middle)) jar.middle = *jar.middle + one;
      if (in_group(c, vapour::Comes::late)) jar.late = *jar.late + one;
    }
    before = after;
    jars.push_back(std::move(jar));
  }
  return jars;
}

}  // namespace lynearm::still
