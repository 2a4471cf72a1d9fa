#include "plan/ledger.hpp"

namespace lynearm::plan {

units::Volume Ledger::total(Flow flow) const {
  units::Volume sum;
  for (const LedgerEntry& entry : entries) {
    if (entry.flow == flow) sum += entry.pure_alcohol;
  }
  return sum;
}

units::Volume Ledger::unaccounted() const {
  return total(Flow::in) - total(Flow::lost) - total(Flow::kept) - total(Flow::out);
}

}  // namespace lynearm::plan
