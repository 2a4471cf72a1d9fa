// Every lot with what it came from and where it went, and the account of pure alcohol: planned
// beside measured, and what is unaccounted for.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "journal/account.hpp"
#include "sheet/record_parts.hpp"

namespace lynearm::sheet {
namespace {

using journal::LotKind;
using journal::LotState;

std::string amount(units::Volume pure, units::System system) {
  return system == units::System::us ? units::fixed(pure.us_gallons(), 3)
                                     : units::fixed(pure.litres(), 2);
}

std::string_view where_words(const std::string& where) {
  static const std::map<std::string, std::string_view, std::less<>> words = {
      {"charge", "into the still"}, {"blend", "into a lot"}, {"wood", "onto wood"},
      {"bottles", "into bottles"},  {"other", "gone"},       {"sample", "samples"}};
  const auto at = words.find(where);
  return at == words.end() ? std::string_view(where) : at->second;
}

// Where a lot went, each way with its sum.
std::string went(const LotState& lot, units::System system) {
  std::vector<std::pair<std::string, spirit::Lot>> sums;
  for (const journal::LotUse& use : lot.uses) {
    if (use.where == "gauging") continue;
    const auto at = std::find_if(sums.begin(), sums.end(),
                                 [&](const auto& sum) { return sum.first == use.where; });
    if (at == sums.end()) {
      sums.emplace_back(use.where, use.lot);
    } else {
      at->second = at->second + use.lot;
    }
  }
  std::string text;
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

bool gone_in(const Record& record, const LotState& lot) {
  const auto holds = [&](const std::vector<journal::LotPart>& parts) {
    return std::any_of(parts.begin(), parts.end(),
                       [&](const journal::LotPart& part) { return part.lot == lot.name; });
  };
  if (std::any_of(record.batch.runs.begin(), record.batch.runs.end(),
                  [&](const journal::RunState& run) { return holds(run.parts); })) {
    return true;
  }
  const auto made = all_of<journal::LotMade>(record);
  return std::any_of(made.begin(), made.end(),
                     [&](const auto& one) { return holds(one.body->parts); });
}

spirit::Lot bottled(const Record& record) {
  spirit::Lot sum;
  for (const LotState* lot : lots_of(record, LotKind::bottles)) {
    if (lot->bottles) {
      sum = sum + spirit::lot(lot->bottles->size * static_cast<double>(lot->bottles->bottles),
                              lot->bottles->strength);
    }
  }
  return sum;
}

// Pure alcohol through each stage of the plan, and as it was measured.
Html stages(const Record& record, const journal::BatchAccount& account) {
  const units::System system = record.system;
  struct Through {
    std::optional<units::Volume> in, out;
  };
  std::map<std::string, Through, std::less<>> measured;
  const auto add = [](std::optional<units::Volume>& to, units::Volume more) {
    to = to.value_or(units::Volume{}) + more;
  };
  if (record.batch.ferment.wash) {
    measured["Ferment"].out = record.batch.ferment.wash->pure_alcohol;
  }
  for (const journal::AccountStep& step : account.steps) {
    if (step.stage == journal::Stage::strip) {
      add(measured["Strip"].in, step.in.value);
      add(measured["Strip"].out, step.out.value);
    } else if (step.stage == journal::Stage::spirit_run) {
      add(measured["Spirit run"].in, step.in.value);
    }
  }
  const auto hearts = lots_of(record, LotKind::hearts);
  if (!hearts.empty()) measured["Spirit run"].out = spirit::pure_alcohol(sum_made(hearts));
  for (const LotState* lot : lots_of(record, LotKind::spirit)) {
    if (lot->wood) {
      add(measured["Wood"].in, spirit::pure_alcohol(lot->made));
      for (const journal::LotUse& use : lot->uses) {
        if (use.where == "off the wood") {
          add(measured["Wood"].out, spirit::pure_alcohol(use.lot));
        }
      }
    }
  }
  for (const auto& one : all_of<journal::LotMade>(record)) {
    const LotState* lot =
        journal::lot_named(record.from.house, {one.standing->id, LotKind::spirit});
    if (lot == nullptr) continue;
    spirit::Lot then = lot->made;
    add(measured["Reduce"].in, spirit::pure_alcohol(lot->made));
    for (const journal::LotUse& use : lot->uses) {
      if (use.where == "gauging" && use.told.entry == one.standing->id) then = then - use.lot;
    }
    add(measured["Reduce"].out, spirit::pure_alcohol(then));
  }
  for (const LotState* lot : lots_of(record, LotKind::bottles)) {
    add(measured["Bottle"].in, spirit::pure_alcohol(lot->made));
  }
  if (measured.count("Bottle") > 0) {
    measured["Bottle"].out = spirit::pure_alcohol(bottled(record));
  }
  Table through{.caption = fmt::format("Through each stage, {}", volume_unit(system)),
                .columns = {{"Stage", Align::left},
                            {"in, planned", Align::right},
                            {"measured", Align::right},
                            {"through, planned", Align::right},
                            {"measured", Align::right},
                            {"less or more than planned", Align::right}},
                .rows = {}};
  const std::string none(no_figure);
  for (const plan::StageYield& stage : record.planned.plan.ledger.stages) {
    const auto at = measured.find(stage.stage);
    const Through found = at == measured.end() ? Through{} : at->second;
    // Of the mash nobody measures alcohol, nor what goes into a ferment.
    const bool never_in = stage.stage == "Mash" || stage.stage == "Ferment";
    const bool never_out = stage.stage == "Mash";
    std::string by = none;
    if (found.out) {
      const units::Volume more = *found.out - stage.out;
      by = fmt::format("{}{}", more > units::Volume{} ? "+" : "", amount(more, system));
    }
    through.rows.push_back({stage.stage, amount(stage.in, system),
                            found.in   ? amount(*found.in, system)
                            : never_in ? none
                                       : open_cell(record),
                            amount(stage.out, system),
                            found.out   ? amount(*found.out, system)
                            : never_out ? none
                                        : open_cell(record),
                            std::move(by)});
  }
  return table(through);
}

std::string give_or_take(journal::PureVolume volume, units::System system) {
  return tight(fmt::format("{} ± {}", amount(volume.value, system), amount(volume.sd, system)));
}

Html steps(const Record& record, const journal::BatchAccount& account) {
  if (account.steps.empty()) return {};
  const units::System system = record.system;
  Table gaps{.caption = fmt::format("Step by step as measured, {}", volume_unit(system)),
             .columns = {{"Step", Align::left},
                         {"in", Align::right},
                         {"out", Align::right},
                         {"gone, with a name", Align::left, 30},
                         {"unaccounted for", Align::right},
                         {"", Align::left, 17}},
             .rows = {}};
  journal::PureVolume all;
  const std::string none(no_figure);
  for (const journal::AccountStep& step : account.steps) {
    std::string named;
    for (const auto& [name, lost] : step.named) {
      named +=
          fmt::format("{}{} {}", named.empty() ? "" : "; ", amount(lost.value, system), name);
    }
    gaps.rows.push_back({step.what, give_or_take(step.in, system),
                         give_or_take(step.out, system), named.empty() ? none : named,
                         give_or_take(step.unaccounted, system),
                         step.telling ? "more than gauging explains" : "within gauging"});
    all = all + step.unaccounted;
  }
  const std::string sum = give_or_take(all, system);
  return table(gaps) +
         small_print(fmt::format(
             "Unaccounted for: in, less out, less what has a name; below nought: more came out "
             "than went in. Over these steps together {} {}. ±: one standard deviation, as "
             "well "
             "as a house gauges.",
             sum, volume_unit(system)));
}

}  // namespace

Html record_lots(const Record& record) {
  const units::System system = record.system;
  Table lots{.caption = "",
             .columns = {{"Lot", Align::left, 20},
                         {"from", Align::left, 21},
                         {"made", Align::right, 13},
                         {"when, by whom", Align::left, 15},
                         {"went", Align::left},
                         {"left", Align::right, 13}},
             .rows = {}};
  for (const LotState& lot : record.from.house.lots) {
    const bool here = lot.batch == record.batch.id;
    if (!here && !gone_in(record, lot)) continue;
    std::string parents = parents_of(record, lot);
    if (parents.empty()) {
      parents = lot.name.kind == LotKind::low_wines ? "the wash" : "brought in";
    }
    std::string left = lot_words(lot.left, system);
    if (lot.bottles && lot.left.mass() > units::Mass::grams(0.05)) {
      left = fmt::format("{} of {}", lot.bottles->bottles, cell(lot.bottles->size, system));
    }
    lots.rows.push_back({here ? lot.label : lot.label + " (another batch's)",
                         std::move(parents),
                         lot_words(lot.made, system) + (lot.measured ? "" : ", reckoned"),
                         told(record, lot.told), went(lot, system), std::move(left)});
  }
  if (lots.rows.empty()) return {};
  return heading("Lots") + table(lots);
}

Html record_ledger(const Record& record) {
  const journal::BatchAccount account = journal::account(record.from.house, record.batch);
  return heading("Ledger of pure alcohol, at 20 °C") + stages(record, account) +
         steps(record, account) + notes_of(record, journal::Stage::ledger);
}

}  // namespace lynearm::sheet
