#include "wire/house.hpp"

#include <span>
#include <utility>

#include "journal/account.hpp"
#include "journal/kinds.hpp"
#include "spirit/account.hpp"
#include "spirit/strength.hpp"
#include "wire/entry_fields.hpp"
#include "wire/entry_writer.hpp"
#include "wire/figure.hpp"
#include "wire/object_text.hpp"
#include "wire/on_wood.hpp"
#include "wire/whys.hpp"

namespace lynearm::wire {
namespace {

using namespace journal;  // this file is about nothing else

// An object for up to so many keys. One that outgrows its room copies all it holds, with every
// list in it: its keys are const, so that they are not moved.
Json object_for(std::size_t keys) {
  Json json = Json::object();
  json.get_ref<Json::object_t&>().reserve(keys);
  return json;
}

Json told_json(const Told& told) {
  Json json = object_for(8);
  json["entry"] = print(told.entry);
  json["at"] = print(told.at);
  if (!told.who.empty()) json["who"] = told.who;
  if (told.corrections > 0) json["corrections"] = told.corrections;
  return json;
}

Json lot_json(const spirit::Lot& lot) {
  const bool there = lot.mass() > units::Mass{};
  Json json;
  json["volume_L_20C"] = figure(there ? spirit::volume(lot).litres() : 0.0);
  json["strength_percent_vol"] = figure(there ? spirit::strength(lot).percent() : 0.0);
  json["pure_alcohol_L_20C"] = figure(spirit::pure_alcohol(lot).litres());
  json["proof_gallons"] = figure(spirit::proof_gallons(lot.ethanol).gallons());
  json["mass_kg"] = figure(lot.mass().kilograms());
  return json;
}

// A difference of lots has a volume of pure alcohol, but no strength.
Json part_json(const spirit::Lot& lot) {
  return {{"pure_alcohol_L_20C", figure(spirit::pure_alcohol(lot).litres())},
          {"proof_gallons", figure(spirit::proof_gallons(lot.ethanol).gallons())},
          {"mass_kg", figure(lot.mass().kilograms())}};
}

Json lot_name_json(const LotName& name) {
  return {{"entry", print(name.entry)},
          {"kind", std::string(fields::lot_kinds[static_cast<std::size_t>(name.kind)])}};
}

// Pure alcohol is a volume at 20 °C; a proof gallon is one at 60 °F.
Json proof_gallons(units::Volume pure_alcohol) {
  return figure(
      spirit::proof_gallons(spirit::PureAlcohol::litres(pure_alcohol.litres())).gallons());
}

Json pure_json(const PureVolume& pure) {
  return {{"pure_alcohol_L_20C", figure(pure.value.litres())},
          {"proof_gallons", proof_gallons(pure.value)},
          {"standard_L_20C", figure(pure.sd.litres())},
          {"standard_proof_gallons", proof_gallons(pure.sd)}};
}

template <class B>
Json body_of(const B& body) {
  EntryWriter writer;
  B copy = body;
  describe(writer, copy);
  return std::move(writer.object);
}

template <class Rows, class Row>
Json list_of(const Rows& rows, const Row& row) {
  Json list = Json::array();
  for (const auto& one : rows) list.push_back(row(one));
  return list;
}

Json note_json(const NoteState& note) {
  Json json = told_json(note.told);
  json["stage"] = std::string(words(note.stage));
  json["text"] = note.text;
  if (!note.attachments.empty()) json["attachments"] = note.attachments;
  return json;
}

// What was told, as it was told.
template <class B>
Json told_and(const Told& told, const B& body) {
  Json json = told_json(told);
  json.update(body_of(body));
  return json;
}

Json air_json(const AirState& air) { return told_and(air.told, air.air); }

Json puzzle_json(const Puzzle& puzzle) {
  return {{"entry", print(puzzle.entry)}, {"why", puzzle.why}};
}

Json mash_json(const MashState& mash) {
  Json json;
  json["temperatures"] = list_of(mash.temperatures, [](const MashPoint& point) {
    Json row = told_json(point.told);
    row["temperature_C"] = figure(point.temperature.celsius());
    return row;
  });
  json["waters"] = list_of(mash.waters, [](const MashWaterState& water) {
    Json row = told_json(water.told);
    row["volume_L"] = figure(water.volume.litres());
    row["temperature_C"] = figure(water.temperature.celsius());
    return row;
  });
  json["checks"] = list_of(mash.checks, [](const MashCheckState& check) {
    Json row = told_json(check.told);
    if (check.iodine) {
      row["iodine"] =
          std::string(fields::iodine_colours[static_cast<std::size_t>(*check.iodine)]);
    }
    if (check.gravity) row["specific_gravity"] = figure(check.gravity->ratio());
    return row;
  });
  json["worts"] = list_of(mash.worts, [](const WortState& wort) {
    Json row = told_json(wort.told);
    row["from"] = wort.from;
    row["volume_L_20C"] = figure(wort.volume.litres());
    row["specific_gravity"] = figure(wort.gravity.ratio());
    row["extract_kg"] = figure(wort.extract.kilograms());
    return row;
  });
  json["extract_kg"] = figure(mash.extract().kilograms());
  return json;
}

Json ferment_json(const FermentState& ferment) {
  Json json = Json::object();
  if (ferment.pitch) {
    Json row = told_json(ferment.pitch->told);
    row["volume_L_20C"] = figure(ferment.pitch->volume.litres());
    row["specific_gravity"] = figure(ferment.pitch->gravity.ratio());
    row["extract_kg"] = figure(ferment.pitch->extract.kilograms());
    row["yeast"] = ferment.pitch->yeast;
    row["mass_g"] = figure(ferment.pitch->mass.grams());
    json["pitch"] = std::move(row);
  }
  json["readings"] = list_of(ferment.points, [](const FermentPoint& point) {
    Json row = told_json(point.told);
    if (point.gravity) {
      row["specific_gravity"] = figure(point.gravity->ratio());
      row["by_refractometer"] = point.by_refractometer;
    }
    if (point.temperature) row["temperature_C"] = figure(point.temperature->celsius());
    return row;
  });
  if (ferment.racked) {
    Json row = told_json(ferment.racked->told);
    row["clear_L_20C"] = figure(ferment.racked->clear.litres());
    if (ferment.racked->lees) row["lees_L"] = figure(ferment.racked->lees->litres());
    json["racked"] = std::move(row);
  }
  if (ferment.wash) {
    json["wash"] = {{"entry", print(ferment.wash->told.entry)},
                    {"at", print(ferment.wash->told.at)},
                    {"specific_gravity", figure(ferment.wash->gravity.ratio())},
                    {"strength_percent_vol", figure(ferment.wash->strength.percent())},
                    {"volume_L_20C", figure(ferment.wash->volume.litres())},
                    {"pure_alcohol_L_20C", figure(ferment.wash->pure_alcohol.litres())},
                    {"proof_gallons", proof_gallons(ferment.wash->pure_alcohol)}};
    if (ferment.wash->unread)
      json["wash"]["unread_days"] = figure(ferment.wash->unread->days());
  }
  return json;
}

Json jar_json(const JarState& jar) {
  Json json;
  json["jar"] = jar.jar;
  if (jar.filled) json["filled"] = told_json(*jar.filled);
  if (jar.as_filled) json["as_filled_mL"] = figure(jar.as_filled->millilitres());
  if (jar.lot) {
    json["gauged"] = told_json(*jar.gauged);
    json["lot"] = lot_json(*jar.lot);
  }
  json["notes"] = list_of(jar.notes, [](const JarNote& note) {
    Json row = told_json(note.told);
    if (!note.words.empty()) row["words"] = note.words;
    if (!note.text.empty()) row["text"] = note.text;
    if (note.fault) row["fault"] = figure(*note.fault);
    return row;
  });
  if (jar.poured) {
    json["poured"] = body_of(*jar.poured);
    json["left"] = lot_json(*jar.left);
  }
  return json;
}

constexpr std::array<std::string_view, 3> run_standings = {"running", "stopped", "ended"};

void write_told(ObjectText& json, const Told& told) {
  json.add_plain("entry", print(told.entry));
  json.add_plain("at", print(told.at));
  if (!told.who.empty()) json.add("who", told.who);
  if (told.corrections > 0) json.add("corrections", told.corrections);
}

// Writes what describe() names of a reading, as EntryWriter does, but without a tree.
class ReadingText {
 public:
  explicit ReadingText(ObjectText& json) : json_(json) {}

  void id(const char*, const Id&) {}  // the run is what the reading stands in
  void text(const char* name, const std::string& value, std::size_t, bool required) {
    if (required || !value.empty()) json_.add(name, value);
  }
  template <class Q>
  void amount(const char* name, const std::optional<Q>& value, const Unit<Q>& unit) {
    if (value) json_.add(name, kept(unit.in(*value)));
  }
  template <class E>
  void choice(const char* name, const std::optional<E>& value,
              std::span<const std::string_view> words) {
    if (value) json_.add_plain(name, words[static_cast<std::size_t>(*value)]);
  }
  template <class B>
  void part(const char* name, const std::optional<B>& value) {
    if (value) json_.add(name, body_of(*value));
  }

 private:
  ObjectText& json_;
};

// A run that a logger reads by the second has thousands of them, so long or shorter.
constexpr std::size_t usual_reading_bytes = 200;

void write_reading(std::string& text, const RunPoint& point) {
  ObjectText json(text);
  write_told(json, point.told);
  json.add("minutes", figure(point.reading.at.minutes()));
  ReadingText figures(json);
  RunRead read{{}, point.reading};
  describe(figures, read);
  json.end();
}

void write_run(std::string& text, const RunState& run) {
  ObjectText json(text);
  write_told(json, run.told);
  json.add("run", fields::run_kinds[static_cast<std::size_t>(run.kind)]);
  json.add("standing", run_standings[static_cast<std::size_t>(run.standing)]);
  json.add("charge_L_20C", figure(run.charge_volume.litres()));
  if (run.charge_known) {
    json.add("charge", lot_json(run.charge));
    json.add("charge_gauged", run.charge_gauged);
  }
  if (run.wash) json.add("wash_L_20C", figure(run.wash->litres()));
  json.add("lots", list_of(run.parts, [](const LotPart& part) { return body_of(part); }));
  if (run.power) json.add("power_W", figure(run.power->watts()));
  json.name("readings");
  // A text that outgrows its room is there twice for a while.
  text.reserve(text.size() + run.readings.size() * usual_reading_bytes);
  write_list(text, run.readings, [&](const RunPoint& point) { write_reading(text, point); });
  json.add("jars", list_of(run.jars, [](const auto& jar) { return jar_json(jar.second); }));
  if (run.allotted) json.add("allotted", told_json(*run.allotted));
  if (run.ended) json.add("ended", told_json(*run.ended));
  if (run.collected_read) json.add("collected_read", body_of(*run.collected_read));
  if (run.collected) json.add("collected", lot_json(*run.collected));
  if (run.left) json.add("left_L", figure(run.left->litres()));
  if (run.left_lot) json.add("left", lot_json(*run.left_lot));
  json.end();
}

Json whole_lot_json(const LotState& lot, const journal::Glass& glass) {
  Json json = told_json(lot.told);
  if (lot.batch) json["batch"] = print(*lot.batch);
  json["lot"] = lot_name_json(lot.name);
  json["label"] = lot.label;
  json["made"] = lot_json(lot.made);
  json["left"] = lot_json(lot.left);
  json["measured"] = lot.measured;
  if (lot.reckoned) json["reckoned"] = true;
  if (const auto gauged = gauged_when_made(lot)) json["gauged"] = lot_json(*gauged);
  if (lot.residue) json["residue_g_L"] = figure(lot.residue->grams_per_litre());
  json["why"] = why_json(why_lot(lot, glass));
  if (lot.generation > 0) json["generation"] = lot.generation;
  json["parents"] = list_of(lot.parents, lot_name_json);
  json["uses"] = list_of(lot.uses, [](const LotUse& use) {
    Json row = told_json(use.told);
    row["where"] = use.where;
    row.update(part_json(use.lot));
    // What wood or a gauging takes is a difference, perhaps of no mixture: it has no volume.
    const bool mixture = use.lot.ethanol >= units::Mass{} && use.lot.water >= units::Mass{};
    if (use.where != "gauging" && mixture && use.lot.mass() > units::Mass{}) {
      row["volume_L_20C"] = figure(spirit::volume(use.lot).litres());
    }
    return row;
  });
  if (lot.wood) json["wood"] = on_wood_json(*lot.wood);
  if (lot.bottles) {
    json["bottles"] = {{"bottles", lot.bottles->bottles},
                       {"size_L", figure(lot.bottles->size.litres())},
                       {"strength_percent_vol", figure(lot.bottles->strength.percent())}};
    if (const auto& label = lot.bottles->label) {
      Json told{{"at", print(label->told.at)},
                {"name", label->name},
                {"strength_percent_vol", figure(label->strength.percent())}};
      if (!label->names_class.empty()) told["class"] = label->names_class;
      if (!label->rule.empty()) told["rule"] = label->rule;
      json["bottles"]["label"] = std::move(told);
    }
  }
  return json;
}

Json account_json(const BatchAccount& account) {
  return list_of(account.steps, [&account](const AccountStep& step) {
    Json row;
    row["stage"] = std::string(words(step.stage));
    row["what"] = step.what;
    row["in"] = pure_json(step.in);
    row["out"] = pure_json(step.out);
    row["named"] = list_of(step.named, [](const auto& named) {
      Json loss = pure_json(named.second);
      loss["what"] = named.first;
      return loss;
    });
    row["unaccounted"] = pure_json(step.unaccounted);
    row["telling"] = step.telling;
    row["why"] = why_json(why_step(step, account.glass));
    return row;
  });
}

Json head_json(const BatchState& batch) {
  Json json = object_for(32);
  json["batch"] = print(batch.id);
  json["name"] = batch.name;
  if (!batch.remark.empty()) json["remark"] = batch.remark;
  json["invented"] = batch.invented;
  if (batch.begun) json["begun"] = told_json(*batch.begun);
  if (batch.closed) json["closed"] = told_json(*batch.closed);
  json["first"] = print(batch.first);
  json["last"] = print(batch.last);
  json["entries"] = batch.entries;
  json["struck"] = batch.struck;
  return json;
}

Json planned_json(const PlanState& plan) {
  Json json = told_json(plan.told);
  json["recipe"] = plan.recipe;
  json["kit"] = plan.kit;
  json["earlier"] = plan.earlier;
  return json;
}

Json next_step_json(const NextStep& next) {
  constexpr std::array<std::string_view, 3> standings = {"now", "waits", "done"};
  Json json;
  json["what"] = next.what;
  if (next.stage) json["stage"] = std::string(words(*next.stage));
  json["since"] = print(next.since);
  json["standing"] = std::string(standings[static_cast<std::size_t>(next.standing)]);
  if (next.due) {
    json["due"] = print(*next.due);
    if (next.late_after) json["late_after"] = print(*next.late_after);
    json["due_by"] = next.due_by;
  }
  return json;
}

}  // namespace

std::string house_json(const HouseState& house, const std::map<Id, NextStep>& next,
                       const GlassOf& glass_of) {
  const Questions asked = questions(house, glass_of);
  const auto asked_of = [&](const std::optional<Id>& batch) {
    const auto found = asked.find(batch);
    return found == asked.end() ? std::vector<Puzzle>{} : found->second;
  };
  Json json;
  if (house.kit) {
    json["kit"] = told_json(house.kit->told);
    json["kit"]["text"] = house.kit->kit;
  }
  json["batches"] = list_of(house.batches, [&](const auto& entry) {
    const BatchState& batch = entry.second;
    Json row = head_json(batch);
    row["planned"] = batch.plan.has_value();
    row["pitched"] = batch.ferment.pitch.has_value();
    row["racked"] = batch.ferment.racked.has_value();
    row["runs"] = list_of(batch.runs, [](const RunState& run) {
      Json one = told_json(run.told);
      one["run"] = std::string(fields::run_kinds[static_cast<std::size_t>(run.kind)]);
      one["standing"] = std::string(run_standings[static_cast<std::size_t>(run.standing)]);
      one["allotted"] = run.allotted.has_value();
      return one;
    });
    row["puzzles"] = asked_of(batch.id).size();
    if (const auto found = next.find(batch.id); found != next.end()) {
      row["next"] = next_step_json(found->second);
    }
    return row;
  });
  json["airs"] = list_of(house.airs, air_json);
  json["cleanings"] = list_of(house.cleanings, [](const CleaningState& cleaning) {
    return told_and(cleaning.told, cleaning.cleaned);
  });
  json["notes"] = list_of(house.notes, note_json);
  json["puzzles"] = list_of(asked_of(std::nullopt), puzzle_json);
  return printed(json);
}

std::string batch_json(const HouseState& house, const BatchState& batch, const NextStep* next,
                       const journal::Glass& glass) {
  std::string text;
  ObjectText json(text);
  json.add(head_json(batch));
  if (next != nullptr) json.add("next", next_step_json(*next));
  if (batch.plan) json.add("plan", planned_json(*batch.plan));
  json.add("steps", list_of(batch.steps, [](const StepState& step) {
             Json row = told_json(step.told);
             row["stage"] = std::string(words(step.stage));
             row["step"] = step.step;
             row["done"] = step.done;
             return row;
           }));
  json.add("additions", list_of(batch.additions, [](const AddedState& added) {
             Json row = told_and(added.told, added.added);
             row["stage"] = std::string(words(added.stage));
             return row;
           }));
  json.add("airs", list_of(batch.airs, air_json));
  json.add("mash", mash_json(batch.mash));
  json.add("ferment", ferment_json(batch.ferment));
  json.name("runs");
  write_list(text, batch.runs, [&](const RunState& run) { write_run(text, run); });
  Json lots = Json::array();
  for (const LotState& lot : house.lots) {
    if (lot.batch == batch.id) lots.push_back(whole_lot_json(lot, glass));
  }
  json.add("lots", lots);
  json.add("account", account_json(account(house, batch, glass)));
  json.add("notes", list_of(batch.notes, note_json));
  json.add("puzzles", list_of(questions(house, batch.id, glass), puzzle_json));
  json.end();
  return text;
}

std::string lots_json(const HouseState& house, const GlassOf& glass_of) {
  Json json;
  json["lots"] = list_of(house.lots, [&](const LotState& lot) {
    return whole_lot_json(lot, glass_of(lot.batch));
  });
  return printed(json);
}

}  // namespace lynearm::wire
