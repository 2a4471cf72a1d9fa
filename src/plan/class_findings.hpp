// What a plan says to the rules of the legal classes: kept, broken, or not to be told from a
// recipe; conditions of place and practice are listed and never judged. A finding is no advice
// in law and no permission.
//
// Grain is compared by mass; where a text does not say whether as it comes or dry, both must
// agree. The strength of distillation is that of the hearts, in doubt by the kit's
// alcoholmeter. Staves in glass are not storage in a cask.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/legal_class.hpp"
#include "plan/plan.hpp"

namespace lynearm::plan {

struct GrainFact {
  Cereal cereal = Cereal::any;
  bool malted = false;
  units::Mass mass;  ///< as it comes
  units::Mass dry;
  std::string name;
};

struct WoodFact {
  bool cask = false;  ///< else staves
  bool oak = true;
  bool charred = false;
  bool used = false;
  units::Volume holds;  ///< of a cask
  units::Duration time;
  std::string name;  ///< "small cask, new, of American white oak, medium toast"
};

/// All that the rules ask of a recipe and its plan.
struct SpiritFacts {
  std::vector<GrainFact> grain;
  units::Mass sugars;                              ///< sugar, honey, molasses
  std::optional<units::VolumeStrength> distilled;  ///< the hearts; absent when there are none
  units::VolumeStrength doubt;                     ///< half width, of `distilled`
  int plates = 0;                                  ///< above the pot
  std::optional<WoodFact> wood;
  units::VolumeStrength entry;  ///< into the wood
  units::VolumeStrength bottled;
  bool feints = false;        ///< of earlier batches, in the charge
  units::Volume beyond_cask;  ///< does not fit the cask
};

enum class Ruling {
  kept,
  breaks,
  cannot_tell,
  condition,  ///< for the maker to see to
};

struct RuleFinding {
  std::string_view id;  ///< stable, for scripts
  std::string_view at;  ///< the place in the class's text; empty for one of ours
  Ruling ruling = Ruling::kept;
  std::string demands;  ///< "maize is at least 51 % of the grain"
  std::string says;     ///< "it is 48.5 %": the value against the limit; empty for a condition
  base::Standing standing = base::Standing::from_memory;
};

struct ClassFinding {
  const LegalClass* of = nullptr;
  Ruling ruling = Ruling::kept;  ///< kept: it could carry the name, under its conditions
  std::vector<RuleFinding> rules;
};

[[nodiscard]] SpiritFacts facts_of(const Recipe& recipe, const Kit& kit, const Plan& plan);

/// One finding a class, in the order of the table. A rule that is not asked of this spirit (the
/// cask's size without a cask) is left out.
[[nodiscard]] std::vector<ClassFinding> class_findings(const SpiritFacts& facts);

/// plan       that of this recipe and kit
[[nodiscard]] std::vector<ClassFinding> class_findings(const Recipe& recipe, const Kit& kit,
                                                       const Plan& plan);

}  // namespace lynearm::plan
