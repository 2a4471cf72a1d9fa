// The account of pure alcohol: what each step of a batch took in and gave, by what was
// measured, and what is unaccounted for, with its uncertainty. The plan's ledger closes by its
// arithmetic; this one never quite does, and says so only when the gap is both large and
// significant.
#pragma once

#include <string>
#include <vector>

#include "journal/glass.hpp"
#include "journal/pure_volume.hpp"
#include "journal/state.hpp"
#include "units/quantity.hpp"

namespace lynearm::journal {

/// Of what a charge held, kept by a pot of which neither the strength nor the spout's last
/// strength (pot_left.hpp) is known. The plans of examples/tern-7 and tern-8, both stopping at
/// 10 %vol, leave 6.7 and 7.0 % of a strip's alcohol and 1.3 % of a spirit run's. Counted as
/// doubt, not as a loss: what the spout never told cannot be reckoned. Our choice.
inline constexpr double strip_pot_share_sd = 0.04;
inline constexpr double spirit_pot_share_sd = 0.02;
/// A gap within so many standard deviations is one that gauging explains.
inline constexpr double telling_deviations = 2.0;

/// One step, by what was measured.
struct AccountStep {
  Stage stage = Stage::ledger;
  std::string what;  ///< "strip 1 of 3"
  PureVolume in, out;
  std::vector<std::pair<std::string, PureVolume>> named;  ///< losses that have a name
  PureVolume unaccounted;                                 ///< in less out less named
  bool telling = false;  ///< larger than 0.05 L, than 2 % of what went in, and than two sd
};

/// Wash that is in no step of the account yet, as strong as its gravities tell.
struct WashHeld {
  units::Volume volume;  ///< at 20 °C
  units::Volume pure_alcohol;
};

struct BatchAccount {
  std::vector<AccountStep> steps;
  Glass glass;  ///< that its strengths are taken as read on
  /// In its vessel: what no run has taken. Nothing where that is less than a mark tells
  /// (volume_share_sd).
  WashHeld waiting;
  WashHeld in_stills;  ///< taken by runs of which nothing that came over is measured yet
};

/// The account of one batch, step by step in order of time. Steps whose in or out was not
/// measured are left out.
///
/// glass      of the batch's kit (glass_of()); else no instrument is known
[[nodiscard]] BatchAccount account(const HouseState& house, const BatchState& batch,
                                   const Glass& glass = {});

}  // namespace lynearm::journal
