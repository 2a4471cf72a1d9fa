// Bills the tests of the mash share.
#pragma once

#include "mash/bill.hpp"

namespace lynearm::mash {

inline GristLine line(const char* id, double kg, Role role = Role::dough_in) {
  return {ingredient(id), units::Mass::kilograms(kg), role};
}

/// 5 kg of cracked maize cooked, then 5 kg of malts: one house with a 20 L pot still.
inline Bill maize_and_malts() {
  return {line("maize-cracked", 5.0, Role::cooked), line("barley-malt-distillers", 2.5),
          line("rye-malt", 2.5)};
}

inline Bill all_malt(double kg = 10.0) { return {line("barley-malt-pale", kg)}; }

}  // namespace lynearm::mash
