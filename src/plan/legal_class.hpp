// Legal classes a spirit may be sold under, and their rules: data/classes.toml,
// data/class_rules.toml and data/cereals.toml, checked and compiled in. A rule is what a text
// demands, in the text's own figure and unit; what a plan says to it is in class_findings.hpp.
//
// Leaves out every class that needs what no recipe here has: fruit, cane, flavouring, blends.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/source.hpp"

namespace lynearm::plan {

/// `not_known`: sold of more than one cereal.
enum class Cereal { any, maize, barley, wheat, rye, oats, rice, not_known };

enum class MadeAs { either, malted, unmalted };

enum class CaskKind { wood, oak, used_oak, new_charred_oak, used_or_uncharred_oak };

/// What a rule asks of a spirit. A condition is told and never judged.
enum class RuleKind {
  grain_alone,         ///< no sugar, honey or molasses in the mash
  share_at_least,      ///< of the grain by mass
  share_at_most,       ///< of the grain by mass
  malt,                ///< some of it is malted
  distilled_under,     ///< strictly
  distilled_over,      ///< strictly
  distilled_at_most,   ///< the limit itself is allowed
  distilled_at_least,  ///< the limit itself is allowed
  pot_still,
  column_still,
  entry_at_most,     ///< strength into the wood
  cask,              ///< it lies in such a cask; staves in glass are none
  cask_at_most,      ///< the cask holds so much
  matured_at_least,  ///< time in the cask
  bottled_at_least,
  condition,
};

/// A bound as the text has it: 160 "proof", 94.8 "%vol", 700 "L", 3 "years", 51 "%".
struct Limit {
  double value = 0.0;
  std::string_view unit;
};

/// A place in a document.
struct Cited {
  std::string_view place;
  base::Source source;
};

// The order of the members is the order of the table's fields in tools/compile_data.py.
struct LegalClass {
  std::string_view id;
  std::string_view name;
  std::string_view jurisdiction;
  Cited cited;
};

struct ClassRule {
  std::string_view id;
  std::vector<std::string_view> of;  ///< ids of classes
  std::string_view at;               ///< its place in the class's text
  RuleKind kind = RuleKind::condition;
  Cereal cereal = Cereal::any;
  MadeAs made_as = MadeAs::either;
  Limit limit;
  CaskKind cask = CaskKind::wood;
  bool if_in_wood = false;  ///< asked only of a spirit that meets wood
  base::Standing standing = base::Standing::from_memory;
  std::string_view words;  ///< of a condition
};

/// The rows of the data files, in their order.
[[nodiscard]] const std::vector<LegalClass>& legal_classes();
[[nodiscard]] const std::vector<ClassRule>& class_rules();

/// Which cereal an ingredient is; `any` for one that is no grain.
[[nodiscard]] Cereal cereal_of(std::string_view ingredient);

/// What the rule demands, as a sentence without its full stop, in the text's own figures:
/// "distilled at 160 proof at most".
[[nodiscard]] std::string demand(const ClassRule& rule);

/// What stands at the end of every list of classes.
inline constexpr std::string_view no_permission =
    "No finding is permission to use this name. The rules are told from memory: check them "
    "against the text in force; the authority decides.";

}  // namespace lynearm::plan
