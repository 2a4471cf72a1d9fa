#include "still/feints.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "base/error.hpp"
#include "spirit/reduction.hpp"

namespace lynearm::still {
namespace {

// From one generation to the next, of itself: then it stands still.
constexpr double still_change = 1e-6;
// Within this of where it ends, it is there for the maker.
constexpr double near_enough = 0.01;
constexpr double share_width = 1e-4;

CongenerAmounts sum(const CongenerAmounts& a, const CongenerAmounts& b) {
  CongenerAmounts all = a;
  for (std::size_t i = 0; i < all.grams.size(); ++i) all.grams[i] += b.grams[i];
  return all;
}

CongenerAmounts times(CongenerAmounts a, double share) {
  for (double& grams : a.grams) grams *= share;
  return a;
}

Carried carried(const Run& run, const Fraction& fraction) {
  return {fraction.lot, congeners_in(run, fraction)};
}

void check(const Recycling& recycling) {
  const double bled = recycling.bled.fraction();
  if (!(bled >= 0.0 && bled <= 1.0)) {
    throw base::InputError("feints.bled", fmt::format("{:.4g} %", 100.0 * bled), "0 to 100 %");
  }
}

// Low wines and the feints that come back, watered down if they are too strong together.
void make_up(Generation& generation, const Recycling& recycling, const Carried& feints) {
  generation.feints_in = feints;
  generation.charge = recycling.low_wines + feints;
  if (recycling.charge_at_most &&
      spirit::strength(generation.charge.lot) > *recycling.charge_at_most) {
    const spirit::Reduction watered =
        spirit::reduce(generation.charge.lot, *recycling.charge_at_most);
    generation.water = watered.water;
    generation.charge.lot = watered.result;
  }
}

void run_and_cut(Generation& generation, const Recycling& recycling,
                 const vapour::BoilingCurve& curve, const vapour::CongenerCurve& volatility) {
  Charge charge;
  charge.spirit = generation.charge.lot;
  charge.temperature = recycling.charge_temperature;
  charge.congeners = generation.charge.congeners;
  const Run run = distil(charge, recycling.setting, curve, recycling.stop, &volatility);
  const Cuts cuts = cut(run, recycling.borders);
  generation.foreshots = carried(run, cuts.foreshots);
  generation.heads = carried(run, cuts.heads);
  generation.hearts = carried(run, cuts.hearts);
  generation.tails = carried(run, cuts.tails);
  generation.left = {run.left(), sum(run.congeners_in_pot.back(), run.congeners_held.back())};
  generation.feints =
      recycling.keep_heads ? generation.heads + generation.tails : generation.tails;
}

Generation next(const Recycling& recycling, int number, const Carried& feints,
                const vapour::BoilingCurve& curve, const vapour::CongenerCurve& volatility) {
  Generation generation;
  generation.number = number;
  make_up(generation, recycling, feints);
  run_and_cut(generation, recycling, curve, volatility);
  return generation;
}

Carried returned(const Recycling& recycling, const Generation& generation) {
  return generation.feints * (1.0 - recycling.bled.fraction());
}

// The figures by which a generation is told from the next.
std::array<double, vapour::congener_count + 2> figures(const Generation& g) {
  std::array<double, vapour::congener_count + 2> all{g.feints_volume().litres(),
                                                     g.feints.lot.ethanol.kilograms()};
  std::copy(g.charge.congeners.grams.begin(), g.charge.congeners.grams.end(), all.begin() + 2);
  return all;
}

bool differ(const Generation& a, const Generation& b, double by) {
  const auto x = figures(a), y = figures(b);
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (std::abs(x[i] - y[i]) > by * std::abs(y[i])) return true;
  }
  return false;
}

bool over(const Generation& generation, const std::optional<units::Volume>& greatest) {
  // A hair for a charge that just fills it.
  return greatest && generation.charge_volume() > *greatest * (1.0 + 1e-9);
}

double multiple(const Generation& first, const Generation& generation) {
  const Oils before = oils(first.hearts), now = oils(generation.hearts);
  const units::MassConcentration none;
  double most = 0.0;
  if (before.higher > none) most = std::fmax(most, now.higher / before.higher);
  if (before.late > none) most = std::fmax(most, now.late / before.late);
  return most > 0.0 ? most : 1.0;
}

// All generations to the steady state.
std::vector<Generation> until_still(const Recycling& recycling,
                                    const vapour::BoilingCurve& curve,
                                    const vapour::CongenerCurve& volatility,
                                    const std::optional<units::Volume>& greatest) {
  check(recycling);
  std::vector<Generation> all = {next(recycling, 1, recycling.feints_first, curve, volatility)};
  while (static_cast<int>(all.size()) < most_generations && !over(all.back(), greatest)) {
    all.push_back(next(recycling, all.back().number + 1, returned(recycling, all.back()), curve,
                       volatility));
    if (!differ(all[all.size() - 2], all.back(), still_change)) break;
  }
  return all;
}

Settling settling_of(const std::vector<Generation>& all) {
  Settling found;
  found.first = all.front();
  found.last = all.back();
  found.steady = all.size() > 1 && !differ(all[all.size() - 2], all.back(), still_change);
  found.generation = all.back().number;
  for (auto g = all.rbegin(); g != all.rend() && !differ(*g, all.back(), near_enough); ++g) {
    found.generation = g->number;
  }
  return found;
}

}  // namespace

Carried operator+(const Carried& a, const Carried& b) {
  return {a.lot + b.lot, sum(a.congeners, b.congeners)};
}
Carried operator*(const Carried& a, double share) {
  return {a.lot * share, times(a.congeners, share)};
}

Oils oils(const Carried& lot) {
  const double litres = spirit::pure_alcohol(lot.lot).litres();
  if (!(litres > 0.0)) return {};
  const Groups groups = groups_of(lot.congeners);
  return {units::MassConcentration::grams_per_litre(groups.middle_g / litres),
          units::MassConcentration::grams_per_litre(groups.late_g / litres)};
}

double Settling::oils_multiple() const { return multiple(first, last); }

std::vector<Generation> generations(const Recycling& recycling, int count,
                                    const vapour::BoilingCurve& curve,
                                    const vapour::CongenerCurve& volatility) {
  check(recycling);
  if (count < 1 || count > most_generations) {
    throw base::InputError("generations", fmt::format("{}", count),
                           fmt::format("1 to {}", most_generations));
  }
  std::vector<Generation> all;
  Carried feints = recycling.feints_first;
  for (int number = 1; number <= count; ++number) {
    all.push_back(next(recycling, number, feints, curve, volatility));
    feints = returned(recycling, all.back());
  }
  return all;
}

Settling settle(const Recycling& recycling, const vapour::BoilingCurve& curve,
                const vapour::CongenerCurve& volatility,
                std::optional<units::Volume> greatest_charge) {
  return settling_of(until_still(recycling, curve, volatility, greatest_charge));
}

Bleeding when_to_bleed(const Recycling& recycling, const FeintsLimit& limit,
                       const vapour::BoilingCurve& curve,
                       const vapour::CongenerCurve& volatility) {
  if (!(limit.oils_multiple > 1.0 && std::isfinite(limit.oils_multiple))) {
    throw base::InputError("feints.oils_multiple", fmt::format("{:.4g}", limit.oils_multiple),
                           "more than 1: the first generation's own");
  }
  Recycling with = recycling;
  with.bled = units::Share{};
  const std::vector<Generation> all =
      until_still(with, curve, volatility, limit.greatest_charge);
  Bleeding found;
  found.unbled = settling_of(all);
  if (over(found.unbled.first, limit.greatest_charge)) {
    throw base::InputError("feints.greatest_charge",
                           fmt::format("{:.2f} L", limit.greatest_charge->litres()),
                           fmt::format("at least the {:.2f} L of the first charge",
                                       found.unbled.first.charge_volume().litres()));
  }
  for (const Generation& g : all) {
    found.oils = multiple(found.unbled.first, g) > limit.oils_multiple;
    found.volume = over(g, limit.greatest_charge);
    if (found.oils || found.volume) {
      found.from = g.number;
      break;
    }
  }
  found.bled = found.unbled;
  if (!found.from) return found;

  // Every step to the steady state stays below it, so that its own figures decide. With all
  // bled off each generation is the first again, but for feints from before in the first.
  const auto settled = [&](double share) {
    with.bled = units::Share::fraction(share);
    return settle(with, curve, volatility, limit.greatest_charge);
  };
  const auto good = [&](const Settling& s) {
    return !over(s.last, limit.greatest_charge) && s.oils_multiple() <= limit.oils_multiple;
  };
  double low = 0.0, high = 1.0;
  found.bled = settled(1.0);
  found.share = units::Share::fraction(1.0);
  if (!good(found.bled)) return found;
  while (high - low > share_width) {
    const double middle = std::midpoint(low, high);
    const Settling at = settled(middle);
    if (good(at)) {
      high = middle;
      found.bled = at;
    } else {
      low = middle;
    }
  }
  found.share = units::Share::fraction(high);
  return found;
}

ToldFeints tell_feints(const Recycling& recycling, int count, const FeintsLimit& limit,
                       const vapour::BoilingCurve& curve,
                       const vapour::CongenerCurve& volatility) {
  return {recycling, limit, generations(recycling, count, curve, volatility),
          when_to_bleed(recycling, limit, curve, volatility)};
}

}  // namespace lynearm::still
