// A blend of a wanted strength and volume from the lots at hand, with the least waste.
//
// A lot once opened is best emptied: what stays in it stands under air. Waste is the pure
// alcohol left in opened lots; an unopened lot wastes nothing. The pure alcohol of the blend is
// fixed by its strength and volume, so waste is that of the opened lots less that of the blend:
// it depends only on which lots are opened, not on how much is drawn from each. The best choice
// is therefore a choice of lots, and each choice is judged by blend_limit.hpp. What counts, in
// this order:
//
//   1. least waste, beyond a remainder too small for any gauge to tell
//   2. fewest lots opened
//   3. least water added
//   4. fewest lots left in part: two at most, one when water is added
//   5. what is left stays in the smallest lots that can hold it: the less air over it
//
// The choice of lots is searched by their number, with bounds, and proven best unless the
// search grows past its limit. Leaves out taste.
#pragma once

#include <optional>
#include <vector>

#include "spirit/blend_limit.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

struct BlendTarget {
  units::VolumeStrength strength{};       ///< above 0 to 100 %vol
  std::optional<units::Volume> volume{};  ///< at 20 °C, above zero; empty: the most there is
  bool water = true;                      ///< whether water may be added
  /// A remainder up to this share of the blend's pure alcohol is no waste; 0 to 10 %. A
  /// thousandth is half of what a class I alcoholmeter's 0.1 %vol means at 50 %vol.
  units::Share negligible = units::Share::fraction(1e-3);
};

struct TargetBlend {
  std::vector<units::Share> used;  ///< of each lot, in the order given
  units::Mass water;               ///< to add
  Blend blend;
  units::Volume waste;  ///< pure alcohol left in opened lots, at 20 °C
  int opened = 0;       ///< lots drawn from
  int part_used = 0;    ///< of these, not emptied
  bool proven = false;  ///< nothing better exists; otherwise the best that was met
};

/// Choices of lots looked at before the search gives up proving. Lots up to 16 are always
/// proven: all their choices together are fewer.
inline constexpr long most_choices = 600'000;

/// The best blend of `lots` for `target`.
///
/// lots       1 to 64, not all empty
/// throws     InputError ("lot"), ("to") as most_at() does; ("volume") when the lots make too
///            little, with the most they make and from which; ("negligible")
/// accuracy   strength and volume met to 1e-11; waste against every vertex of the linear
///            programme, up to 5 lots: the same (tests/spirit/target_blend_test.cpp)
[[nodiscard]] TargetBlend blend_to(const std::vector<Lot>& lots, const BlendTarget& target);

}  // namespace lynearm::spirit
