#include "wire/house_parts.hpp"

#include "spirit/account.hpp"
#include "spirit/strength.hpp"

namespace lynearm::wire {
using namespace journal;  // this file is about nothing else

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

Json part_json(const spirit::Lot& lot) {
  return {{"pure_alcohol_L_20C", figure(spirit::pure_alcohol(lot).litres())},
          {"proof_gallons", figure(spirit::proof_gallons(lot.ethanol).gallons())},
          {"mass_kg", figure(lot.mass().kilograms())}};
}

Json lot_name_json(const LotName& name) {
  return {{"entry", print(name.entry)},
          {"kind", std::string(fields::lot_kinds[static_cast<std::size_t>(name.kind)])}};
}

Json proof_gallons(units::Volume pure_alcohol) {
  return figure(
      spirit::proof_gallons(spirit::PureAlcohol::litres(pure_alcohol.litres())).gallons());
}

Json note_json(const NoteState& note) {
  Json json = told_json(note.told);
  json["stage"] = std::string(words(note.stage));
  json["text"] = note.text;
  if (!note.attachments.empty()) json["attachments"] = note.attachments;
  return json;
}

Json puzzle_json(const Puzzle& puzzle) {
  return {{"entry", print(puzzle.entry)}, {"why", puzzle.why}, {"counts", puzzle.counts}};
}

}  // namespace lynearm::wire
