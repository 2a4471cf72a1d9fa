// The front of a record: what the batch was and what came of it; and the stream of its alcohol,
// which stands after a table that may break, since a tall picture cannot and would leave the
// foot of the first page empty.
#include <fmt/format.h>

#include <algorithm>

#include "sheet/record_parts.hpp"
#include "sheet/record_stream.hpp"

namespace lynearm::sheet {
namespace {

using journal::LotKind;
using journal::LotState;
using journal::RunKind;

constexpr Caution law_of_a_record{
    "Law",
    "Distilling without a licence is unlawful in many countries, even for one's own use. This "
    "record is kept for the maker and is no permission: local law, fire code and licensed "
    "practice decide. Nothing in it says that a spirit may be drunk."};

void spirit_runs(const Record& record, std::vector<std::string>& told) {
  int runs = 0;
  int cut = 0;
  std::size_t jars = 0;
  bool going = false;
  for (const journal::RunState& run : record.batch.runs) {
    if (run.kind != RunKind::spirit) continue;
    ++runs;
    cut += run.allotted ? 1 : 0;
    jars += run.jars.size();
    going = going || run.standing != journal::RunStanding::ended;
  }
  if (runs == 0) return;
  const std::string name = runs == 1 ? "The spirit run" : "The spirit runs";
  if (cut == 0) {
    told.push_back(fmt::format("{} {}; {} filled, and no cut is made yet.", name,
                               runs == 1 ? (going ? "is not ended" : "is ended")
                                         : (going ? "are not all ended" : "are ended"),
                               count_of(static_cast<int>(jars), "jar is", "jars are")));
    return;
  }
  const auto hearts = lots_of(record, LotKind::hearts);
  const auto feints = lots_of(record, LotKind::feints);
  told.push_back(fmt::format(
      "{} gave {} of hearts; {}.",
      cut == runs ? name : fmt::format("{} of {} spirit runs", cut, runs),
      hearts.empty() ? std::string("nothing") : lot_words(sum_made(hearts), record.system),
      feints.empty()
          ? std::string("no feints are kept")
          : fmt::format("{} of feints are kept", lot_words(sum_made(feints), record.system))));
}

// What came of it, in sentences.
std::string outcome(const Record& record) {
  const journal::BatchState& batch = record.batch;
  const units::System system = record.system;
  std::vector<std::string> told;
  if (batch.ferment.pitch) {
    std::string text =
        fmt::format("{} of wort at {} were pitched", cell(batch.ferment.pitch->volume, system),
                    gravity_cell(batch.ferment.pitch->gravity));
    if (batch.ferment.wash) {
      text += fmt::format(" and fermented to {}, a wash of {}",
                          gravity_cell(batch.ferment.wash->gravity),
                          cell(batch.ferment.wash->strength, system));
    }
    told.push_back(text + ".");
  }
  // Of a strip that is running, or not gauged, nothing is known to come yet.
  const auto low_wines = lots_of(record, LotKind::low_wines);
  if (!low_wines.empty()) {
    told.push_back(fmt::format("{} gave {} of low wines.",
                               count_of(static_cast<int>(low_wines.size()), "strip", "strips"),
                               lot_words(sum_made(low_wines), system)));
  }
  spirit_runs(record, told);
  for (const LotState* lot : lots_of(record, LotKind::spirit)) {
    if (!lot->wood || lot->left.mass() <= units::Mass::grams(1.0)) continue;
    told.push_back(fmt::format("On wood: {} ({}).", lot_words(lot->left, system), lot->label));
  }
  for (const LotState* lot : lots_of(record, LotKind::bottles)) {
    if (!lot->bottles) continue;
    told.push_back(fmt::format("Bottled {}: {} of {} at {}.", day(record, lot->told.at),
                               count_of(lot->bottles->bottles, "bottle", "bottles"),
                               cell(lot->bottles->size, system),
                               cell(lot->bottles->strength, system)));
  }
  const std::vector<journal::Puzzle> all = asked_of(record);
  const auto asked = std::count_if(all.begin(), all.end(),
                                   [](const journal::Puzzle& one) { return one.counts; });
  if (asked > 0) {
    told.push_back(fmt::format("{} cannot be so, and {} in these figures as told: see the end.",
                               count_of(static_cast<int>(asked), "entry", "entries"),
                               asked == 1 ? "stands" : "stand"));
  }
  return told.empty() ? "Nothing of it is measured yet."
                      : fmt::format("{}", fmt::join(told, " "));
}

Html dates(const Record& record) {
  const journal::BatchState& batch = record.batch;
  std::vector<std::pair<std::string, std::string>> entries;
  // With the first that was done in it: a batch is often entered days after its pitch.
  entries.emplace_back("Begun", batch.begun ? day(record, batch.first) : "–");
  if (batch.closed) {
    entries.emplace_back("Closed", day(record, batch.closed->at));
  } else {
    entries.emplace_back("In hand; last told", when(record, batch.last));
  }
  std::vector<journal::Told> tellers;
  for (const journal::Standing& one : record.standings.entries) tellers.push_back(told_of(one));
  std::vector<const journal::Told*> all;
  for (const journal::Told& one : tellers) all.push_back(&one);
  entries.emplace_back("Told by", by_whom(all));
  entries.emplace_back("Entries", batch.struck > 0 ? fmt::format("{}, and {} struck out",
                                                                 batch.entries, batch.struck)
                                                   : fmt::format("{}", batch.entries));
  if (batch.plan) {
    entries.emplace_back(
        "The plan",
        batch.plan->earlier > 0
            ? fmt::format("{}; {}", when(record, batch.plan->told.at),
                          count_of(batch.plan->earlier, "earlier one", "earlier ones"))
            : when(record, batch.plan->told.at));
  }
  entries.emplace_back("Times are", clock_words(record));
  return facts(entries);
}

}  // namespace

Html record_front(const Record& record) {
  Html front = framed(law_of_a_record);
  std::string remark = record.batch.remark;
  if (record.batch.invented) {
    remark +=
        fmt::format("{}A demonstration: nobody made this spirit.", remark.empty() ? "" : " ");
  }
  if (!remark.empty()) front += paragraph(remark);
  front += dates(record);
  front += subheading("What came of it") + paragraph(outcome(record));
  front += subheading("Planned and measured") + record_figures(record);
  Writer out;
  out.open("div", {{"class", "front"}}).html(front).close();
  return out.finish();
}

Html record_alcohol(const Record& record) {
  const auto stream = record_stream_picture(record);
  if (!stream) return {};
  return heading("The stream of its alcohol") +
         figure(
             *stream,
             "Pure alcohol at 20 °C, to scale. Grey: measured. White, with a dashed edge: as "
             "planned from what is measured. Each step by itself: see Ledger.");
}

}  // namespace lynearm::sheet
