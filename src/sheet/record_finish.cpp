// From the hearts to the bottle as it was: lots poured together and brought down, what lay on
// wood, what was bottled.
#include <fmt/format.h>

#include "sheet/batch_parts.hpp"
#include "sheet/record_flow.hpp"
#include "sheet/record_parts.hpp"
#include "sheet/wood_words.hpp"
#include "wood/extraction.hpp"

namespace lynearm::sheet {
namespace {

using journal::LotKind;
using journal::LotState;
using journal::Stage;

const LotState* made_by(const Record& record, const journal::Id& entry, LotKind kind) {
  return journal::lot_named(record.from.house, {entry, kind});
}

Html reduce(const Record& record) {
  const plan::ReducePlan& planned = record.planned.plan.finish.reduce;
  const units::System system = record.system;
  Table lots{.caption = "",
             .columns = {{"Lot", Align::left},
                         {"from", Align::left, 26},
                         {"water", Align::right},
                         {"reckoned", Align::right},
                         {"gauged", Align::right},
                         {"when, by whom", Align::left, 24}},
             .rows = {}};
  for (const auto& [standing, body] : all_of<journal::LotMade>(record)) {
    const LotState* lot = made_by(record, standing->id, LotKind::spirit);
    // Gauged weeks later it is another spirit: samples are out of it, and air had its share.
    const auto gauged = lot == nullptr ? std::nullopt : gauged_when_made(*lot);
    lots.rows.push_back({body->name, parts_of(record, body->parts), cell(body->water, system),
                         lot == nullptr ? std::string(no_figure) : lot_words(lot->made, system),
                         gauged ? lot_words(*gauged, system) : open_cell(record),
                         told(record, told_of(*standing))});
  }
  return heading("Reduce") + cautions_box({cautions::storage}) +
         paragraph(fmt::format("Planned: {} and {} of water give {}.",
                               lot_words(planned.hearts, system), cell(planned.water, system),
                               lot_words(planned.result, system))) +
         table(lots) + told_besides(record, Stage::reduce);
}

Html samples(const Record& record) {
  Table taken{.caption = "Samples",
              .columns = {{"When", Align::left, 13},
                          {"after", Align::right},
                          {"taken", Align::right},
                          {"nose and palate", Align::left},
                          {"by", Align::left, 17}},
              .rows = {}};
  for (const auto& [standing, body] : all_of<journal::WoodSampled>(record)) {
    const LotState* of = journal::lot_named(record.from.house, body->lot);
    std::string words = fmt::format("{}", fmt::join(body->words, ", "));
    if (!body->text.empty()) words += (words.empty() ? "" : ": ") + body->text;
    taken.rows.push_back(
        {when(record, standing->happened),
         of == nullptr
             ? std::string(no_figure)
             : tight(fmt::format("{:.0f} d",
                                 journal::since(standing->happened, of->told.at).days())),
         in_the_glass(body->volume, record.system), words.empty() ? std::string("–") : words,
         standing->said->who});
  }
  return taken.rows.empty() ? Html{} : table(taken);
}

// What was poured after.
Html topped(const Record& record) {
  Table rows{.caption = "Topped up",
             .columns = {{"Lot", Align::left},
                         {"poured in", Align::right},
                         {"of", Align::left, 26},
                         {"when, by whom", Align::left, 24}},
             .rows = {}};
  for (const Topping& one : toppings(record)) {
    rows.rows.push_back({one.lot->label, lot_words(one.use->lot * -1.0, record.system),
                         one.from == nullptr ? std::string(no_figure) : one.from->label,
                         told(record, one.use->told)});
  }
  return rows.rows.empty() ? Html{} : table(rows);
}

std::string wood_words(const journal::WoodFilled& body) {
  std::string text = body.staves ? count_of(*body.staves, "stave", "staves") : body.in;
  if (!body.species.empty()) text += ", " + species_words(body.species);
  if (!body.toast.empty()) text += ", " + body.toast;
  if (const std::string used = used_before(body.used_times); !used.empty()) text += ", " + used;
  for (const journal::StavesLaid& one : body.besides) text += "; with " + staves_words(one);
  return text;
}

Html wood(const Record& record) {
  const units::System system = record.system;
  const std::string none(no_figure);
  std::vector<Met> rows;
  const auto& planned = record.planned.plan.finish.wood;
  std::string planned_in = none;
  if (planned && record.planned.recipe.wood) {
    planned_in = fmt::format(
        "{}, {}, {}",
        planned->staves > 0 ? count_of(planned->staves, "stave", "staves") : planned->in,
        species_words(record.planned.recipe.wood->species), record.planned.recipe.wood->toast);
  }
  for (const auto& [standing, body] : all_of<journal::WoodFilled>(record)) {
    const LotState* lot = made_by(record, standing->id, LotKind::spirit);
    const std::string at = told(record, told_of(*standing));
    rows.push_back({"Wood", planned_in, wood_words(*body), at});
    rows.push_back({"Filled", planned ? lot_words(planned->into_wood, system) : none,
                    lot == nullptr ? none : lot_words(lot->made, system), at});
    if (lot != nullptr) {
      rows.back().name = fmt::format("Filled: {}", label_of(record, body->part.lot));
      rows.push_back({"Time", planned ? cell(planned->time, system) : none, open_cell(record)});
      Met off{"Off the wood", planned ? lot_words(planned->matured, system) : none,
              open_cell(record)};
      Met gone{"soaked and evaporated, pure alcohol",
               planned ? cell(spirit::pure_alcohol(planned->soaked) +
                                  spirit::pure_alcohol(planned->evaporated),
                              system)
                       : none,
               open_cell(record)};
      for (const journal::LotUse& use : lot->uses) {
        if (use.where == "off the wood") {
          off.measured = lot_words(use.lot, system);
          off.when = told(record, use.told);
          rows.back().measured = cell(journal::since(use.told.at, lot->told.at), system);
        }
        if (use.where == "soaked and evaporated") {
          gone.measured = cell(spirit::pure_alcohol(use.lot), system);
          gone.when = told(record, use.told);
        }
      }
      rows.push_back(off);
      rows.push_back(gone);
    }
  }
  return heading("Wood") +
         cautions_box({Caution{"Not age", wood::extraction_caution}, cautions::charring}) +
         met_table("", rows) + topped(record) + samples(record) +
         told_besides(record, Stage::wood);
}

// What was told to stand on the labels.
Html labels(const Record& record) {
  Table rows{.caption = "On the labels",
             .columns = {{"Lot", Align::left},
                         {"name", Align::left},
                         {"strength, stated", Align::right},
                         {"class", Align::left},
                         {"when, by whom", Align::left, 24}},
             .rows = {}};
  for (const auto& [standing, body] : all_of<journal::Labelled>(record)) {
    rows.rows.push_back({label_of(record, body->lot), body->name.empty() ? "–" : body->name,
                         cell(body->strength, record.system),
                         body->names_class.empty() ? "none" : body->names_class,
                         told(record, told_of(*standing))});
  }
  return rows.rows.empty() ? Html{} : table(rows);
}

Html bottle(const Record& record) {
  const plan::BottlePlan& planned = record.planned.plan.finish.bottle;
  const units::System system = record.system;
  Table bottles{.caption = "",
                .columns = {{"Lot", Align::left},
                            {"bottles", Align::right},
                            {"size", Align::right},
                            {"strength", Align::right},
                            {"poured", Align::right},
                            {"when, by whom", Align::left, 30}},
                .rows = {}};
  for (const auto& [standing, body] : all_of<journal::Bottled>(record)) {
    bottles.rows.push_back({label_of(record, body->part.lot), fmt::format("{}", body->bottles),
                            cell(body->size, system), cell(body->strength, system),
                            cell(body->part.volume, system), told(record, told_of(*standing))});
  }
  return heading("Bottle") + cautions_box({cautions::storage}) +
         paragraph(fmt::format("Planned: {} of {} at {}, and {} over.",
                               count_of(planned.bottles, "bottle", "bottles"),
                               cell(planned.size, system), cell(planned.strength, system),
                               cell(planned.remainder_volume, system))) +
         table(bottles) + labels(record) + told_besides(record, Stage::bottle);
}

}  // namespace

Html record_finish(const Record& record) {
  Html part;
  part += all_of<journal::LotMade>(record).empty()
              ? ahead(record, {Stage::reduce}, reduce_part, "Reduce")
              : reduce(record);
  part +=
      all_of<journal::WoodFilled>(record).empty()
          ? ahead(record, {Stage::wood}, wood_part, "Wood", topped(record) + samples(record))
          : wood(record);
  part += all_of<journal::Bottled>(record).empty()
              ? ahead(record, {Stage::bottle}, bottle_part, "Bottle", labels(record))
              : bottle(record);
  return part;
}

}  // namespace lynearm::sheet
