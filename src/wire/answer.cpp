#include "wire/answer.hpp"

#include <array>
#include <string_view>
#include <utility>

#include "spirit/account.hpp"
#include "spirit/label_rule.hpp"
#include "spirit/obscuration_rule.hpp"
#include "spirit/strength.hpp"
#include "wire/cut_names.hpp"
#include "wire/entry.hpp"
#include "wire/figure.hpp"
#include "wire/whys.hpp"

namespace lynearm::wire {
namespace {

std::string printed(const Json& value) {
  return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json figures(const spirit::Lot& lot) {
  const bool there = lot.mass() > units::Mass{};
  return {{"volume_L_20C", figure(there ? spirit::volume(lot).litres() : 0.0)},
          {"strength_percent_vol", figure(there ? spirit::strength(lot).percent() : 0.0)},
          {"pure_alcohol_L_20C", figure(spirit::pure_alcohol(lot).litres())},
          {"proof_gallons", figure(spirit::proof_gallons(lot.ethanol).gallons())},
          {"mass_kg", figure(lot.mass().kilograms())}};
}

// Volume and strength as they are with what is dissolved.
Json figures(const spirit::ObscuredLot& lot) {
  Json json = figures(lot.spirit);
  json["volume_L_20C"] = figure(spirit::volume(lot).litres());
  json["strength_percent_vol"] = figure(spirit::true_strength(lot).percent());
  json["mass_kg"] = figure(lot.mass().kilograms());
  return json;
}

Json load(const still::Vessel20C& vessel, const still::Load& of) {
  const still::Burden burden = vessel.per_alcohol(of);
  return {{"low", figure(still::grams_per_hectolitre(burden.low))},
          {"median", figure(still::grams_per_hectolitre(burden.value))},
          {"high", figure(still::grams_per_hectolitre(burden.high))}};
}

Json vessel(const still::Vessel20C& of) {
  Json json = figures(of.lot);
  json["contraction_mL_20C"] = figure(of.contraction.millilitres());
  json["early"] = load(of, of.early);
  json["middle"] = load(of, of.middle);
  json["late"] = load(of, of.late);
  return json;
}

Json outcome(const ShelfJars& shelf, const still::Allotment& allotment,
             const still::Outcome& of) {
  return {{"foreshots", vessel(of.foreshots)},
          {"hearts", vessel(of.hearts)},
          {"feints", vessel(of.feints)},
          {"apart", vessel(of.apart)},
          {"why", why_json(why_poured(shelf, allotment))}};
}

std::string_view note(spirit::GaugingNote note) {
  switch (note) {
    case spirit::GaugingNote::may_be_frozen:
      return "below the freezing point: what is liquid is stronger than the whole";
    case spirit::GaugingNote::refraction_is_flat:
      return "near the maximum of the index, which hardly tells strengths apart";
    case spirit::GaugingNote::obscured:
      return "obscured: the true strength is not what the alcoholmeter shows";
    case spirit::GaugingNote::near_warmest:
      return "above 35 °C: strength is being lost to the air, and its vapour can burn";
  }
  return "";
}

std::string_view word(spirit::Remedy remedy) {
  switch (remedy) {
    case spirit::Remedy::none:
      return "nothing";
    case spirit::Remedy::add_water:
      return "water";
    case spirit::Remedy::add_spirit:
      return "spirit";
  }
  return "";
}

Json check_json(const ReductionCheck& check, units::Temperature water_at) {
  const spirit::Correction& mend = check.correction;
  const spirit::Mistake& off = check.mistake;
  const auto told = [&](const spirit::Lot& plain,
                        spirit::ObscuredLot ReductionCheck::Obscured::*dissolved) {
    return check.obscured ? figures((*check.obscured).*dissolved) : figures(plain);
  };
  using Dissolved = ReductionCheck::Obscured;
  Json json{{"add", word(mend.remedy)}, {"found", told(check.found, &Dissolved::found)}};
  if (mend.remedy == spirit::Remedy::add_water) {
    json["water_kg"] = figure(mend.water.kilograms());
    json["water_L"] = figure(spirit::water_volume(mend.water, water_at).litres());
  }
  if (mend.remedy == spirit::Remedy::add_spirit) {
    json["spirit"] = told(mend.spirit, &Dissolved::spirit);
  }
  json["then"] = told(mend.result, &Dissolved::result);
  json["less_planned_kg"] = figure(off.mass.kilograms());
  json["less_planned_percent_vol"] = figure(off.strength.percent());
  json["water_more_by_kg"] = figure(off.water.kilograms());
  if (off.spirit_strength) {
    json["spirit_was_percent_vol"] = figure(off.spirit_strength->percent());
  }
  if (off.spirit_mass) json["spirit_more_by_kg"] = figure(off.spirit_mass->kilograms());
  return json;
}

Json choice(const Choice& of) {
  Json json{{"id", of.id}, {"name", of.name}};
  if (!of.kind.empty()) json["kind"] = of.kind;
  if (of.extract) json["extract_percent"] = figure(of.extract->percent());
  if (of.moisture) json["moisture_percent"] = figure(of.moisture->percent());
  return json;
}

Json choice_list(const std::vector<Choice>& choices) {
  Json list = Json::array();
  for (const Choice& one : choices) list.push_back(choice(one));
  return list;
}

}  // namespace

std::string now_json(journal::Moment now) { return printed({{"now", print(now)}}); }

std::string kept_json(const std::vector<KeptRow>& kept, journal::Moment now) {
  Json json;
  json["now"] = print(now);
  json["kept"] = Json::array();
  for (const KeptRow& row : kept) {
    json["kept"].push_back(
        {{"id", print(row.id)}, {"sequence", row.sequence}, {"already", row.already}});
  }
  return printed(json);
}

std::string entries_json(const std::vector<journal::Entry>& entries) {
  std::string text = "{\"entries\":[";
  for (const journal::Entry& entry : entries) {
    if (text.back() == '}') text += ',';
    text += entry_json(entry);
  }
  return text + "]}";
}

std::string sequence_json(std::int64_t sequence) { return printed({{"sequence", sequence}}); }

std::string attachment_json(const std::string& name) { return printed({{"attachment", name}}); }

std::string gauged_json(const GaugeAsked& asked, const spirit::Gauging& gauging,
                        const std::optional<spirit::Lot>& lot) {
  Json json;
  json["strength_percent_vol"] = figure(gauging.strength.percent());
  json["standard_percent_vol"] = figure(gauging.standard.percent());
  const spirit::HydrometerClass& glass =
      spirit::hydrometer_classes()[static_cast<std::size_t>(asked.glass)];
  json["glass"] = {{"id", glass.id}, {"name", glass.name}, {"by_kit", !asked.glass_told}};
  if (!asked.certificate.empty()) json["glass"]["certificate"] = asked.certificate;
  const bool obscured = asked.residue > units::MassConcentration{};
  if (obscured) {
    json["apparent_percent_vol"] = figure(spirit::volume_strength(gauging.apparent).percent());
  }
  if (lot) json["lot"] = figures(*lot);
  json["remarks"] = Json::array();
  for (const spirit::GaugingNote one : gauging.notes) {
    json["remarks"].push_back(std::string(note(one)));
  }
  if (obscured) {
    // For whoever is under that rule; elsewhere the true strength counts, whatever the extract.
    json["remarks"].push_back("in the United States (27 CFR 30.31, 30.32) at that extract: " +
                              std::string(spirit::words(spirit::us_gauging(asked.residue))));
  }
  json["why"] = why_json(why_gauged(asked));
  return printed(json);
}

std::string gravity_json(const GravityAsked& asked, const GravityFound& found) {
  Json json;
  json["specific_gravity"] = figure(found.gravity.ratio());
  json["plato"] = figure(found.plato.degrees());
  if (found.strength) json["strength_percent_vol"] = figure(found.strength->percent());
  json["why"] = why_json(why_gravity(asked));
  return printed(json);
}

std::string reduced_json(const ReduceAsked& asked, const ReductionMade& made) {
  const spirit::Reduction& by_mass = made.measured.by_mass;
  Json json{{"spirit_L", figure(made.measured.spirit.litres())},
            {"water_kg", figure(by_mass.water.kilograms())},
            {"water_L", figure(made.measured.water.litres())},
            {"volume_L_20C", figure(by_mass.volume_at_20C.litres())},
            {"contraction_L_20C", figure(by_mass.contraction.litres())},
            {"pure_alcohol_L_20C", figure(spirit::pure_alcohol(by_mass.result).litres())},
            {"proof_gallons", figure(spirit::proof_gallons(by_mass.result.ethanol).gallons())}};
  json["mass_kg"] = figure(
      (made.obscured ? made.obscured->result.mass() : by_mass.result.mass()).kilograms());
  if (made.obscured) {
    json["apparent_percent_vol"] = figure(made.obscured->apparent_strength.percent());
    json["residue_g_L"] = figure(made.obscured->residue.grams_per_litre());
  }
  if (made.besides.mass() > units::Mass{}) json["besides"] = figures(made.besides);
  if (made.check) json["check"] = check_json(*made.check, asked.water_at);
  json["why"] = why_json(why_reduced(asked, made));
  return printed(json);
}

std::string blend_json(const std::vector<PartAsked>& parts, const spirit::Lot& blend) {
  Json json = figures(blend);
  json["why"] = why_json(why_blend(parts));
  return printed(json);
}

std::string poured_json(const ShelfJars& shelf, const PouredJars& poured) {
  return printed(outcome(shelf, poured.allotment, poured.outcome));
}

std::string cuts_json(const ShelfJars& shelf, const still::Purpose& purpose,
                      const still::CutProposal& proposal) {
  Json json;
  json["alternatives"] = Json::array();
  for (std::size_t i = 0; i < proposal.alternatives.size(); ++i) {
    const still::Alternative& alternative = proposal.alternatives[i];
    base::ensure(alternative.allotment.size() == shelf.numbers.size(), "one part for each jar");
    Json one;
    one["name"] =
        i == proposal.recommended
            ? "proposed"
            : cut_name(shelf.jars, alternative, proposal.alternatives[proposal.recommended]);
    one["jars"] = Json::array();
    for (std::size_t jar = 0; jar < shelf.numbers.size(); ++jar) {
      const still::Poured& poured = alternative.allotment[jar];
      one["jars"].push_back({{"jar", shelf.numbers[jar]},
                             {"foreshots_mL_20C", figure(poured.foreshots.millilitres())},
                             {"hearts_mL_20C", figure(poured.hearts.millilitres())},
                             {"feints_mL_20C", figure(poured.feints.millilitres())},
                             {"apart_mL_20C", figure(poured.apart.millilitres())}});
    }
    one["poured"] = outcome(shelf, alternative.allotment, alternative.outcome);
    json["alternatives"].push_back(std::move(one));
  }
  json["why"] = why_json(why_cuts(shelf, purpose, proposal));
  return printed(json);
}

std::string solved_json(const std::string& says, double factor,
                        const std::vector<KeyChange>& changes) {
  Json list = Json::array();
  for (const KeyChange& change : changes) {
    Json one;
    one["path"] = change.path;
    if (change.value) one["value"] = *change.value;
    list.push_back(std::move(one));
  }
  Json json;
  json["says"] = says;
  json["factor"] = figure(factor);
  json["changes"] = std::move(list);
  return printed(json);
}

std::string mash_correction_json(const MashAdvice& advice) {
  constexpr std::array<std::string_view, 11> places = {
      "milling",  "strike",   "cooking", "moving",   "dough-in", "rest",
      "draining", "sparging", "wort",    "pitching", "over"};
  constexpr std::array<std::string_view, 3> ways = {"lid on", "lid off", "coil"};
  Json json;
  json["at"] = std::string(places[static_cast<std::size_t>(advice.at)]);
  if (!advice.step.empty()) json["step"] = advice.step;
  const auto degrees = [&json](const char* key, const std::optional<units::Temperature>& t) {
    if (t) json[key] = figure(t->celsius());
  };
  const auto litres = [&json](const char* key, const std::optional<units::Volume>& volume) {
    if (volume) json[key] = figure(volume->litres());
  };
  const auto minutes = [&json](const char* key, const std::optional<units::Duration>& time) {
    if (time) json[key] = figure(time->minutes());
  };
  const auto span = [&json](const char* key, const std::optional<Span>& time) {
    if (!time) return;
    json[key] = {{"middle_min", figure(time->middle.minutes())},
                 {"least_min", figure(time->least.minutes())},
                 {"most_min", figure(time->most.minutes())}};
  };
  degrees("target_C", advice.target);
  degrees("lands_C", advice.lands);
  span("lid_on", advice.lid_on);
  span("lid_off", advice.lid_off);
  span("with_coil", advice.with_coil);
  span("heating", advice.heating);
  minutes("clock_min", advice.clock);
  if (advice.by) json["by"] = std::string(ways[static_cast<std::size_t>(*advice.by)]);
  litres("of_L", advice.of);
  minutes("beta_halves_min", advice.beta_halves);
  minutes("alpha_halves_min", advice.alpha_halves);
  degrees("pitch_C", advice.pitch);
  litres("top_up_cold_L", advice.top_up_cold);
  litres("top_up_hot_L", advice.top_up_hot);
  degrees("topped_up_C", advice.topped_up);
  const mash::Correction& c = advice.correction;
  if (c.with == mash::Mend::nothing) {
    json["with"] = "nothing";
    return printed(json);
  }
  json["with"] = c.with == mash::Mend::hot_water ? "hot water" : "cold water";
  degrees("target_then_C", advice.target_then);
  json["water_at_C"] = figure(advice.water.celsius());
  json["wanted_L"] = figure(c.wanted.litres());
  json["first_half_L"] = figure(c.first_half.litres());
  json["after_first_C"] = figure(c.after_first.celsius());
  json["at_most_L"] = figure(c.at_most.litres());
  json["reached_C"] = figure(c.reached.celsius());
  json["room_is_short"] = c.room_is_short;
  json["wait_minutes"] = figure(mash::wait_between_halves.minutes());
  return printed(json);
}

std::string tables_json(const Choices& choices) {
  Json rules = Json::array();
  for (const spirit::LabelRule& rule : spirit::label_rules) {
    rules.push_back({{"id", std::string(rule.id)},
                     {"jurisdiction", std::string(rule.jurisdiction)},
                     {"document", std::string(rule.document)},
                     {"place", std::string(rule.place)},
                     {"standing", std::string(rule.standing)},
                     {"within_percent_vol", figure(rule.within.percent())}});
  }
  return printed({{"ingredients", choice_list(choices.ingredients)},
                  {"yeasts", choice_list(choices.yeasts)},
                  {"species", choice_list(choices.species)},
                  {"toasts", choice_list(choices.toasts)},
                  {"label_rules", std::move(rules)}});
}

std::string examples_json(const std::vector<Example>& examples) {
  Json list = Json::array();
  for (const Example& one : examples) {
    list.push_back(
        {{"name", one.name}, {"remark", one.remark}, {"recipe", one.recipe}, {"kit", one.kit}});
  }
  return printed({{"examples", std::move(list)}});
}

}  // namespace lynearm::wire
