#include "cli/reduce_text.hpp"

#include <fmt/format.h>

#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"

namespace lynearm::cli {
namespace {

std::string headline_of(const AskedReduction& asked, const Look& look) {
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  const spirit::Reduction& reduction = asked.report.measured.by_mass;
  const std::string water = print(reduction.water);
  const std::string before = asked.report.obscured
                                 ? fmt::format("{} at {}", print(asked.report.measured.spirit),
                                               shown(asked.report.obscured_before, look.units))
                                 : shown(asked.report.before, look.units);
  const std::string after =
      asked.report.obscured
          ? fmt::format("{} at {}", print(reduction.volume_at_20C),
                        shown(asked.report.obscured->true_strength, look.units))
          : shown(reduction.result, look.units);
  switch (asked.question) {
    case ReductionQuestion::spirit_needed:
      return fmt::format("{} and {} of water make {}.", before, water, after);
    case ReductionQuestion::strength_before:
      return fmt::format("Before {} of water it was {}.", water, before);
    case ReductionQuestion::water_needed:
    case ReductionQuestion::strength_after:
      break;
  }
  if (asked.report.weaker) {
    const std::string weaker =
        asked.report.obscured && asked.report.weaker->ethanol <= units::Mass{}
            ? "The tea"
            : shown(*asked.report.weaker, look.units);
    return fmt::format("{} and {} of water bring {} to {}.", weaker, water, before, after);
  }
  return fmt::format("{} of water brings {} to {}.", water, before, after);
}

std::string at(units::Temperature t, const Look& look) {
  return "at " + units::print(t, look.units);
}

std::string steps_text(const std::vector<spirit::ReductionStep>& steps, const Look& look) {
  std::vector<Row> rows;
  for (const spirit::ReductionStep& step : steps) {
    rows.push_back({fmt::format("step {}", rows.size() + 1),
                    units::print(step.water, look.units),
                    fmt::format("of water, to {} at {}", units::print(step.volume, look.units),
                                shown(step.after, look.units))});
  }
  return "Step by step, with a rest between\n" + table(rows);
}

}  // namespace

std::string text(const AskedReduction& asked, const Look& look) {
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  const spirit::MeasuredReduction& measured = asked.report.measured;
  const spirit::Reduction& reduction = measured.by_mass;
  const spirit::MixingTemperatures& t = asked.report.at;
  std::vector<Row> rows;
  if (asked.question == ReductionQuestion::spirit_needed ||
      asked.question == ReductionQuestion::strength_before) {
    rows.push_back({"spirit", print(measured.spirit), at(t.spirit, look)});
    rows.push_back({"", print(asked.report.before.mass()),
                    "at " + shown(spirit::strength(asked.report.before), look.units)});
  }
  rows.push_back({"water by mass", print(reduction.water), "weigh it: this is the exact one"});
  rows.push_back({"water by volume", print(measured.water), at(t.water, look)});
  if (asked.report.scale_shows) {
    rows.push_back({"the scale shows", units::print(*asked.report.scale_shows, look.units, 3),
                    asked.tare > units::Mass{} ? "when enough is in, vessel and all"
                                               : "when enough is in, the vessel tared"});
  }
  rows.push_back({"result", print(measured.result), at(t.result, look)});
  if (asked.report.obscured) {
    const spirit::ObscuredReduction& obscured = *asked.report.obscured;
    rows.push_back({"strength", shown(obscured.true_strength, look.units), "true"});
    rows.push_back({"apparent", shown(obscured.apparent_strength, look.units),
                    "what the alcoholmeter shows at 20 °C"});
    rows.push_back({"residue", print(obscured.residue)});
  } else {
    rows.push_back({"strength", shown(spirit::strength(reduction.result), look.units)});
  }
  rows.push_back({"contraction", print(reduction.contraction), "lost on mixing, at 20 °C"});
  rows.push_back({"pure alcohol", print(spirit::pure_alcohol(reduction.result)),
                  asked.report.weaker ? "in the result" : "unchanged"});
  std::string out = headline(headline_of(asked, look), look) + table(rows);
  if (!asked.report.steps.empty()) out += steps_text(asked.report.steps, look);
  return out;
}

std::string why(const AskedReduction& asked, const Look& look) {
  const spirit::Reduction& reduction = asked.report.measured.by_mass;
  const spirit::MixingTemperatures& t = asked.report.at;
  const auto share = [](const spirit::Lot& lot) {
    return spirit::mass_fraction(lot).fraction();
  };
  const auto density = [&](const spirit::Lot& lot, units::Temperature temperature) {
    return units::print(spirit::density(spirit::mass_fraction(lot), temperature), look.units,
                        2) +
           " " + at(temperature, look);
  };
  std::vector<Ground> all{
      {"Balance",
       fmt::format("ethanol stays: mass of the spirit times its share by mass over the share "
                   "wanted is the mass of the result; the rest of it is added. {:.5f} kg at "
                   "{:.6f} become {:.5f} kg at {:.6f}.",
                   asked.report.before.mass().kilograms(), share(asked.report.before),
                   reduction.result.mass().kilograms(), share(reduction.result))},
      {"Volumes",
       fmt::format("mass over density: spirit {}, result {}. They shrink on mixing, so they do "
                   "not add.",
                   density(asked.report.before, t.spirit),
                   density(reduction.result, t.result))},
      {"Source",
       "OIML R 22 (1973), general formula of density; water is its mixture without ethanol."}};
  if (asked.report.scale_shows) {
    all.push_back({"Scale",
                   "weights of 8000 kg/m³ in air of 1.2 kg/m³ (OIML D 28): a scale shows about "
                   "0.1 % less than the mass of a spirit."});
  }
  if (asked.report.obscured) {
    all.push_back({"Obscuration",
                   fmt::format("what is dissolved fills {} mL a gram (our estimate 0.60 to "
                               "0.70).",
                               spirit::sucrose_mL_per_g)});
  }
  // What half a point of the strength that went in would change.
  const units::VolumeStrength strength = spirit::strength(asked.report.before);
  const auto half_point = units::VolumeStrength::percent(0.5);
  if (asked.question == ReductionQuestion::water_needed && !asked.report.weaker &&
      !asked.report.obscured &&
      strength + half_point <= units::VolumeStrength::percent(100.0)) {
    const spirit::Lot stronger =
        spirit::lot(spirit::volume(asked.report.before), strength + half_point);
    const units::Mass more =
        spirit::reduce(stronger, spirit::strength(reduction.result)).water - reduction.water;
    all.push_back(
        {"Uncertainty",
         fmt::format("a spirit half a %vol stronger than thought takes {} more. Mixing "
                     "warms: gauge when it is back at the room's temperature.",
                     units::print(more, look.units))});
  }
  return grounds(all);
}

std::string text(const AskedCheck& asked, const Look& look) {
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  const spirit::Correction& correction = asked.correction;
  const std::string found = shown(asked.found, look.units);
  const std::string wanted = shown(asked.wanted, look.units);
  std::string sentence;
  std::vector<Row> rows;
  switch (correction.remedy) {
    case spirit::Remedy::none:
      sentence = fmt::format("{} is as wanted.", found);
      break;
    case spirit::Remedy::add_water:
      sentence =
          fmt::format("{} of water brings {} to {}.", print(correction.water), found, wanted);
      break;
    case spirit::Remedy::add_spirit:
      sentence = fmt::format("{} brings {} back to {}.", shown(correction.spirit, look.units),
                             found, wanted);
      break;
  }
  rows.push_back({"result", print(correction.volume_at_20C),
                  "at " + shown(spirit::strength(correction.result), look.units)});
  const spirit::Mistake& mistake = asked.mistake;
  rows.push_back({"found less planned", print(mistake.mass), "by mass"});
  rows.push_back({"", units::fixed(mistake.strength.percent(), 2) + " %vol", "of strength"});
  if (correction.remedy != spirit::Remedy::none) {
    rows.push_back({"either the water", print(mistake.water), "more than planned"});
    if (mistake.spirit_strength) {
      rows.push_back({"or the spirit was", shown(*mistake.spirit_strength, look.units),
                      "as when it was gauged warm"});
    }
    if (mistake.spirit_mass) {
      rows.push_back({"or it weighed", print(*mistake.spirit_mass), "more than planned"});
    }
  }
  return headline(sentence, look) + table(rows) +
         "Rest it, and gauge again at the room's temperature before the next drop.\n";
}

}  // namespace lynearm::cli
