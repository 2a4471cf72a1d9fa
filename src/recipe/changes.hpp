// What has to be written into a recipe's text so that it says another recipe: one key a change,
// so that the text's order and remarks stay. For what backward solving changes: amounts,
// strengths, ingredients. Leaves out what it never touches, such as vessels, times and
// temperatures.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/recipe.hpp"

namespace lynearm::recipe {

struct Change {
  std::string path;                  ///< items of a list from 1: "mash_bill[2].mass"
  std::optional<std::string> value;  ///< absent: the key, or the table, goes

  friend bool operator==(const Change&, const Change&) = default;
};

/// In the order of a recipe. Amounts are written to 0.1 g and 1 mL (0.1 mL under a litre).
///
/// from, to   with as many lines of the bill and as many sparges
[[nodiscard]] std::vector<Change> changes(const plan::Recipe& from, const plan::Recipe& to);

}  // namespace lynearm::recipe
