// From the hearts to the bottle as it was: lots poured together and brought down, what lay on
// wood, what was bottled.
#include <fmt/format.h>

#include "sheet/batch_parts.hpp"
#include "sheet/record_parts.hpp"
#include "wood/extraction.hpp"

namespace lynearm::sheet {
namespace {

using journal::LotKind;
using journal::LotState;
using journal::Stage;

const LotState* made_by(const Record& record, const journal::Id& entry, LotKind kind) {
  return journal::lot_named(record.from.house, {entry, kind});
}

std::string parts_of(const Record& record, const std::vector<journal::LotPart>& parts) {
  std::string text;
  for (const journal::LotPart& part : parts) {
    text += fmt::format("{}{} of {}", text.empty() ? "" : "; ",
                        cell(part.volume, record.system), label_of(record, part.lot));
  }
  return text;
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
    std::string gauged = open_cell(record);
    if (lot != nullptr && lot->measured) {
      spirit::Lot then = lot->made;
      for (const journal::LotUse& use : lot->uses) {
        if (use.where == "gauging" && use.told.entry == standing->id) then = then - use.lot;
      }
      gauged = lot_words(then, system);
    }
    lots.rows.push_back({body->name, parts_of(record, body->parts), cell(body->water, system),
                         lot == nullptr ? std::string(no_figure) : lot_words(lot->made, system),
                         std::move(gauged), told(record, told_of(*standing))});
  }
  return heading("Reduce") + cautions_box({cautions::storage}) +
         paragraph(fmt::format("Planned: {} and {} of water give {}.",
                               lot_words(planned.hearts, system), cell(planned.water, system),
                               lot_words(planned.result, system))) +
         table(lots) + notes_of(record, Stage::reduce);
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

std::string wood_words(const journal::WoodFilled& body) {
  std::string text = body.staves ? count_of(*body.staves, "stave", "staves") : body.in;
  if (!body.species.empty()) text += ", " + body.species;
  if (!body.toast.empty()) text += ", " + body.toast;
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
        record.planned.recipe.wood->species, record.planned.recipe.wood->toast);
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
         met_table("", rows) + samples(record) + notes_of(record, Stage::wood);
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
         table(bottles) + notes_of(record, Stage::bottle);
}

bool noted(const Record& record, Stage stage) {
  for (const journal::NoteState& note : record.batch.notes) {
    if (note.stage == stage) return true;
  }
  return false;
}

// A stage that has not begun stands as planned, with its blanks; in a closed batch it is left
// out, with what was noted.
Html ahead(const Record& record, Stage stage, Html (*part)(const Batch&), const char* name) {
  Html made;
  if (!record.batch.closed) {
    Writer out;
    out.open("div", {{"class", "plan"}}).html(part(record.planned)).close();
    made += out.finish();
  } else if (noted(record, stage)) {
    made += heading(name);
  }
  return made + notes_of(record, stage);
}

}  // namespace

Html record_finish(const Record& record) {
  Html part;
  part += all_of<journal::LotMade>(record).empty()
              ? ahead(record, Stage::reduce, reduce_part, "Reduce")
              : reduce(record);
  part += all_of<journal::WoodFilled>(record).empty()
              ? ahead(record, Stage::wood, wood_part, "Wood")
              : wood(record);
  part += all_of<journal::Bottled>(record).empty()
              ? ahead(record, Stage::bottle, bottle_part, "Bottle")
              : bottle(record);
  return part;
}

}  // namespace lynearm::sheet
