#include "spirit/blend_limit.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "spirit/blend_kernel.hpp"
#include "spirit/reduction_checks.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {

BlendKernel::BlendKernel(const std::vector<Lot>& lots, double to_p, bool water)
    : to_p_(to_p), water_(water) {
  for (std::size_t i = 0; i < lots.size(); ++i) {
    const double ethanol_kg = lots[i].ethanol.kilograms();
    const double mass_kg = lots[i].mass().kilograms();
    if (!(mass_kg > 0.0)) continue;
    // A lot stated at the wanted strength is at it, whatever the last bits say.
    constexpr double rounding = 1e-13;
    const double above_kg = ethanol_kg - to_p * mass_kg;
    items_.push_back({i, ethanol_kg, mass_kg, ethanol_kg / mass_kg,
                      std::abs(above_kg) <= rounding * mass_kg ? 0.0 : above_kg});
  }
  std::stable_sort(items_.begin(), items_.end(),
                   [](const BlendItem& a, const BlendItem& b) { return a.p < b.p; });
}

double BlendKernel::most_ethanol_kg(const std::vector<char>& open,
                                    std::vector<double>* used) const {
  const std::size_t n = items_.size();
  double beyond_kg = 0.0;
  double lacking_kg = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    if (open[i] == 0) continue;
    (items_[i].above_kg > 0.0 ? beyond_kg : lacking_kg) += std::abs(items_[i].above_kg);
  }
  // Which side is used up only in part, and how much of it the other side carries.
  const bool part_of_weak = lacking_kg > beyond_kg;
  const bool part_of_strong = !water_ && beyond_kg > lacking_kg;
  double left_kg = std::min(beyond_kg, lacking_kg);
  double ethanol_kg = 0.0;
  if (used != nullptr) used->assign(n, 0.0);
  const auto use = [&](std::size_t i) {
    const BlendItem& item = items_[i];
    const bool rationed = item.above_kg < 0.0 ? part_of_weak : part_of_strong;
    double share = 1.0;
    if (rationed && item.above_kg != 0.0) {
      const double takes_kg = std::abs(item.above_kg);
      share = takes_kg <= left_kg ? 1.0 : left_kg / takes_kg;
      left_kg = std::max(0.0, left_kg - takes_kg);
    }
    ethanol_kg += share * item.ethanol_kg;
    if (used != nullptr) (*used)[i] = share;
  };
  if (part_of_weak) {
    for (std::size_t i = n; i-- > 0;) {
      if (open[i] != 0) use(i);
    }
  } else {
    for (std::size_t i = 0; i < n; ++i) {
      if (open[i] != 0) use(i);
    }
  }
  return ethanol_kg;
}

BlendLimit most_at(const std::vector<Lot>& lots, units::VolumeStrength to, bool water) {
  if (lots.size() > most_lots) {
    throw base::InputError("lot", fmt::format("{} lots", lots.size()),
                           fmt::format("at most {} lots", most_lots));
  }
  for (const Lot& lot : lots) check_amount(lot, "lot");
  check_wanted(to, "to");
  const BlendKernel kernel(lots, mass_fraction(to).fraction(), water);
  const std::vector<BlendItem>& items = kernel.items();
  if (items.empty()) throw base::InputError("lot", "", "at least one lot that is not empty");
  const BlendItem& weakest = items.front();
  const BlendItem& strongest = items.back();
  const std::string wanted = fmt::format("{:.2f} %vol", to.percent());
  if (strongest.above_kg < 0.0) {
    throw base::InputError(
        "to", wanted,
        fmt::format("at most {:.2f} %vol, the strongest lot at hand (lot {})",
                    rounded_down(strength(lots[strongest.lot]).percent(), 2),
                    strongest.lot + 1));
  }
  if (!water && weakest.above_kg > 0.0) {
    throw base::InputError(
        "to", wanted,
        fmt::format("at least {:.2f} %vol, the weakest lot at hand (lot {}), unless water may "
                    "be added",
                    rounded_up(strength(lots[weakest.lot]).percent(), 2), weakest.lot + 1));
  }
  std::vector<double> shares;
  const std::vector<char> all(items.size(), 1);
  const double ethanol_kg = kernel.most_ethanol_kg(all, &shares);
  BlendLimit out;
  out.used.assign(lots.size(), units::Share{});
  std::vector<Lot> parts;
  units::Mass mass;
  for (std::size_t i = 0; i < items.size(); ++i) {
    out.used[items[i].lot] = units::Share::fraction(shares[i]);
    parts.push_back(lots[items[i].lot] * shares[i]);
    mass += parts.back().mass();
  }
  if (water) {
    out.water =
        std::max(units::Mass{}, units::Mass::kilograms(ethanol_kg / kernel.to_p()) - mass);
    parts.push_back({{}, out.water});
  }
  out.blend = blend(parts);
  return out;
}

std::string words(const std::vector<units::Share>& used) {
  std::vector<std::size_t> whole;
  std::vector<std::size_t> part;
  for (std::size_t i = 0; i < used.size(); ++i) {
    if (used[i] >= units::Share::fraction(1.0)) {
      whole.push_back(i + 1);
    } else if (used[i] > units::Share{}) {
      part.push_back(i + 1);
    }
  }
  const auto list = [](const std::vector<std::size_t>& lots) {
    if (lots.size() == 1) return fmt::format("{}", lots.front());
    return fmt::format("{} and {}", fmt::join(lots.begin(), lots.end() - 1, ", "), lots.back());
  };
  const auto lots = [](std::size_t count) { return count == 1 ? "lot" : "lots"; };
  if (whole.empty() && part.empty()) return "no lot";
  const auto some = [&] { return fmt::format("part of {} {}", lots(part.size()), list(part)); };
  if (whole.empty()) return some();
  const std::string all = fmt::format("{} {}", lots(whole.size()), list(whole));
  return part.empty() ? all : fmt::format("{}, and {}", all, some());
}

}  // namespace lynearm::spirit
