#include "wire/cut.hpp"

#include <utility>

#include "wire/figure.hpp"

namespace lynearm::wire {
namespace {

using still::grams_per_hectolitre;

Json burden_json(const still::Burden& burden) {
  Json object;
  object["g_hL"] = figure(grams_per_hectolitre(burden.value));
  object["low"] = figure(grams_per_hectolitre(burden.low));
  object["high"] = figure(grams_per_hectolitre(burden.high));
  return object;
}

Json load_json(const still::Load& load) {
  Json object;
  object["g"] = figure(load.mass.grams());
  object["low"] = figure(load.low.grams());
  object["high"] = figure(load.high.grams());
  return object;
}

Json vessel_json(const still::Vessel20C& vessel) {
  Json object;
  object["volume_L_20C"] = figure(vessel.volume.litres());
  object["strength_percent_vol_20C"] = figure(vessel.strength.percent());
  object["pure_alcohol_L_20C"] = figure(vessel.pure_alcohol.litres());
  object["early"] = burden_json(vessel.per_alcohol(vessel.early));
  object["middle"] = burden_json(vessel.per_alcohol(vessel.middle));
  object["late"] = burden_json(vessel.per_alcohol(vessel.late));
  object["fault"] = figure(vessel.fault);
  return object;
}

Json alternative_json(const still::Alternative& alternative,
                      const std::vector<still::Jar>& jars) {
  Json object;
  object["hearts"] = vessel_json(alternative.outcome.hearts);
  object["feints"] = vessel_json(alternative.outcome.feints);
  object["foreshots"] = vessel_json(alternative.outcome.foreshots);
  object["apart"] = vessel_json(alternative.outcome.apart);
  object["contraction_L"] = figure(alternative.outcome.hearts.contraction.litres());
  object["deduction"] = figure(alternative.deduction);
  object["worth_L"] = figure(alternative.worth.litres());
  Json list = Json::array();
  for (std::size_t i = 0; i < jars.size(); ++i) {
    const still::Poured& poured = alternative.allotment[i];
    Json entry;
    entry["jar"] = jars[i].label;
    entry["foreshots_mL"] = figure(poured.foreshots.millilitres());
    entry["hearts_mL"] = figure(poured.hearts.millilitres());
    entry["feints_mL"] = figure(poured.feints.millilitres());
    entry["apart_mL"] = figure(poured.apart.millilitres());
    list.push_back(std::move(entry));
  }
  object["allotment"] = std::move(list);
  return object;
}

Json jar_json(const still::Jar& jar) {
  Json object;
  object["jar"] = jar.label;
  object["volume_L_20C"] = figure(jar.volume.litres());
  object["strength_percent_vol_20C"] = figure(jar.strength.percent());
  object["early"] = load_json(*jar.early);
  object["middle"] = load_json(*jar.middle);
  object["late"] = load_json(*jar.late);
  object["fault"] = figure(jar.fault);
  return object;
}

}  // namespace

std::string json(const CutReport& report) {
  const std::vector<still::Jar>& jars = report.filled.jars;
  Json object;
  object["recommended"] = report.proposal.recommended;
  object["alternatives"] = Json::array();
  for (const still::Alternative& alternative : report.proposal.alternatives) {
    object["alternatives"].push_back(alternative_json(alternative, jars));
  }
  object["jars"] = Json::array();
  for (const still::Jar& jar : jars) object["jars"].push_back(jar_json(jar));
  object["estimate"] = cut_estimate;
  Json estimated;
  estimated["early"] = report.filled.early_estimated;
  estimated["middle"] = report.filled.middle_estimated;
  estimated["late"] = report.filled.late_estimated;
  if (report.filled.any_estimated()) {
    estimated["alcohol_left_in_pot_fraction"] = figure(report.filled.alcohol_left.fraction());
    estimated["alcohol_left_assumed"] = report.filled.left_assumed;
  }
  object["estimated"] = std::move(estimated);
  object["purpose"] = report.purpose;
  const still::Weights& weights = report.wishes.weights;
  object["weights"] = {{"volume", figure(weights.volume)},
                       {"strength", figure(weights.strength)},
                       {"early", figure(weights.early)},
                       {"late", figure(weights.late)},
                       {"fault", figure(weights.fault)}};
  const still::Yardstick& yardstick = report.proposal.yardstick;
  object["yardstick"] = {{"early_g_hL", figure(grams_per_hectolitre(yardstick.early))},
                         {"late_g_hL", figure(grams_per_hectolitre(yardstick.late))}};
  object["caution"] = cut_caution;
  return object.dump();
}

}  // namespace lynearm::wire
