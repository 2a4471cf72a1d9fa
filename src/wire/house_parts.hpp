// What the house's answers are made of: one function to a thing that the journal folds to. For
// the sources of this room only.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "journal/account.hpp"
#include "journal/glass.hpp"
#include "journal/state.hpp"
#include "plan/room_gas.hpp"
#include "wire/entry_fields.hpp"
#include "wire/entry_writer.hpp"
#include "wire/figure.hpp"
#include "wire/object_text.hpp"

namespace lynearm::wire {

/// How a run stands, by journal::RunStanding.
inline constexpr std::array<std::string_view, 3> run_standings = {"running", "stopped",
                                                                  "ended"};

/// An object for up to so many keys. One that outgrows its room copies all it holds, with every
/// list in it: its keys are const, so that they are not moved.
[[nodiscard]] Json object_for(std::size_t keys);
/// Of which entry, when, by whom, and how often it was corrected.
[[nodiscard]] Json told_json(const journal::Told& told);
[[nodiscard]] Json lot_json(const spirit::Lot& lot);
/// A difference of lots has a volume of pure alcohol, but no strength.
[[nodiscard]] Json part_json(const spirit::Lot& lot);
[[nodiscard]] Json lot_name_json(const journal::LotName& name);
/// Pure alcohol is a volume at 20 °C; a proof gallon is one at 60 °F.
[[nodiscard]] Json proof_gallons(units::Volume pure_alcohol);
[[nodiscard]] Json note_json(const journal::NoteState& note);
[[nodiscard]] Json puzzle_json(const journal::Puzzle& puzzle);
[[nodiscard]] Json mash_json(const journal::MashState& mash);
/// account    of its batch: how much of the wash waits
/// gas        of it as pitched; null where it is not known
[[nodiscard]] Json ferment_json(const journal::FermentState& ferment,
                                const journal::BatchAccount& account,
                                const plan::GasPitched* gas);
/// A lot with its parents and uses; its reason is by the glass it was gauged with.
[[nodiscard]] Json whole_lot_json(const journal::LotState& lot, const journal::Glass& glass);
/// The steps of a batch's account, in order.
[[nodiscard]] Json account_json(const journal::BatchAccount& account);
/// Puts a run to the end of a text, without a tree: a logger's holds thousands of readings.
///
/// against    what speaks against its charge and heat, a sentence each
void write_run(std::string& text, const journal::RunState& run,
               const std::vector<std::string>& against);

/// A body as an entry writes it.
template <class B>
[[nodiscard]] Json body_of(const B& body) {
  EntryWriter writer;
  B copy = body;
  describe(writer, copy);
  return std::move(writer.object);
}

/// One row of each.
template <class Rows, class Row>
[[nodiscard]] Json list_of(const Rows& rows, const Row& row) {
  Json list = Json::array();
  for (const auto& one : rows) list.push_back(row(one));
  return list;
}

/// What was told, as it was told.
template <class B>
[[nodiscard]] Json told_and(const journal::Told& told, const B& body) {
  Json json = told_json(told);
  json.update(body_of(body));
  return json;
}

}  // namespace lynearm::wire
