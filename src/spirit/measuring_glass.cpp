#include "spirit/measuring_glass.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "base/error.hpp"
#include "spirit/reduction_checks.hpp"

namespace lynearm::spirit {
namespace {

std::vector<Lot> poured(const std::vector<GlassPart>& parts, units::Temperature t) {
  std::vector<Lot> lots;
  Lot sum;
  for (const GlassPart& part : parts) {
    lots.push_back(lot(part.volume, part.strength, t));
    check_amount(lots.back(), "part");
    sum = sum + lots.back();
  }
  if (!(sum.mass() > units::Mass{})) {
    throw base::InputError("part", "", "at least one part that is not empty");
  }
  return lots;
}

}  // namespace

ScaledBlend scale_glass(const std::vector<GlassPart>& parts, units::Volume wanted,
                        units::Temperature glass_t, units::Temperature wanted_t) {
  check_wanted(wanted, "wanted");
  ScaledBlend out;
  const std::vector<Lot> lots = poured(parts, glass_t);
  out.glass = blend(lots);
  out.factor = wanted / volume(out.glass.result, wanted_t);
  for (const Lot& lot : lots) out.parts.push_back(lot * out.factor);
  out.blend = blend(out.parts);
  return out;
}

units::Volume most_of_glass(const std::vector<GlassPart>& parts,
                            const std::vector<units::Mass>& at_hand, units::Temperature glass_t,
                            units::Temperature wanted_t) {
  const std::vector<Lot> lots = poured(parts, glass_t);
  if (at_hand.size() != lots.size()) {
    throw base::InputError("part", fmt::format("{} amounts at hand", at_hand.size()),
                           fmt::format("{}, one for each part", lots.size()));
  }
  double factor = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < lots.size(); ++i) {
    check_amount(at_hand[i], "part");
    if (lots[i].mass() > units::Mass{}) {
      factor = std::min(factor, at_hand[i] / lots[i].mass());
    }
  }
  return volume(blend(lots).result, wanted_t) * factor;
}

}  // namespace lynearm::spirit
