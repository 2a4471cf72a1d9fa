#include "cli/reduce_input.hpp"

#include <fmt/format.h>

#include <charconv>

#include "cli/stated.hpp"
#include "spirit/density.hpp"
#include "spirit/reduction_inverse.hpp"
#include "spirit/strength.hpp"
#include "spirit/weaker_spirit.hpp"
#include "spirit/weighing.hpp"

namespace lynearm::cli {
namespace {

using units::MassConcentration;
using units::Temperature;
using units::VolumeStrength;

constexpr auto weakest = VolumeStrength::percent(0.01);

void refuse(Arguments& arguments, const char* option, std::string accepted) {
  if (arguments.has(option) && !arguments.refused(option)) {
    arguments.refuse(option, arguments.texts(option).front(), std::move(accepted));
  }
}

spirit::MixingTemperatures asked_temperatures(Arguments& arguments) {
  spirit::MixingTemperatures t;
  t.spirit = arguments.optional<Temperature>("--at").value_or(t.spirit);
  t.water = arguments.optional<Temperature>("--water-at").value_or(t.water);
  t.result = arguments.optional<Temperature>("--result-at").value_or(t.result);
  arguments.keep_within("--at", t.spirit, spirit::coldest, spirit::warmest);
  arguments.keep_within("--result-at", t.result, spirit::coldest, spirit::warmest);
  if (!(t.water >= spirit::coldest_water && t.water <= spirit::warmest_water)) {
    refuse(arguments, "--water-at",
           t.water > spirit::warmest_water
               ? "0 °C to 40 °C: hot water drives vapour off the spirit, and the vapour burns"
               : "0 °C to 40 °C");
  }
  return t;
}

units::MassFraction asked_strength(Arguments& arguments, const char* option) {
  const auto stated = arguments.required<units::StatedStrength>(option);
  const VolumeStrength strength = spirit::volume_strength(stated);
  if (strength < weakest) refuse(arguments, option, "0.01 %vol or more");
  return spirit::mass_fraction(stated);
}

// A volume or a weight with its tare; one of the two must be there.
struct Amount {
  std::optional<units::Volume> volume;
  std::optional<units::Mass> weight;
};

Amount asked_amount(Arguments& arguments, const char* volume, const char* weight) {
  if (arguments.has(volume) && arguments.has(weight)) {
    refuse(arguments, weight, fmt::format("either {} or {}", volume, weight));
  }
  if (arguments.has(weight)) {
    const auto mass = arguments.required<units::Mass>(weight);
    arguments.keep_within(weight, mass, units::Mass::grams(1.0), units::Mass::kilograms(1e5));
    return {std::nullopt, mass};
  }
  const auto asked = arguments.required<units::Volume>(volume);
  arguments.keep_within(volume, asked, least_volume, most_volume);
  return {asked, std::nullopt};
}

spirit::Lot lot_of(const Amount& amount, units::MassFraction ethanol, Temperature t,
                   units::Mass tare) {
  if (amount.weight) {
    spirit::Weighing weighing;
    weighing.tare = tare;
    return spirit::lot_weighed(*amount.weight, ethanol, t, weighing);
  }
  return spirit::lot_at_mark(*amount.volume, ethanol, t);
}

// Water by mass or by volume at its temperature.
units::Mass asked_water(Arguments& arguments, const char* option, Temperature t) {
  const std::string& text = arguments.texts(option).front();
  units::Mass water;
  if (const auto volume = units::try_parse<units::Volume>(text)) {
    if (!(*volume.value >= units::Volume{} && *volume.value <= most_volume)) {
      refuse(arguments, option, "zero or more, at most " + units::concise(most_volume));
    } else if (!arguments.refused("--water-at")) {
      water = spirit::water_mass(*volume.value, t);
    }
  } else {
    water = arguments.required<units::Mass>(option);
    arguments.keep_within(option, water, units::Mass{}, units::Mass::kilograms(1e5));
  }
  return water;
}

std::optional<int> asked_steps(Arguments& arguments) {
  if (!arguments.has("--steps")) return std::nullopt;
  const std::string& text = arguments.texts("--steps").front();
  int steps = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), steps);
  if (error != std::errc{} || end != text.data() + text.size() || steps < 1 ||
      steps > spirit::most_steps) {
    refuse(arguments, "--steps",
           fmt::format("a whole number from 1 to {}", spirit::most_steps));
    return std::nullopt;
  }
  return steps;
}

// The volumes of a reduction in which something else than water went in, or is dissolved.
spirit::MeasuredReduction measured_of(const spirit::Lot& before,
                                      const spirit::Reduction& reduction,
                                      const spirit::MixingTemperatures& t) {
  return spirit::measured(before, reduction, t);
}

struct Dissolved {
  MassConcentration residue;
  std::optional<units::StatedPart> tea;
  MassConcentration tea_residue;
  [[nodiscard]] bool any() const { return residue > MassConcentration{} || tea.has_value(); }
};

Dissolved asked_dissolved(Arguments& arguments) {
  Dissolved dissolved;
  dissolved.residue =
      arguments.optional<MassConcentration>("--residue").value_or(MassConcentration{});
  arguments.keep_within("--residue", dissolved.residue, MassConcentration{},
                        spirit::most_residue);
  dissolved.tea = arguments.optional<units::StatedPart>("--tea");
  if (dissolved.tea) {
    if (!std::holds_alternative<units::Volume>(dissolved.tea->amount)) {
      refuse(arguments, "--tea", "a volume of tea and its strength such as \"0.5 L @ 0 %vol\"");
    }
    dissolved.tea_residue = arguments.required<MassConcentration>("--tea-residue");
    arguments.keep_within("--tea-residue", dissolved.tea_residue, MassConcentration{},
                          spirit::most_residue);
  } else {
    refuse(arguments, "--tea-residue", "only beside --tea");
  }
  return dissolved;
}

void reduce_dissolved(AskedReduction& asked, const Dissolved& dissolved, units::Volume volume,
                      VolumeStrength strength, VolumeStrength to) {
  const spirit::MixingTemperatures& t = asked.report.at;
  const spirit::ObscuredLot before =
      spirit::obscured_lot(volume, strength, dissolved.residue, t.spirit);
  spirit::ObscuredReduction reduced;
  if (dissolved.tea) {
    const spirit::ObscuredLot tea = spirit::obscured_lot(
        std::get<units::Volume>(dissolved.tea->amount),
        spirit::volume_strength(dissolved.tea->strength), dissolved.tea_residue,
        dissolved.tea->at.value_or(spirit::reference_20C));
    reduced = spirit::reduce_with_tea(before, tea, to);
    asked.report.weaker = tea.spirit;
  } else {
    reduced = spirit::reduce(before, to);
  }
  asked.report.before = before.spirit;
  spirit::MeasuredReduction& measured = asked.report.measured;
  measured.by_mass.water = reduced.water;
  measured.by_mass.water_at_20C = spirit::water_volume(reduced.water, spirit::reference_20C);
  measured.by_mass.result = reduced.result.spirit;
  measured.by_mass.volume_at_20C = reduced.volume_at_20C;
  measured.by_mass.contraction = reduced.contraction;
  measured.spirit = volume;
  measured.water = spirit::water_volume(reduced.water, t.water);
  measured.result = spirit::volume(reduced.result, t.result);
  measured.contraction = measured.spirit + measured.water - measured.result;
  if (dissolved.tea) measured.contraction += std::get<units::Volume>(dissolved.tea->amount);
  asked.report.obscured = reduced;
  asked.report.obscured_before = strength;
}

void reduce_with_weaker(Arguments& arguments, AskedReduction& asked, VolumeStrength to) {
  const auto part = arguments.required<units::StatedPart>("--weaker");
  arguments.settle();
  const units::MassFraction ethanol = spirit::mass_fraction(part.strength);
  spirit::Lot weaker;
  if (const auto* volume = std::get_if<units::Volume>(&part.amount)) {
    weaker = spirit::lot_at_mark(*volume, ethanol, part.at.value_or(spirit::reference_20C));
  } else {
    const units::Mass mass = std::get<units::Mass>(part.amount);
    weaker = {mass * ethanol.fraction(), mass * (1.0 - ethanol.fraction())};
  }
  const spirit::WeakerReduction reduced = spirit::reduce_with(asked.report.before, weaker, to);
  asked.report.weaker = reduced.weaker;
  spirit::Reduction by_mass;
  by_mass.water = reduced.water;
  by_mass.water_at_20C = spirit::water_volume(reduced.water, spirit::reference_20C);
  by_mass.result = reduced.result;
  by_mass.volume_at_20C = reduced.volume_at_20C;
  by_mass.contraction = reduced.contraction;
  asked.report.measured = measured_of(asked.report.before, by_mass, asked.report.at);
}

ReductionQuestion question_of(Arguments& arguments) {
  const bool make = arguments.has("--make");
  const bool water = arguments.has("--water");
  const bool had = arguments.has("--had-water");
  if (make + water + had > 1) {
    for (const char* option : {"--make", "--water", "--had-water"}) {
      refuse(arguments, option, "one of --make, --water, --had-water");
    }
  }
  if (make) return ReductionQuestion::spirit_needed;
  if (water) return ReductionQuestion::strength_after;
  if (had) return ReductionQuestion::strength_before;
  return ReductionQuestion::water_needed;
}

// An option that another question asks for has no meaning here, and is not passed over.
void keep_to_the_question(Arguments& arguments, ReductionQuestion question) {
  const bool to = question == ReductionQuestion::water_needed ||
                  question == ReductionQuestion::spirit_needed;
  if (!to) refuse(arguments, "--to", "nothing: the water is given, the strength is asked");
  if (question == ReductionQuestion::spirit_needed) {
    for (const char* option : {"--volume", "--weight"}) {
      refuse(arguments, option, "nothing: --make asks how much spirit it takes");
    }
  }
  if (question != ReductionQuestion::water_needed) {
    for (const char* option : {"--weaker", "--tea", "--tea-residue", "--residue", "--steps"}) {
      refuse(arguments, option, "only with --to and a volume or weight of spirit");
    }
  } else if (arguments.has("--weaker") &&
             (arguments.has("--tea") || arguments.has("--residue"))) {
    refuse(arguments, "--weaker", "either --weaker, or --tea and --residue");
  }
  if (arguments.has("--steps") &&
      (arguments.has("--weaker") || arguments.has("--tea") || arguments.has("--residue"))) {
    refuse(arguments, "--steps", "only with plain water and spirit");
  }
}

}  // namespace

std::vector<Option> reduction_options() {
  return {
      {"--volume", "VOLUME", "of the spirit, at --at: \"4 L\" or \"1 gal\""},
      {"--weight", "MASS", "instead of a volume, what the scale shows: \"3.6 kg\""},
      {"--strength", "STRENGTH",
       "of the spirit, true: \"70 %vol\", \"62.4 %mass\" or \"140 proof\""},
      {"--to", "STRENGTH", "wanted, on any of the same scales"},
      {"--at", "TEMPERATURE", "of the spirit when its volume is measured (20 °C)"},
      {"--water-at", "TEMPERATURE", "of the water when its volume is measured (20 °C)"},
      {"--result-at", "TEMPERATURE", "at which the result's volume is wanted (20 °C)"},
      {"--tare", "MASS", "of the vessel on the scale: tells what the scale shows at the end"},
      {"--steps", "NUMBER", "the water in so many steps, equal in strength"},
      {"--make", "VOLUME", "asks how much spirit and water make this volume"},
      {"--water", "AMOUNT", "asks how strong it is with this water in it: \"1 L\", \"900 g\""},
      {"--had-water", "AMOUNT", "asks how strong it was before this water went in"},
      {"--weaker", "PART", "weaker spirit that goes in too: \"0.8 L @ 20 %vol\""},
      {"--tea", "PART", "tea of oak that goes in too: \"0.5 L @ 0 %vol\""},
      {"--tea-residue", "CONCENTRATION", "what evaporating that tea leaves: \"8 g/L\""},
      {"--residue", "CONCENTRATION", "what evaporating the spirit leaves: \"1.5 g/L\""},
      {"--found", "STRENGTH",
       "after mixing as planned, the true strength found: what mends it"},
      {"--found-volume", "VOLUME", "and the volume found, at 20 °C"},
      {"--found-weight", "MASS", "or what the scale shows"},
  };
}

AskedReduction asked_reduction(Arguments& arguments) {
  AskedReduction asked;
  asked.question = question_of(arguments);
  keep_to_the_question(arguments, asked.question);
  asked.report.at = asked_temperatures(arguments);
  const spirit::MixingTemperatures& t = asked.report.at;
  const units::MassFraction ethanol = asked_strength(arguments, "--strength");
  asked.tare = arguments.optional<units::Mass>("--tare").value_or(units::Mass{});
  arguments.keep_within("--tare", asked.tare, units::Mass{}, units::Mass::kilograms(1e5));
  const std::optional<int> steps = asked_steps(arguments);
  const Dissolved dissolved = asked_dissolved(arguments);
  VolumeStrength to;
  if (asked.question == ReductionQuestion::water_needed ||
      asked.question == ReductionQuestion::spirit_needed) {
    asked_strength(arguments, "--to");
    if (arguments.has("--to") && !arguments.refused("--to")) {
      to = spirit::volume_strength(
          *units::try_parse<units::StatedStrength>(arguments.texts("--to").front()).value);
    }
  }
  if (asked.question == ReductionQuestion::spirit_needed) {
    const auto wanted = arguments.required<units::Volume>("--make");
    arguments.keep_within("--make", wanted, least_volume, most_volume);
    arguments.settle();
    const spirit::SpiritNeeded needed =
        spirit::spirit_needed(wanted, to, spirit::volume_strength(ethanol), t.result);
    asked.report.before = needed.spirit;
    asked.report.measured = measured_of(needed.spirit, needed.reduction, t);
  } else {
    const Amount amount = asked_amount(arguments, "--volume", "--weight");
    units::Mass water;
    if (asked.question == ReductionQuestion::strength_after) {
      water = asked_water(arguments, "--water", t.water);
    } else if (asked.question == ReductionQuestion::strength_before) {
      water = asked_water(arguments, "--had-water", t.water);
    }
    if (dissolved.any() && amount.weight) {
      refuse(arguments, "--weight", "a --volume, where something is dissolved");
    }
    arguments.settle();
    if (dissolved.any()) {
      reduce_dissolved(asked, dissolved, *amount.volume, spirit::volume_strength(ethanol), to);
    } else {
      const spirit::Lot stands = lot_of(amount, ethanol, t.spirit, asked.tare);
      asked.report.before = asked.question == ReductionQuestion::strength_before
                                ? spirit::before_water(stands, water)
                                : stands;
      if (asked.question != ReductionQuestion::water_needed) {
        asked.report.measured =
            measured_of(asked.report.before, spirit::dilute(asked.report.before, water), t);
      } else if (arguments.has("--weaker")) {
        reduce_with_weaker(arguments, asked, to);
      } else {
        asked.report.measured = spirit::reduce(stands, to, t);
        if (steps) asked.report.steps = spirit::reduce_in_steps(stands, to, *steps, t);
      }
    }
  }
  if ((arguments.has("--tare") || arguments.has("--weight")) && !asked.report.obscured) {
    spirit::Weighing weighing;
    weighing.tare = asked.tare;
    asked.report.scale_shows =
        spirit::balance_shows(asked.report.measured.by_mass.result, t.result, weighing);
  }
  return asked;
}

AskedCheck asked_check(Arguments& arguments) {
  for (const char* option : {"--make", "--water", "--had-water", "--weaker", "--tea",
                             "--tea-residue", "--residue", "--steps", "--result-at"}) {
    refuse(arguments, option, "nothing: --found asks about a plain reduction");
  }
  const spirit::MixingTemperatures t = asked_temperatures(arguments);
  const units::MassFraction ethanol = asked_strength(arguments, "--strength");
  asked_strength(arguments, "--to");
  const units::MassFraction found = asked_strength(arguments, "--found");
  const auto tare = arguments.optional<units::Mass>("--tare").value_or(units::Mass{});
  arguments.keep_within("--tare", tare, units::Mass{}, units::Mass::kilograms(1e5));
  const Amount amount = asked_amount(arguments, "--volume", "--weight");
  std::optional<Amount> amount_found;
  if (arguments.has("--found-volume") || arguments.has("--found-weight")) {
    amount_found = asked_amount(arguments, "--found-volume", "--found-weight");
  }
  arguments.settle();
  AskedCheck asked;
  asked.wanted = spirit::volume_strength(arguments.required<units::StatedStrength>("--to"));
  const spirit::Lot before = lot_of(amount, ethanol, t.spirit, tare);
  const spirit::Reduction planned = spirit::reduce(before, asked.wanted);
  if (amount_found) {
    asked.found = lot_of(*amount_found, found, spirit::reference_20C, tare);
  } else {
    // What was weighed in is still there.
    const units::Mass mass = planned.result.mass();
    asked.found = {mass * found.fraction(), mass * (1.0 - found.fraction())};
  }
  asked.correction = spirit::correct(asked.found, asked.wanted, spirit::strength(before));
  asked.mistake = spirit::mistake(before, planned.water, asked.found);
  return asked;
}

}  // namespace lynearm::cli
