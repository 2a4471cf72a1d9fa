// How far the strength on a label may be off the true one, as published rules have it. Local
// law decides; this only helps to understand it. Leaves out the rules of other places, and
// what a rule allows besides (loss in bottling, a method's own doubt).
#pragma once

#include <array>
#include <string_view>

#include "units/quantity.hpp"

namespace lynearm::spirit {

struct LabelRule {
  std::string_view id;
  std::string_view jurisdiction;
  std::string_view document;
  std::string_view place;
  std::string_view standing;
  units::VolumeStrength within;  ///< either way, between the label and the true strength
};

/// The rules known to us.
/// source     from memory: check each against its text before bottling by it
inline constexpr std::array label_rules = {
    LabelRule{"eu", "European Union", "Regulation (EU) No 1169/2011", "Annex XII",
              "from memory", units::VolumeStrength::percent(0.3)},
    LabelRule{"us", "United States", "27 CFR Part 5", "5.65", "from memory",
              units::VolumeStrength::percent(0.3)},
};

}  // namespace lynearm::spirit
