// The record of a batch on paper: what was planned beside what was measured, when and by whom,
// stage by stage, from the journal. A blank stands only where nothing is recorded yet; a stage
// that has not begun stands as the plan has it. One HTML text that needs nothing else.
//
// Which readings are not believed is no entry of a journal: who follows the runs reckons it
// from the same journal, and hands it in. Leaves out what the next days will bring.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "ferment/follow.hpp"
#include "journal/entry.hpp"
#include "journal/state.hpp"
#include "plan/plan.hpp"
#include "plan/room_gas.hpp"
#include "sheet/page.hpp"
#include "still/follow_answer.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {

/// From a moment on the clock shows so much more than UTC.
struct ClockTurn {
  journal::Moment at;
  int minutes_east = 0;
};

/// A reading that is kept and not believed: a figure beside the still, a gravity of the
/// ferment, or a whole reading that the follower refused, with why.
struct NotBelieved {
  journal::Id entry;
  std::variant<still::Doubt, ferment::DoubtedGravity, std::string> what;
};
/// What those who follow runs and ferment make of the readings.
struct Followed {
  std::vector<NotBelieved> doubts;
  std::vector<std::string> without;  ///< "strip 1: why it cannot be followed"
  /// By run, what its charge and heat are against the kit's boiler, a sentence each.
  std::map<journal::Id, std::vector<std::string>> against;
  std::vector<journal::Puzzle> asked{};   ///< by kit and recipe, of mash and pitch
  std::optional<plan::GasPitched> gas{};  ///< of the ferment as pitched
};

/// What a record is made from.
struct Recorded {
  const plan::Recipe& recipe;  ///< of the plan as it stands
  const plan::Kit& kit;
  const plan::Plan& plan;
  const journal::HouseState& house;
  const journal::BatchState& batch;  ///< of that house
  /// Those of the batch, as they came: corrections and what was struck out among them.
  std::span<const journal::Entry> entries;
  units::System system = units::System::metric;
  int minutes_east = 0;  ///< of UTC: the clock by which times are told, until its first turn
  std::vector<ClockTurn> turns{};  ///< put on or back since, in order of time
  /// Reckoned of the same journal by the plan's kit; nothing where nobody followed.
  std::optional<Followed> followed{};
};

/// Whether something was done: before that the sheet of a batch is its plan.
[[nodiscard]] bool has_begun(const journal::BatchState& batch);

/// The record.
///
/// returns    HTML; the same text for the same journal
/// accuracy   figures are those of the fold and of the account (journal/)
[[nodiscard]] std::string record_sheet(const Recorded& recorded, Paper paper);

}  // namespace lynearm::sheet
