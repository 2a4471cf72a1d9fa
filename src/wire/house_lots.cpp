// Lots and the account of a batch, as JSON.
#include "spirit/strength.hpp"
#include "wire/house_parts.hpp"
#include "wire/on_wood.hpp"
#include "wire/whys.hpp"

namespace lynearm::wire {
namespace {

using namespace journal;  // this file is about nothing else

Json pure_json(const PureVolume& pure) {
  return {{"pure_alcohol_L_20C", figure(pure.value.litres())},
          {"proof_gallons", proof_gallons(pure.value)},
          {"standard_L_20C", figure(pure.sd.litres())},
          {"standard_proof_gallons", proof_gallons(pure.sd)}};
}

}  // namespace

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

}  // namespace lynearm::wire
