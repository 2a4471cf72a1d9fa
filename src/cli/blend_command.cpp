// lynearm blend: lots mixed together; a wanted strength and volume from the lots at hand; a
// blend tried in the glass, made large. Water is a part of 0 %vol.
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "spirit/measuring_glass.hpp"
#include "spirit/target_blend.hpp"
#include "spirit/vessel.hpp"
#include "wire/spirit.hpp"

namespace lynearm::cli {
namespace {

using units::VolumeStrength;

struct Parts {
  std::vector<units::StatedPart> stated;
  std::vector<spirit::Lot> lots;
};

spirit::Lot lot_of(const units::StatedPart& part) {
  const units::MassFraction ethanol = spirit::mass_fraction(part.strength);
  if (const auto* volume = std::get_if<units::Volume>(&part.amount)) {
    return spirit::lot_at_mark(*volume, ethanol, part.at.value_or(spirit::reference_20C));
  }
  const units::Mass mass = std::get<units::Mass>(part.amount);
  return {mass * ethanol.fraction(), mass * (1.0 - ethanol.fraction())};
}

// Notes what a part may not be; true when it is well.
bool sensible(Arguments& arguments, const units::StatedPart& part, const std::string& text) {
  if (part.at && !(*part.at >= spirit::coldest && *part.at <= spirit::warmest)) {
    arguments.refuse("--part", text, "a temperature from -20 °C to 40 °C");
    return false;
  }
  const auto* volume = std::get_if<units::Volume>(&part.amount);
  const bool of_size =
      volume != nullptr ? *volume >= least_volume && *volume <= most_volume
                        : std::get<units::Mass>(part.amount) >= units::Mass::grams(1.0) &&
                              std::get<units::Mass>(part.amount) <= units::Mass::kilograms(1e5);
  if (!of_size) {
    arguments.refuse("--part", text,
                     fmt::format("an amount of {} to {}, or 1 g to 100000 kg",
                                 units::concise(least_volume), units::concise(most_volume)));
  }
  return of_size;
}

Parts asked_parts(Arguments& arguments, std::size_t least) {
  Parts parts;
  const auto stated = arguments.each<units::StatedPart>("--part");
  const auto& texts = arguments.texts("--part");
  if (arguments.refused("--part")) return parts;
  for (std::size_t i = 0; i < stated.size(); ++i) {
    if (!sensible(arguments, stated[i], texts[i])) return parts;
  }
  if (stated.size() < least) {
    arguments.refuse("--part", texts.front(), "two or more, each with its own --part");
  } else if (stated.size() > spirit::most_lots) {
    arguments.refuse("--part", texts.back(),
                     fmt::format("at most {} of them", spirit::most_lots));
  } else {
    parts.stated = stated;
    for (const units::StatedPart& part : stated) parts.lots.push_back(lot_of(part));
  }
  return parts;
}

Row row_of(const spirit::Lot& lot, std::string name, const Look& look) {
  return {std::move(name), units::print(spirit::volume(lot), look.units),
          "at " + shown(spirit::strength(lot), look.units)};
}

std::vector<Row> rows_of(const spirit::Blend& blend, const Look& look) {
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  return {{"blend", print(blend.volume_at_20C), "at " + shown(blend.strength, look.units)},
          {"contraction", print(blend.contraction), "lost on mixing"},
          {"pure alcohol", print(spirit::pure_alcohol(blend.result))},
          {"mass", print(blend.result.mass())}};
}

void append(std::vector<Row>& rows, std::vector<Row> more) {
  rows.insert(rows.end(), more.begin(), more.end());
}

std::string because(const Arguments& arguments, bool chosen = false) {
  if (!arguments.has("--why")) return "";
  std::vector<Ground> all{
      {"Balance",
       "masses of ethanol and of water add exactly; volume and strength are asked of the sum."},
      {"Source",
       "OIML R 22 (1973), general formula of density. Volumes at 20 °C unless a part says "
       "otherwise."}};
  if (chosen) {
    all.push_back({"Choice",
                   "the least pure alcohol left in opened lots; then fewest lots opened, least "
                   "water, fewest lots left in part."});
  }
  return grounds(all);
}

std::string mixed(Arguments& arguments, const Look& look) {
  const Parts parts = asked_parts(arguments, 2);
  arguments.settle();
  const spirit::Blend blend = spirit::blend(parts.lots);
  if (look.json) return wire::json(parts.lots, blend) + "\n";
  std::vector<Row> rows;
  for (const spirit::Lot& lot : parts.lots) {
    rows.push_back(row_of(lot, fmt::format("part {}", rows.size() + 1), look));
  }
  append(rows, rows_of(blend, look));
  return headline(fmt::format("{} parts make {}.", parts.lots.size(),
                              shown(blend.result, look.units)),
                  look) +
         table(rows) + because(arguments);
}

std::string reached(Arguments& arguments, const Look& look) {
  const Parts parts = asked_parts(arguments, 1);
  spirit::BlendTarget target;
  target.strength = spirit::volume_strength(arguments.required<units::StatedStrength>("--to"));
  if (!arguments.refused("--to") && target.strength < VolumeStrength::percent(0.01)) {
    arguments.refuse("--to", arguments.texts("--to").front(), "0.01 %vol or more");
  }
  target.volume = arguments.optional<units::Volume>("--make");
  if (target.volume) {
    arguments.keep_within("--make", *target.volume, least_volume, most_volume);
  }
  target.water = !arguments.has("--without-water");
  arguments.settle();
  const spirit::TargetBlend found = with_names({{"volume", "make"}, {"lot", "part"}}, [&] {
    return spirit::blend_to(parts.lots, target);
  });
  if (look.json) return wire::json(parts.lots, found) + "\n";
  std::vector<Row> rows;
  for (std::size_t i = 0; i < parts.lots.size(); ++i) {
    const units::Share used = found.used[i];
    Row row = row_of(parts.lots[i] * used.fraction(), fmt::format("of part {}", i + 1), look);
    if (used <= units::Share{}) {
      row = {row.name, "nothing"};
    } else if (used < units::Share::fraction(1.0)) {
      row.remark += fmt::format(
          ", {} stays",
          units::print(spirit::volume(parts.lots[i] * (1.0 - used.fraction())), look.units));
    } else {
      row.remark += ", all of it";
    }
    rows.push_back(row);
  }
  if (found.water > units::Mass{}) {
    rows.push_back({"water", units::print(found.water, look.units)});
  }
  append(rows, rows_of(found.blend, look));
  rows.push_back(
      {"left in opened lots", units::print(found.waste, look.units), "of pure alcohol"});
  std::string out =
      headline(fmt::format("{} from {} of {} lots.", shown(found.blend.result, look.units),
                           found.opened, parts.lots.size()),
               look) +
      table(rows);
  if (!found.proven) {
    out += "With so many lots not every choice was looked at: a better one may exist.\n";
  }
  out += because(arguments, true);
  return out;
}

std::string enlarged(Arguments& arguments, const Look& look) {
  const Parts parts = asked_parts(arguments, 2);
  const auto wanted = arguments.required<units::Volume>("--make");
  arguments.keep_within("--make", wanted, least_volume, most_volume);
  std::vector<spirit::GlassPart> glass;
  for (const units::StatedPart& part : parts.stated) {
    const auto* volume = std::get_if<units::Volume>(&part.amount);
    if (volume == nullptr || part.at) {
      arguments.refuse("--part", arguments.texts("--part")[glass.size()],
                       "a plain volume poured in the glass, such as \"30 mL @ 68 %vol\", with "
                       "--make and no --to");
      break;
    }
    glass.push_back({*volume, spirit::volume_strength(part.strength)});
  }
  arguments.settle();
  const spirit::ScaledBlend scaled = spirit::scale_glass(glass, wanted);
  if (look.json) return wire::json(scaled.parts, scaled.blend) + "\n";
  std::vector<Row> rows;
  for (const spirit::Lot& lot : scaled.parts) {
    rows.push_back(row_of(lot, fmt::format("of part {}", rows.size() + 1), look));
  }
  append(rows, rows_of(scaled.blend, look));
  return headline(fmt::format("The glass, made to {}.", shown(scaled.blend.result, look.units)),
                  look) +
         table(rows) + because(arguments);
}

std::string run(Arguments& arguments, const Look& look) {
  if (arguments.has("--to")) return reached(arguments, look);
  if (arguments.has("--without-water")) {
    arguments.refuse("--without-water", "given", "only beside --to");
  }
  return arguments.has("--make") ? enlarged(arguments, look) : mixed(arguments, look);
}

}  // namespace

Command blend_command() {
  return {
      "blend",
      "lots mixed together, or a wanted blend from the lots at hand",
      {{"--part", "PART",
        "one lot: \"1.2 L @ 74 %vol\", \"1.2 L @ 74 %vol, 27 C\" or \"940 g @ 120 proof\"; "
        "once for each, water is \"1 L @ 0 %vol\"",
        true},
       {"--to", "STRENGTH", "asks what to take of each to reach this, with least left over"},
       {"--make", "VOLUME",
        "the volume wanted at 20 °C; without --to, the parts are a glass to be made large"},
       {"--without-water", "", "with --to: no water may be added"},
       {"--why", "", "adds the balance and its source"}},
      {R"(--part "1.2 L @ 74 %vol" --part "2 L @ 61 %vol")",
       "2 parts make 3.20 L at 65.9 %vol."},
      "By mass, so exact; volumes at 20 °C, with the contraction of mixing (OIML R 22).\n"
      "\n"
      "More worked lines\n"
      "  lynearm blend --part \"4 L @ 68 %vol\" --part \"2.5 L @ 52 %vol\" --to \"60 %vol\" "
      "--make \"5 L\"\n"
      "  lynearm blend --part \"30 mL @ 72 %vol\" --part \"20 mL @ 66 %vol\" --part \"5 mL @ 0 "
      "%vol\" --make \"4 L\"\n",
      run};
}

}  // namespace lynearm::cli
