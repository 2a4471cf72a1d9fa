#include "wire/house.hpp"

#include <utility>

#include "journal/account.hpp"
#include "journal/kinds.hpp"
#include "wire/house_parts.hpp"

namespace lynearm::wire {
namespace {

using namespace journal;  // this file is about nothing else

Json air_json(const AirState& air) { return told_and(air.told, air.air); }

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
                       const GlassOf& glass_of, const Questions& by_kit) {
  Questions asked = questions(house, glass_of);
  for (const auto& [batch, more] : by_kit) {
    if (batch) ask_besides(asked[batch], more, house.batches.at(*batch));
  }
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
                       const journal::Glass& glass, const ByKit& by_kit) {
  const BatchAccount of_alcohol = account(house, batch, glass);
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
  json.add("ferment",
           ferment_json(batch.ferment, of_alcohol, by_kit.gas ? &*by_kit.gas : nullptr));
  json.name("runs");
  write_list(text, batch.runs, [&](const RunState& run) {
    const auto found = by_kit.against.find(run.told.entry);
    write_run(text, run,
              found == by_kit.against.end() ? std::vector<std::string>{} : found->second);
  });
  Json lots = Json::array();
  for (const LotState& lot : house.lots) {
    if (lot.batch == batch.id) lots.push_back(whole_lot_json(lot, glass));
  }
  json.add("lots", lots);
  json.add("account", account_json(of_alcohol));
  json.add("notes", list_of(batch.notes, note_json));
  std::vector<Puzzle> asked = questions(house, batch.id, glass);
  ask_besides(asked, by_kit.asked, batch);
  json.add("puzzles", list_of(asked, puzzle_json));
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
