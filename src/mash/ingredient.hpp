// What goes into a mash: grains, malts, sugars, with what they yield and what they need.
//
// The table is data/ingredients.toml, checked and compiled in by tools/compile_data.py. Every
// figure is a default: copy an Ingredient and change what a lot's own analysis says better.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/figure.hpp"
#include "units/quantity.hpp"

namespace lynearm::mash {

using base::Figure;

enum class Sort { raw_grain, gelatinised_grain, malt, roasted_malt, sugar, honey, molasses };

/// What the extract is counted on.
enum class ExtractBasis {
  dry_fine_grind,  ///< kg from a kg of dry, finely ground grain
  as_is,           ///< kg from a kg as it comes
};

/// How the spent solids hold liquor; see drain.hpp for the figures.
enum class Absorption { none, husked, clinging };

// The order of the members is the order of the table's fields in tools/compile_data.py.
struct Ingredient {
  std::string id;
  std::string name;
  Sort sort = Sort::raw_grain;
  ExtractBasis basis = ExtractBasis::dry_fine_grind;
  Figure<units::Share> extract;           ///< on `basis`
  Figure<units::Share> coarse_to_fine;    ///< household grind over laboratory grind
  Figure<units::Share> moisture;          ///< by mass, as is
  Figure<units::Share> starch;            ///< of the extract, before the mash
  Figure<units::Share> free_fermentable;  ///< of the extract, without any mash
  Figure<units::Share> fermentable;       ///< of the extract, in the end, unboiled
  /// Middle, onset and end of gelatinisation; absent when nothing is left to gelatinise.
  std::optional<Figure<units::Temperature>> gelatinisation;
  Figure<units::DiastaticPower> diastatic_power;
  Absorption absorption = Absorption::husked;
  bool drains_slowly = false;
  bool foams = false;
};

/// All ingredients, in the order of the data file.
[[nodiscard]] const std::vector<Ingredient>& ingredients();

/// The ingredient of that id.
/// throws     InputError ("ingredient") naming the nearest id when there is none
[[nodiscard]] const Ingredient& ingredient(std::string_view id);

/// The ids, in the order of the data file.
[[nodiscard]] std::vector<std::string> ingredient_ids();

/// Does it bring starch (or its enzymes) to the mash? False for sugars, honey and molasses.
[[nodiscard]] bool is_grain(const Ingredient& ingredient);

}  // namespace lynearm::mash
