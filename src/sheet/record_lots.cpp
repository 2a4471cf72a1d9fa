// Every lot of the batch, and of another's what went into it: what it came from, what there was
// of it, and where it went.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "sheet/record_flow.hpp"
#include "sheet/record_parts.hpp"

namespace lynearm::sheet {
namespace {

using journal::LotKind;
using journal::LotState;

std::string_view where_words(const std::string& where) {
  static const std::map<std::string, std::string_view, std::less<>> words = {
      {"charge", "into the still"}, {"blend", "into a lot"},
      {"wood", "onto wood"},        {"topping up", "onto wood, to top it up"},
      {"bottles", "into bottles"},  {"other", "gone"},
      {"sample", "samples"}};
  const auto at = words.find(where);
  return at == words.end() ? std::string_view(where) : at->second;
}

// Where a lot went, each way with its sum; before that, what was poured in.
std::string went(const LotState& lot, units::System system) {
  std::vector<std::pair<std::string, spirit::Lot>> sums;
  spirit::Lot poured_in;
  for (const journal::LotUse& use : lot.uses) {
    if (use.where == "gauging") continue;
    if (use.where == journal::topped_up) {
      poured_in = poured_in + use.lot * -1.0;
      continue;
    }
    const auto at = std::find_if(sums.begin(), sums.end(),
                                 [&](const auto& sum) { return sum.first == use.where; });
    if (at == sums.end()) {
      sums.emplace_back(use.where, use.lot);
    } else {
      at->second = at->second + use.lot;
    }
  }
  std::string text;
  if (poured_in.mass() > units::Mass{}) {
    text = fmt::format("{} poured in", cell(spirit::volume(poured_in), system));
  }
  for (const auto& [where, sum] : sums) {
    // What wood takes is no mixture: of that the alcohol alone is told.
    const std::string much = where == "soaked and evaporated"
                                 ? cell(spirit::pure_alcohol(sum), system) + " of alcohol"
                                 : cell(spirit::volume(sum), system);
    text += fmt::format("{}{} {}", text.empty() ? "" : "; ", much, where_words(where));
  }
  return text.empty() ? "–" : text;
}

// Lots of one label, the low wines of four strips, are told once with their number.
std::string parents_of(const Record& record, const LotState& lot) {
  std::vector<std::pair<std::string, int>> labels;
  for (const journal::LotName& parent : lot.parents) {
    const std::string label = label_of(record, parent);
    const auto at = std::find_if(labels.begin(), labels.end(),
                                 [&](const auto& one) { return one.first == label; });
    if (at == labels.end()) {
      labels.emplace_back(label, 1);
    } else {
      ++at->second;
    }
  }
  std::string text;
  for (const auto& [label, count] : labels) {
    text += text.empty() ? "" : "; ";
    text += count == 1 ? label : fmt::format("{} ({} lots)", label, count);
  }
  return text;
}

// The run that made it; none for what was brought in or poured together.
const journal::RunState* run_that_made(const Record& record, const LotState& lot) {
  if (!lot.batch) return nullptr;
  const auto of = record.from.house.batches.find(*lot.batch);
  if (of == record.from.house.batches.end()) return nullptr;
  for (const journal::RunState& run : of->second.runs) {
    const auto& by = lot.name.kind == LotKind::low_wines ? run.ended : run.allotted;
    if (by && by->entry == lot.name.entry) return &run;
  }
  return nullptr;
}

std::string from_words(const Record& record, const LotState& lot) {
  std::string text = parents_of(record, lot);
  const journal::RunState* run = run_that_made(record, lot);
  if (run == nullptr) return text.empty() ? "brought in" : text;
  // A strip of which no more is told is one of wash.
  if (run->wash || (text.empty() && run->kind == journal::RunKind::strip)) {
    text += text.empty() ? "the wash" : "; the wash";
  }
  return text.empty() ? "the charge of its run" : text;
}

// Whether some of a lot was poured into something of this batch.
bool gone_in(const Record& record, const LotState& lot) {
  const auto is = [&](const journal::LotPart& part) { return part.lot == lot.name; };
  const auto holds = [&](const std::vector<journal::LotPart>& parts) {
    return std::any_of(parts.begin(), parts.end(), is);
  };
  const auto any = [](const auto& entries, const auto& of) {
    return std::any_of(entries.begin(), entries.end(),
                       [&](const auto& one) { return of(*one.body); });
  };
  return std::any_of(record.batch.runs.begin(), record.batch.runs.end(),
                     [&](const journal::RunState& run) { return holds(run.parts); }) ||
         any(all_of<journal::LotMade>(record),
             [&](const auto& body) { return holds(body.parts); }) ||
         any(all_of<journal::WoodFilled>(record),
             [&](const auto& body) { return is(body.part); }) ||
         any(all_of<journal::WoodTopped>(record),
             [&](const auto& body) { return is(body.part) || body.lot == lot.name; }) ||
         any(all_of<journal::Bottled>(record), [&](const auto& body) { return is(body.part); });
}

std::string name_of(const Record& record, const LotState& lot) {
  if (lot.batch == record.batch.id) return lot.label;
  return lot.label + (lot.batch ? " (another batch's)" : " (the house's)");
}

std::string made_words(const Record& record, const LotState& lot) {
  const bool reckoned = lot.wood || mixed(record.from.house, lot);
  return lot_words(lot.made, record.system) + (reckoned ? ", reckoned" : "");
}

// Bottles are counted as long as what is left is whole ones.
std::string left_words(const LotState& lot, units::System system) {
  if (lot.bottles && lot.bottles->size > units::Volume{} &&
      lot.left.mass() > units::Mass::grams(0.05)) {
    constexpr double of_a_bottle = 0.02;
    const double bottles = spirit::volume(lot.left) / lot.bottles->size;
    const double whole = std::round(bottles);
    if (whole >= 1.0 && std::abs(bottles - whole) <= of_a_bottle) {
      return fmt::format("{:.0f} of {}", whole, cell(lot.bottles->size, system));
    }
  }
  return lot_words(lot.left, system);
}

}  // namespace

Html record_lots(const Record& record) {
  Table lots{.caption = "",
             .columns = {{"Lot", Align::left, 20},
                         {"from", Align::left, 21},
                         {"made", Align::right, 13},
                         {"when, by whom", Align::left, 15},
                         {"went", Align::left},
                         {"left", Align::right, 13}},
             .rows = {}};
  for (const LotState& lot : record.from.house.lots) {
    if (lot.batch != record.batch.id && !gone_in(record, lot)) continue;
    lots.rows.push_back({name_of(record, lot), from_words(record, lot), made_words(record, lot),
                         told(record, lot.told), went(lot, record.system),
                         left_words(lot, record.system)});
  }
  if (lots.rows.empty()) return {};
  return heading("Lots") + table(lots);
}

}  // namespace lynearm::sheet
