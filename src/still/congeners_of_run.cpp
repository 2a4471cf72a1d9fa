#include "still/congeners_of_run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "still/between_points.hpp"

namespace lynearm::still {
namespace {

using units::MassConcentration;

constexpr base::Source usual_source{
    "new grain spirit from pot stills, orders of magnitude recalled",
    base::Standing::from_memory};

constexpr UsualCongener usual(std::string_view id, double g_per_hL, double low, double high) {
  const auto per_hL = [](double g) { return MassConcentration::grams_per_litre(g / 100.0); };
  return {id, {per_hL(g_per_hL), per_hL(low), per_hL(high), usual_source}};
}

void require_congeners(const Run& run) {
  if (run.charge.congeners && run.congeners_in_pot.size() == run.points.size()) return;
  throw base::InputError("charge.congeners", "", "a run that was computed with congeners");
}

// The points about the interval from i to i+1 and their weights for a value at `litres`. Points
// at one volume (the spout stood still) count once.
struct WeighedPoints {
  Neighbours near;
  std::array<double, most_neighbours> of{};
};

WeighedPoints weighed_points(const Run& run, std::size_t i, double litres) {
  WeighedPoints w{neighbours(run, i)};
  Neighbours& near = w.near;
  const auto at = [&](std::size_t k) { return run.points[k].collected.litres(); };
  bool apart = true;
  for (std::size_t k = 1; k < near.count; ++k) {
    apart = apart && at(near.start + k) > at(near.start + k - 1);
  }
  // A jump of the run may part i from i+1.
  if (!apart || i < near.start || i + 1 >= near.start + near.count) near = {i, 2};
  std::array<double, most_neighbours> node{};
  for (std::size_t k = 0; k < near.count; ++k) node[k] = at(near.start + k);
  w.of = weights({node.data(), near.count}, litres);
  return w;
}

}  // namespace

const std::array<UsualCongener, vapour::congener_count>& usual_congeners() {
  static constexpr std::array<UsualCongener, vapour::congener_count> table = {
      usual("methanol", 8.0, 3.0, 15.0),
      usual("acetaldehyde", 15.0, 5.0, 40.0),
      usual("ethyl-acetate", 30.0, 15.0, 70.0),
      usual("acetal", 4.0, 1.0, 12.0),
      usual("1-propanol", 45.0, 20.0, 90.0),
      usual("isobutanol", 70.0, 35.0, 130.0),
      usual("active-amyl-alcohol", 40.0, 20.0, 80.0),
      usual("isoamyl-alcohol", 110.0, 60.0, 200.0),
      usual("2-phenylethanol", 6.0, 2.0, 15.0),
      usual("furfural", 3.0, 1.0, 6.0),
      usual("acetic-acid", 25.0, 10.0, 60.0),
      usual("ethyl-lactate", 5.0, 1.0, 20.0),
      usual("ethyl-hexanoate", 0.6, 0.3, 1.5),
      usual("ethyl-octanoate", 2.0, 1.0, 4.0),
      usual("ethyl-decanoate", 4.0, 2.0, 8.0),
      usual("dimethyl-sulphide", 0.02, 0.005, 0.1)};
  return table;
}

CongenerAmounts usual_amounts(units::Volume pure_alcohol) {
  CongenerAmounts amounts;
  for (std::size_t i = 0; i < amounts.grams.size(); ++i) {
    amounts.grams[i] =
        usual_congeners()[i].in_pure_alcohol.value.grams_per_litre() * pure_alcohol.litres();
  }
  return amounts;
}

CongenerAmounts congeners_to(const Run& run, units::Volume collected) {
  require_congeners(run);
  const double end_L = run.last().collected.litres();
  const double litres = collected.litres();
  if (!(litres >= 0.0 && litres <= end_L * (1.0 + 1e-9))) {
    throw base::InputError("collected", fmt::format("{:.4g} L", litres),
                           fmt::format("0 to the {:.4g} L of the run", end_L));
  }
  const auto after = std::upper_bound(
      run.points.begin(), run.points.end(), litres,
      [](double wanted, const Point& p) { return wanted < p.collected.litres(); });
  if (after == run.points.end()) return run.congeners_collected(run.points.size() - 1);
  if (after == run.points.begin()) return run.congeners_collected(0);
  const auto i = static_cast<std::size_t>(after - run.points.begin()) - 1;
  const CongenerAmounts from = run.congeners_collected(i);
  const CongenerAmounts to = run.congeners_collected(i + 1);
  const WeighedPoints w = weighed_points(run, i, litres);
  // What is still to come falls off nearly as an exponential: its logarithm bends little.
  const CongenerAmounts& all = *run.charge.congeners;
  std::array<bool, vapour::congener_count> by_logarithm{};
  by_logarithm.fill(true);
  CongenerAmounts sum;
  for (int pass = 0; pass < 2; ++pass) {
    for (std::size_t c = 0; c < sum.grams.size(); ++c) sum.grams[c] = 0.0;
    for (std::size_t k = 0; k < w.near.count; ++k) {
      const CongenerAmounts at = run.congeners_collected(w.near.start + k);
      for (std::size_t c = 0; c < sum.grams.size(); ++c) {
        const double to_come = all.grams[c] - at.grams[c];
        // Below this it is rounding.
        by_logarithm[c] = by_logarithm[c] && to_come > 1e-12 * all.grams[c];
        sum.grams[c] += w.of[k] * (by_logarithm[c] ? std::log(to_come) : at.grams[c]);
      }
    }
  }
  for (std::size_t c = 0; c < sum.grams.size(); ++c) {
    if (by_logarithm[c]) sum.grams[c] = all.grams[c] - std::exp(sum.grams[c]);
    const auto [least, most] = std::minmax(from.grams[c], to.grams[c]);
    sum.grams[c] = std::clamp(sum.grams[c], least, most);
  }
  return sum;
}

CongenerAmounts congeners_in(const Run& run, const Fraction& fraction) {
  CongenerAmounts amounts = congeners_to(run, fraction.to.collected);
  const CongenerAmounts before = congeners_to(run, fraction.from.collected);
  for (std::size_t c = 0; c < amounts.grams.size(); ++c) amounts.grams[c] -= before.grams[c];
  return amounts;
}

bool in_group(std::size_t congener, vapour::Comes group) {
  const vapour::Congener& one = vapour::congeners()[congener];
  return one.comes == group && one.id != "methanol";
}

Groups groups_of(const CongenerAmounts& amounts) {
  Groups groups;
  for (std::size_t c = 0; c < amounts.grams.size(); ++c) {
    if (in_group(c, vapour::Comes::early)) groups.early_g += amounts.grams[c];
    if (in_group(c, vapour::Comes::middle)) groups.middle_g += amounts.grams[c];
    if (in_group(c, vapour::Comes::late)) groups.late_g += amounts.grams[c];
  }
  return groups;
}

}  // namespace lynearm::still
