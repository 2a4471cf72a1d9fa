// Where the alcohol is and where it went, from the sugar in the grain to the bottle, in litres
// of pure alcohol at 20 °C. Each entry is computed by its own stage, so that the sum closing is
// a check of the whole chain and not a definition.
#pragma once

#include <string>
#include <vector>

#include "units/quantity.hpp"

namespace lynearm::plan {

enum class Flow {
  in,    ///< potential alcohol of the bill, feints put in
  lost,  ///< gone: undissolved, unfermented, left in a pot, poured away, evaporated
  kept,  ///< set aside for a later batch: feints, low wines
  out,   ///< in bottles, samples and remainder
};

struct LedgerEntry {
  std::string stage;
  std::string name;
  Flow flow = Flow::lost;
  units::Volume pure_alcohol;
};

/// What stands at the end of a stage, of what entered it.
struct StageYield {
  std::string stage;
  units::Volume in;
  units::Volume out;
};

struct Ledger {
  std::vector<LedgerEntry> entries;
  std::vector<StageYield> stages;

  [[nodiscard]] units::Volume total(Flow flow) const;
  /// in less lost, kept and out; zero but for rounding.
  [[nodiscard]] units::Volume unaccounted() const;
};

}  // namespace lynearm::plan
