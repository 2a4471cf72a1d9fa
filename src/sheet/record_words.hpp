// The words of a record: times of the house's calendar, who told it, entries in a line each,
// and tables of planned beside measured.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "journal/standing.hpp"
#include "sheet/batch_words.hpp"
#include "sheet/record_sheet.hpp"
#include "spirit/lot.hpp"

namespace lynearm::sheet {

/// A record on its way to paper.
struct Record {
  const Recorded& from;
  Batch planned;
  const journal::BatchState& batch;
  units::System system{};
  journal::Standings standings;  ///< of its entries
};

/// "7 Oct 11:05", by the record's clock.
[[nodiscard]] std::string when(const Record& record, journal::Moment at);
/// "7 Oct 11:05:40": where two times differ by less than `when` tells.
[[nodiscard]] std::string when_to_the_second(const Record& record, journal::Moment at);
/// "7 October 2026".
[[nodiscard]] std::string day(const Record& record, journal::Moment at);
/// "11:05".
[[nodiscard]] std::string hour(const Record& record, journal::Moment at);
/// The clock of the record, and where it was put on or back: "UTC + 2:00; from 25 Oct 02:00 on
/// UTC + 1:00".
[[nodiscard]] std::string clock_words(const Record& record);
/// "7 Oct 11:05, the stillman", and whether that was corrected.
[[nodiscard]] std::string told(const Record& record, const journal::Told& told);
/// All who told one of these, each once, in the order they first come; never nothing.
[[nodiscard]] std::string by_whom(const std::vector<const journal::Told*>& all);

/// What is asked of its entries: first what the fold could make nothing of, then amounts that
/// cannot be, by the journal and by the kit.
[[nodiscard]] std::vector<journal::Puzzle> asked_of(const Record& record);

/// What of a reading is not believed, by who followed: "not believed", or by the instrument
/// "head thermometer not believed"; empty where all of it is, or nobody followed.
[[nodiscard]] std::string not_believed(const Record& record, const journal::Id& entry);

/// For a cell whose figure may still come: blank, or in a closed batch a dash.
[[nodiscard]] std::string open_cell(const Record& record);

/// With four decimals: as finely as a hydrometer is read.
[[nodiscard]] inline std::string gravity_cell(units::SpecificGravity gravity) {
  return units::print(gravity, units::System::metric, 4);
}
/// "2.72 L at 71.3 %vol"; one that is empty is "nothing".
[[nodiscard]] std::string lot_words(const spirit::Lot& lot, units::System system);
/// A wort or wash, or a spirit, as its instrument showed it.
[[nodiscard]] std::string shown(const journal::GravityRead& read, units::System system);
[[nodiscard]] std::string shown(const journal::StrengthRead& read, units::System system);
[[nodiscard]] std::string shown(const journal::VolumeRead& read, units::System system);
/// What the spout's reading truly means; nothing where none was read or it means nothing.
[[nodiscard]] std::optional<units::VolumeStrength> true_spout(const still::Reading& reading);

/// What an entry says, in a line: "mash temperature: 56.1 °C".
[[nodiscard]] std::string in_words(const journal::Entry& entry, units::System system);

[[nodiscard]] const char* words(journal::LotKind kind);
[[nodiscard]] const char* words(journal::IodineColour colour);
/// A lot by its label; one that the house does not know, by its kind.
[[nodiscard]] std::string label_of(const Record& record, const journal::LotName& name);

/// "2.01 L of low wines; 0.50 L of feints 3"; nothing for no parts.
[[nodiscard]] std::string parts_of(const Record& record,
                                   const std::vector<journal::LotPart>& parts);

/// One figure as it was planned and as it was measured.
struct Met {
  std::string name, planned, measured, when = std::string(no_figure);
};
[[nodiscard]] Html met_table(std::string caption, const std::vector<Met>& rows);
/// Like a table, its rows in two halves beside each other when there are more than `alone`.
[[nodiscard]] Html in_halves(Table table, std::size_t alone = 8);

/// The notes of a stage, with how many photographs hang on each.
[[nodiscard]] Html notes_of(const Record& record, journal::Stage stage);
/// What was put in at a stage, besides what has a table of its own.
[[nodiscard]] Html additions_of(const Record& record, journal::Stage stage);
/// Both of these.
[[nodiscard]] Html told_besides(const Record& record, journal::Stage stage);

/// Several cautions in one frame, set small: for steps of which a record tells.
[[nodiscard]] Html cautions_box(std::initializer_list<Caution> cautions);

/// What stands of one kind, in the order in which it happened.
template <class B>
struct Stood {
  const journal::Standing* standing = nullptr;
  const B* body = nullptr;
};
template <class B>
[[nodiscard]] std::vector<Stood<B>> all_of(const Record& record) {
  std::vector<Stood<B>> found;
  for (const journal::Standing& one : record.standings.entries) {
    if (const auto* body = std::get_if<B>(&one.said->body)) found.push_back({&one, body});
  }
  return found;
}
[[nodiscard]] inline journal::Told told_of(const journal::Standing& one) {
  return {one.id, one.happened, one.said->who, one.corrections};
}

/// Lots of a kind that this batch made, in the order of their making.
[[nodiscard]] std::vector<const journal::LotState*> lots_of(const Record& record,
                                                            journal::LotKind kind);
[[nodiscard]] spirit::Lot sum_made(const std::vector<const journal::LotState*>& lots);

}  // namespace lynearm::sheet
