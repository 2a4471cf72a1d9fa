#include "spirit/target_blend.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "base/error.hpp"
#include "spirit/blend_kernel.hpp"
#include "spirit/reduction_checks.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

// Whether sums of masses are equal, relative to the blend's.
constexpr double rounding = 1e-12;
// How nearly strength and volume must be met. A target that was reckoned from a mixture comes
// back to some 1e-12, and a choice that fits it but for that must not be passed over.
constexpr double met = 5e-12;

// By what share lots may seem too few and still be enough. Without water two lots of nearly one
// strength balance each other, and a rounding of the strength wanted is many in what they make;
// what is drawn from them is then held to `met`.
constexpr double short_of(bool water) { return water ? rounding : 1e-10; }

// How much is drawn from each item of one choice.
struct Drawn {
  std::vector<double> used;
  double water_kg = 0.0;
  int part_used = 0;
};

struct Choice {
  bool found = false;
  double excess_kg = 0.0;  // waste beyond the negligible, as ethanol
  int opened = 0;
  Drawn drawn;
};

class Search {
 public:
  Search(const BlendKernel& kernel, double ethanol_kg, double negligible_kg)
      : kernel_(kernel),
        items_(kernel.items()),
        ethanol_kg_(ethanol_kg),
        mass_kg_(ethanol_kg / kernel.to_p()),
        negligible_kg_(negligible_kg),
        by_size_(items_.size()),
        up_to_kg_(items_.size() + 1, 0.0),
        open_(items_.size(), 0),
        allowed_(items_.size(), 1) {
    std::iota(by_size_.begin(), by_size_.end(), std::size_t{0});
    std::stable_sort(by_size_.begin(), by_size_.end(), [&](std::size_t a, std::size_t b) {
      if (items_[a].ethanol_kg != items_[b].ethanol_kg) {
        return items_[a].ethanol_kg > items_[b].ethanol_kg;
      }
      return items_[a].mass_kg > items_[b].mass_kg;
    });
    for (std::size_t k = 0; k < by_size_.size(); ++k) {
      up_to_kg_[k + 1] = up_to_kg_[k] + items_[by_size_[k]].ethanol_kg;
    }
  }

  const Choice& best() {
    start();
    const std::size_t n = items_.size();
    for (std::size_t count = 1; count <= n && !given_up_; ++count) {
      if (!could_be_best(0.0, static_cast<int>(count))) break;
      choose(0, count, 0.0, static_cast<int>(count));
    }
    return best_;
  }
  [[nodiscard]] bool proven() const { return !given_up_; }

 private:
  [[nodiscard]] bool enough(const std::vector<char>& open) const {
    return kernel_.most_ethanol_kg(open) >= ethanol_kg_ * (1.0 - short_of(kernel_.water()));
  }
  [[nodiscard]] double excess_kg(double opened_kg) const {
    return std::max(0.0, opened_kg - ethanol_kg_ - negligible_kg_);
  }
  // Whether a choice with at least this excess and so many lots can still be the best.
  [[nodiscard]] bool could_be_best(double excess, int count) const {
    const double same = rounding * ethanol_kg_;
    if (!best_.found || excess < best_.excess_kg - same) return true;
    return excess <= best_.excess_kg + same && count <= best_.opened;
  }

  // Something to beat: drop lots one by one while the rest still makes the blend, in a few
  // orders.
  void start() {
    const std::size_t n = items_.size();
    std::vector<std::size_t> strongest_last(n);
    std::iota(strongest_last.begin(), strongest_last.end(), std::size_t{0});
    std::array<std::vector<std::size_t>, 4> orders = {by_size_, by_size_, strongest_last,
                                                      strongest_last};
    std::reverse(orders[1].begin(), orders[1].end());
    std::reverse(orders[3].begin(), orders[3].end());
    for (const std::vector<std::size_t>& order : orders) {
      std::vector<char> open(n, 1);
      for (const std::size_t i : order) {
        open[i] = 0;
        if (!enough(open)) open[i] = 1;
      }
      consider(open);
    }
  }

  // Chooses `more` lots from place `from` on; `opened_kg` is what the chosen ones hold.
  void choose(std::size_t from, std::size_t more, double opened_kg, int count) {
    if (more == 0) {
      consider(open_);
      return;
    }
    const std::size_t n = by_size_.size();
    std::size_t at = from;
    for (; at + more <= n; ++at) {
      const std::size_t i = by_size_[at];
      const double largest_kg = opened_kg + up_to_kg_[at + more] - up_to_kg_[at];
      if (largest_kg < ethanol_kg_ * (1.0 - rounding)) break;
      const double with_kg = opened_kg + items_[i].ethanol_kg;
      const double least_kg = with_kg + up_to_kg_[n] - up_to_kg_[n - (more - 1)];
      if (!twin_of_passed(at, from) && could_be_best(excess_kg(least_kg), count)) {
        if (!enough(allowed_)) break;
        if (++choices_ > most_choices) given_up_ = true;
        if (given_up_) break;
        open_[i] = 1;
        choose(at + 1, more - 1, with_kg, count);
        open_[i] = 0;
      }
      allowed_[i] = 0;
    }
    for (; at-- > from;) allowed_[by_size_[at]] = 1;
  }

  // Of equal lots the first is chosen first.
  [[nodiscard]] bool twin_of_passed(std::size_t at, std::size_t from) const {
    if (at == from) return false;
    const BlendItem& a = items_[by_size_[at]];
    const BlendItem& b = items_[by_size_[at - 1]];
    return a.ethanol_kg == b.ethanol_kg && a.mass_kg == b.mass_kg;
  }

  void consider(const std::vector<char>& open) {
    if (!enough(open)) return;
    double opened_kg = 0.0;
    int count = 0;
    for (std::size_t i = 0; i < items_.size(); ++i) {
      if (open[i] == 0) continue;
      opened_kg += items_[i].ethanol_kg;
      ++count;
    }
    const double excess = excess_kg(opened_kg);
    if (!could_be_best(excess, count)) return;
    const std::optional<Drawn> drawn = draw(open);
    if (!drawn) return;
    const double same = rounding * ethanol_kg_;
    const bool tie =
        best_.found && std::abs(excess - best_.excess_kg) <= same && count == best_.opened;
    if (tie) {
      const double water_same = rounding * mass_kg_;
      if (drawn->water_kg > best_.drawn.water_kg + water_same) return;
      if (drawn->water_kg >= best_.drawn.water_kg - water_same &&
          drawn->part_used >= best_.drawn.part_used) {
        return;
      }
    }
    best_ = {true, excess, count, *drawn};
  }

  // What to draw from each of these lots, all but one or two of them whole. Nothing when one of
  // them would not be drawn from at all: then fewer lots do, and these are no choice of theirs.
  [[nodiscard]] std::optional<Drawn> draw(const std::vector<char>& open) const {
    std::vector<std::size_t> lots;
    double ethanol_kg = 0.0;
    double mass_kg = 0.0;
    for (std::size_t i = 0; i < items_.size(); ++i) {
      if (open[i] == 0) continue;
      lots.push_back(i);
      ethanol_kg += items_[i].ethanol_kg;
      mass_kg += items_[i].mass_kg;
    }
    Drawn whole;
    whole.used.assign(items_.size(), 0.0);
    for (const std::size_t i : lots) whole.used[i] = 1.0;
    if (kernel_.water()) {
      // Least water: what is left is left of the strongest.
      const BlendItem& strongest = items_[lots.back()];
      const double share =
          (ethanol_kg_ - (ethanol_kg - strongest.ethanol_kg)) / strongest.ethanol_kg;
      if (share > rounding) {
        // A lot that comes out whole but for a rounding is whole.
        const double used = share > 1.0 - rounding ? 1.0 : share;
        const double drawn_kg = mass_kg - strongest.mass_kg + used * strongest.mass_kg;
        if (drawn_kg <= mass_kg_ * (1.0 + rounding)) {
          whole.used[lots.back()] = used;
          whole.water_kg = std::max(0.0, mass_kg_ - drawn_kg);
          whole.part_used = used < 1.0 ? 1 : 0;
          return whole;
        }
      } else {
        std::vector<char> rest = open;
        rest[lots.back()] = 0;
        if (enough(rest)) return std::nullopt;
      }
    }
    return without_water(lots, whole, ethanol_kg, mass_kg);
  }

  // Ethanol and mass both exact from these lots alone: none, one or two of them in part.
  [[nodiscard]] std::optional<Drawn> without_water(const std::vector<std::size_t>& lots,
                                                   const Drawn& whole, double ethanol_kg,
                                                   double mass_kg) const {
    const double same_ethanol = met * ethanol_kg_;
    const double same_mass = met * mass_kg_;
    if (std::abs(ethanol_kg - ethanol_kg_) <= same_ethanol &&
        std::abs(mass_kg - mass_kg_) <= same_mass) {
      return whole;
    }
    std::optional<Drawn> best;
    double best_kg = 0.0;
    const auto offer = [&](double part_kg, const Drawn& drawn) {
      if (best && part_kg >= best_kg) return;
      best = drawn;
      best_kg = part_kg;
    };
    for (const std::size_t i : lots) {
      const BlendItem& a = items_[i];
      const double share = (mass_kg_ - (mass_kg - a.mass_kg)) / a.mass_kg;
      const double ethanol_with = ethanol_kg - a.ethanol_kg + share * a.ethanol_kg;
      if (!(share > 0.0 && share < 1.0 &&
            std::abs(ethanol_with - ethanol_kg_) <= same_ethanol)) {
        continue;
      }
      Drawn drawn = whole;
      drawn.used[i] = share;
      drawn.part_used = 1;
      offer(a.ethanol_kg, drawn);
    }
    if (best) return best;
    for (std::size_t m = 0; m < lots.size(); ++m) {
      for (std::size_t k = m + 1; k < lots.size(); ++k) {
        const BlendItem& a = items_[lots[m]];
        const BlendItem& b = items_[lots[k]];
        // Too alike in strength to balance one against the other.
        constexpr double alike = 1e-9;
        if (b.p - a.p < alike) continue;
        const double ethanol_wanted = ethanol_kg_ - (ethanol_kg - a.ethanol_kg - b.ethanol_kg);
        const double mass_wanted = mass_kg_ - (mass_kg - a.mass_kg - b.mass_kg);
        const double from_b_kg = (ethanol_wanted - a.p * mass_wanted) / (b.p - a.p);
        const double share_a = (mass_wanted - from_b_kg) / a.mass_kg;
        const double share_b = from_b_kg / b.mass_kg;
        if (!(share_a > 0.0 && share_a < 1.0 && share_b > 0.0 && share_b < 1.0)) continue;
        Drawn drawn = whole;
        drawn.used[lots[m]] = share_a;
        drawn.used[lots[k]] = share_b;
        drawn.part_used = 2;
        offer(a.ethanol_kg + b.ethanol_kg, drawn);
      }
    }
    return best;
  }

  const BlendKernel& kernel_;
  const std::vector<BlendItem>& items_;
  double ethanol_kg_;  // of the blend
  double mass_kg_;
  double negligible_kg_;
  std::vector<std::size_t> by_size_;  // from the most ethanol to the least
  std::vector<double> up_to_kg_;      // ethanol of the first so many of these
  std::vector<char> open_;
  std::vector<char> allowed_;  // chosen, or still to be decided
  Choice best_;
  long choices_ = 0;
  bool given_up_ = false;
};

double wanted_ethanol_kg(const BlendLimit& limit, const BlendTarget& target) {
  if (!target.volume) return limit.blend.result.ethanol.kilograms();
  check_wanted(*target.volume, "volume");
  if (!(*target.volume <= limit.blend.volume_at_20C * (1.0 + short_of(target.water)))) {
    throw base::InputError(
        "volume", fmt::format("{:.3f} L", target.volume->litres()),
        fmt::format("at most {:.3f} L at 20 °C: {} make no more of {:.2f} %vol",
                    rounded_down(limit.blend.volume_at_20C.litres(), 3), words(limit.used),
                    target.strength.percent()));
  }
  return std::min(lot(*target.volume, target.strength).ethanol.kilograms(),
                  limit.blend.result.ethanol.kilograms());
}

}  // namespace

TargetBlend blend_to(const std::vector<Lot>& lots, const BlendTarget& target) {
  const double negligible = target.negligible.fraction();
  if (!(negligible >= 0.0 && negligible <= 0.1)) {
    throw base::InputError("negligible", fmt::format("{:.2f} %", 100.0 * negligible),
                           "0 to 10 % of the blend's pure alcohol");
  }
  const BlendLimit limit = most_at(lots, target.strength, target.water);
  const double ethanol_kg = wanted_ethanol_kg(limit, target);
  const BlendKernel kernel(lots, mass_fraction(target.strength).fraction(), target.water);
  Search search(kernel, ethanol_kg, negligible * ethanol_kg);
  const Choice& best = search.best();
  base::ensure(best.found, "what the lots can make at most, they can make");
  TargetBlend out;
  out.proven = search.proven();
  out.used.assign(lots.size(), units::Share{});
  out.water = units::Mass::kilograms(best.drawn.water_kg);
  out.opened = best.opened;
  out.part_used = best.drawn.part_used;
  std::vector<Lot> parts;
  Lot left;
  for (std::size_t i = 0; i < kernel.items().size(); ++i) {
    const double share = best.drawn.used[i];
    const Lot& lot = lots[kernel.items()[i].lot];
    out.used[kernel.items()[i].lot] = units::Share::fraction(share);
    if (share > 0.0) {
      parts.push_back(lot * share);
      left = left + lot * (1.0 - share);
    }
  }
  out.waste = pure_alcohol(left);
  parts.push_back({{}, out.water});
  out.blend = blend(parts);
  return out;
}

}  // namespace lynearm::spirit
