// The mash of a plan as JSON: cook, landing, cooling, dough-in, corrections, rest, conversion,
// draining, and its course in time.
#include "base/error.hpp"
#include "wire/plan_parts.hpp"
#include "wort/gravity.hpp"

namespace lynearm::wire {
namespace {

const char* word(mash::Phase phase) {
  switch (phase) {
    case mash::Phase::heating:
      return "heating";
    case mash::Phase::cooking:
      return "cooking";
    case mash::Phase::moving:
      return "moving";
    case mash::Phase::cooling:
      return "cooling";
    case mash::Phase::doughing_in:
      return "doughing_in";
    case mash::Phase::resting:
      return "resting";
    case mash::Phase::draining:
      return "draining";
  }
  return "";
}

const char* word(mash::Mend mend) {
  switch (mend) {
    case mash::Mend::nothing:
      return "nothing";
    case mash::Mend::hot_water:
      return "hot_water";
    case mash::Mend::cold_water:
      return "cold_water";
  }
  return "";
}

const char* word(mash::RunOffKind kind) {
  switch (kind) {
    case mash::RunOffKind::first_runnings:
      return "first_runnings";
    case mash::RunOffKind::sparge:
      return "sparge";
    case mash::RunOffKind::squeeze:
      return "squeeze";
  }
  return "";
}

Json cook_json(const plan::Cook& step, const mash::Cooked& cooked) {
  Json object;
  object["vessel"] = step.vessel;
  object["water_L"] = figure(step.water.litres());
  object["to_the_boil_min"] = figure(cooked.time_to_boil.minutes());
  object["boil_min"] = figure(step.time.minutes());
  object["boiling_C"] = figure(cooked.contents.temperature.celsius());
  object["at_the_boil_L"] = figure(cooked.at_the_boil.litres());
  object["headspace_L"] = figure(cooked.headspace.litres());
  object["boiled_away_L_20C"] = figure(cooked.boiled_away.litres());
  object["heating_kWh"] = figure(cooked.heating.kilowatt_hours());
  object["simmering_kWh"] = figure(cooked.simmering.kilowatt_hours());
  object["opened_fraction"] = figure(cooked.opened.fraction());
  object["water_taken_up_kg"] = figure(cooked.water_taken_up.kilograms());
  object["too_thick"] = cooked.too_thick;
  return object;
}

Json landing_json(const plan::CookPlan& cook) {
  Json object;
  object["moving_min"] = figure(cook.moving.minutes());
  object["temperature_C"] = figure(cook.landed.contents.temperature.celsius());
  object["volume_L"] = figure(cook.landed.volume.litres());
  object["left_behind_kg"] = figure(cook.landed.left_behind.kilograms());
  object["steamed_away_kg"] = figure(cook.landed.steamed_away.kilograms());
  object["heat_lost_kWh"] = figure(cook.landed.lost.kilowatt_hours());
  return object;
}

Json corrections_json(const std::vector<plan::CorrectionLine>& corrections) {
  Json list = Json::array();
  for (const plan::CorrectionLine& line : corrections) {
    const mash::Correction& mend = line.correction;
    Json one;
    one["reading_C"] = figure(line.reading.celsius());
    one["with"] = word(mend.with);
    // With nothing to give there is nothing to wait for.
    if (mend.with != mash::Mend::nothing) {
      one["wanted_L"] = figure(mend.wanted.litres());
      one["first_half_L"] = figure(mend.first_half.litres());
      one["after_first_C"] = figure(mend.after_first.celsius());
      one["at_most_L"] = figure(mend.at_most.litres());
      one["reached_C"] = figure(mend.reached.celsius());
      one["room_is_short"] = mend.room_is_short;
    }
    list.push_back(std::move(one));
  }
  return list;
}

Json rest_json(const plan::MashStep& step, const mash::Rested& rested) {
  Json object;
  object["wanted_C"] = figure(step.rest_temperature.celsius());
  object["time_min"] = figure(step.rest_time.minutes());
  object["end_C"] = figure(rested.end.celsius());
  Json course = Json::array();
  for (const std::size_t i : thinned(rested.course.size())) {
    const mash::RestPoint& point = rested.course[i];
    Json one;
    one["at_min"] = figure(point.at.minutes());
    one["temperature_C"] = figure(point.temperature.celsius());
    one["starch_fraction"] = figure(point.starch.fraction());
    one["dextrin_fraction"] = figure(point.dextrin.fraction());
    one["fermentable_fraction"] = figure(point.fermentable.fraction());
    one["alpha_left_fraction"] = figure(point.alpha_left.fraction());
    one["beta_left_fraction"] = figure(point.beta_left.fraction());
    course.push_back(std::move(one));
  }
  object["course"] = std::move(course);
  return object;
}

Json conversion_json(const plan::MashPlan& mash) {
  const mash::Rested& rested = mash.rested;
  Json object;
  object["converted_fraction"] = figure(rested.converted.fraction());
  object["fermentable_fraction"] = figure(rested.fermentable.fraction());
  object["glucose_fraction"] = figure(rested.glucose.fraction());
  object["maltose_fraction"] = figure(rested.maltose.fraction());
  object["maltotriose_fraction"] = figure(rested.maltotriose.fraction());
  object["dextrin_fraction"] = figure(rested.dextrin.fraction());
  object["alpha_left_fraction"] = figure(rested.alpha_left.fraction());
  object["beta_left_fraction"] = figure(rested.beta_left.fraction());
  object["enzymes_ratio"] = figure(rested.enzymes);
  object["no_enzymes"] = rested.no_enzymes;
  object["extract_made_kg"] = figure(mash.extract_made.kilograms());
  object["limit_attenuation_fraction"] = figure(mash.limit_attenuation.fraction());
  return object;
}

Json draining_json(const plan::MashStep& step, const plan::MashPlan& mash) {
  const mash::Drained& drained = *mash.drained;
  Json run_offs = Json::array();
  // The times stand for first runnings and sparges; a squeeze is part of the one before it.
  std::size_t drain = 0;
  std::size_t sparge = 0;
  for (const mash::RunOff& run_off : drained.run_offs) {
    Json one;
    one["kind"] = word(run_off.kind);
    if (run_off.kind == mash::RunOffKind::sparge && sparge < step.sparges.size()) {
      one["given_L"] = figure(step.sparges[sparge].water.litres());
      one["given_C"] = figure(step.sparges[sparge].temperature.celsius());
      ++sparge;
    }
    if (run_off.kind != mash::RunOffKind::squeeze && drain < mash.run_off_time.size()) {
      one["time_min"] = figure(mash.run_off_time[drain++].minutes());
    }
    one["volume_L_20C"] = figure(run_off.volume.litres());
    one["gravity"] = figure(wort::specific_gravity(run_off.wort).ratio());
    one["extract_plato"] = figure(run_off.gravity.degrees());
    one["extract_kg"] = figure(run_off.wort.extract.kilograms());
    one["gained_fraction"] = figure(run_off.gained.fraction());
    one["worth_pure_alcohol_L"] = figure(run_off.spirit.litres());
    run_offs.push_back(std::move(one));
  }
  Json object;
  object["run_offs"] = std::move(run_offs);
  object["volume_L_20C"] = figure(drained.volume.litres());
  object["extract_kg"] = figure(drained.collected.extract.kilograms());
  object["efficiency_fraction"] = figure(drained.efficiency.fraction());
  object["kept_water_kg"] = figure(drained.kept.water.kilograms());
  object["kept_extract_kg"] = figure(drained.kept.extract.kilograms());
  return object;
}

Json course_json(const mash::Course& course) {
  // Where one part of the mash ends and the next begins is never thinned away.
  const auto border = [&course](std::size_t i) {
    return (i > 0 && course[i - 1].phase != course[i].phase) ||
           (i + 1 < course.size() && course[i + 1].phase != course[i].phase);
  };
  Json list = Json::array();
  for (const std::size_t i : thinned(course.size(), border)) {
    Json one;
    one["at_min"] = figure(course[i].at.minutes());
    one["temperature_C"] = figure(course[i].temperature.celsius());
    one["phase"] = word(course[i].phase);
    list.push_back(std::move(one));
  }
  return list;
}

Json dough_in_json(const plan::MashPlan& mash) {
  Json object;
  object["liquor_C"] = figure(mash.dough_in.celsius());
  object["settles_C"] = figure(mash.doughed_in.temperature.celsius());
  object["water_kg"] = figure(mash.doughed_in.water.kilograms());
  object["grain_kg"] = figure(mash.doughed_in.grain.kilograms());
  object["fullest_L"] = figure(mash.fullest.litres());
  return object;
}

}  // namespace

Json mash_part(const plan::Recipe& recipe, const plan::MashPlan& mash) {
  Json object;
  object["vessel"] = recipe.mash.vessel;
  object["water_L"] = figure(recipe.mash.water.litres());
  if (mash.heating_strike) {
    object["heating_strike_min"] = figure(mash.heating_strike->minutes());
  }
  if (mash.cook) {
    base::ensure(recipe.mash.cook.has_value(), "a cook has its step in the recipe");
    object["cook"] = cook_json(*recipe.mash.cook, mash.cook->cooked);
    object["landing"] = landing_json(*mash.cook);
    if (mash.cook->cooling) object["cooling"] = cooling_part(*mash.cook->cooling);
    if (mash.cook->heating) object["warming_min"] = figure(mash.cook->heating->minutes());
  }
  object["dough_in"] = dough_in_json(mash);
  object["corrections"] = corrections_json(mash.corrections);
  object["rest"] = rest_json(recipe.mash, mash.rested);
  object["conversion"] = conversion_json(mash);
  object["slow_draining_fraction"] = figure(mash.slow_draining.fraction());
  if (mash.drained) object["draining"] = draining_json(recipe.mash, mash);
  object["energy_kWh"] = figure(mash.energy.kilowatt_hours());
  object["length_min"] = figure(mash.length.minutes());
  object["course"] = course_json(mash.course);
  return object;
}

}  // namespace lynearm::wire
