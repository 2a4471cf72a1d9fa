// lynearm vapour: where a liquid of ethanol and water boils and what rises from it; or, from
// the other side, where a vapour condenses and what falls.
#include <fmt/format.h>

#include <charconv>
#include <optional>

#include "cli/air_pressure.hpp"
#include "cli/commands.hpp"
#include "cli/page_text.hpp"
#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "numeric/normal.hpp"
#include "spirit/strength.hpp"
#include "still/days_cues.hpp"
#include "wire/todays_air.hpp"
#include "wire/vapour.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* liquid_moles = "--liquid-mole-fraction";
constexpr const char* liquid_strength = "--liquid-strength";
constexpr const char* vapour_moles = "--vapour-mole-fraction";
constexpr const char* vapour_strength = "--vapour-strength";
constexpr const char* one_of_four =
    "one of --liquid-mole-fraction, --liquid-strength, --vapour-mole-fraction and "
    "--vapour-strength";

// "25 %mol", or a bare fraction: "0.25".
units::MoleFraction mole_fraction(Arguments& arguments, const char* option) {
  const std::string& text = arguments.texts(option).front();
  double fraction = -1.0;
  const char* end = text.data() + text.size();
  const std::from_chars_result read = std::from_chars(text.data(), end, fraction);
  const bool bare = read.ec == std::errc{} && read.ptr == end;
  const auto parsed = units::try_parse<units::MoleFraction>(text);
  if (parsed) fraction = parsed.value->fraction();
  if ((!bare && !parsed) || !(fraction >= 0.0 && fraction <= 1.0)) {
    arguments.refuse(option, text, "moles of ethanol over all moles, from 0 to 1");
    return {};
  }
  return units::MoleFraction::fraction(fraction);
}

units::MoleFraction of_strength(Arguments& arguments, const char* option) {
  const auto stated = arguments.required<units::StatedStrength>(option);
  if (arguments.refused(option)) return {};
  return spirit::mole_fraction(spirit::mass_fraction(stated));
}

struct Asked {
  units::MoleFraction ethanol;
  bool in_vapour = false;
};

// What is asked of a liquid or a vapour; nothing where boiling water alone is told.
std::optional<Asked> asked(Arguments& arguments) {
  std::optional<Asked> found;
  for (const char* option : {liquid_moles, liquid_strength, vapour_moles, vapour_strength}) {
    if (!arguments.has(option)) continue;
    if (found) {
      arguments.refuse(option, arguments.texts(option).front(),
                       std::string("only ") + one_of_four);
      continue;
    }
    const bool moles = option == liquid_moles || option == vapour_moles;
    found = Asked{moles ? mole_fraction(arguments, option) : of_strength(arguments, option),
                  option == vapour_moles || option == vapour_strength};
  }
  if (!found && !arguments.has("--boiling-water")) {
    arguments.refuse(liquid_moles, "", one_of_four);
  }
  return found;
}

std::string strength(units::MoleFraction ethanol, const Look& look) {
  return shown(spirit::volume_strength(spirit::mass_fraction(ethanol)), look.units);
}

std::string heat(vapour::MolarEnthalpy enthalpy, units::MoleFraction of) {
  return fmt::format("{:.0f} kJ/kg", vapour::kilojoules_per_kilogram(enthalpy, of));
}

std::string text(const vapour::BoilingMixture& found, const vapour::Azeotrope& azeotrope,
                 bool in_vapour, const Look& look) {
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  const std::string liquid = strength(found.liquid, look);
  const std::string vapour = strength(found.vapour, look);
  const std::string t = print(found.temperature);
  const std::string sentence =
      in_vapour
          ? fmt::format("A vapour of {} condenses from {} down; its first drop has {}.", vapour,
                        t, liquid)
          : fmt::format("A liquid of {} boils at {}; its vapour has {}.", liquid, t, vapour);
  const auto moles = [](units::MoleFraction x) {
    return units::fixed(x.fraction(), 4) + " by moles";
  };
  return headline(sentence, look) +
         table({{"liquid", liquid, moles(found.liquid)},
                {"vapour", vapour, moles(found.vapour) + ", once condensed"},
                {"temperature", print(found.temperature), "of both"},
                {"relative volatility", units::fixed(found.relative_volatility, 3),
                 "of ethanol to water"},
                {"to boil it all off", heat(found.heat_of_vaporisation, found.liquid),
                 "of the liquid, its vapour kept with it"},
                {"enthalpy, liquid", heat(found.liquid_enthalpy, found.liquid),
                 "above ethanol and water apart at 0 °C"},
                {"enthalpy, vapour", heat(found.vapour_enthalpy, found.vapour), "the same"},
                {"azeotrope", strength(azeotrope.ethanol, look),
                 fmt::format("at {}; no still passes it", print(azeotrope.temperature))},
                {"air pressure", print(found.pressure)}});
}

std::string why(const vapour::BoilingMixture& found) {
  const vapour::NrtlParameters& p = vapour::house_nrtl;
  return grounds(
      {{"Model",
        fmt::format("x gamma p = y P for ethanol and for water: here gamma {:.4f} and {:.4f}. "
                    "The vapour is taken as ideal; sugar and solids are left out (5 % of sugar "
                    "boils 0.08 °C later, our estimate).",
                    found.activity.ethanol, found.activity.water)},
       {"Gamma",
        fmt::format("NRTL, tau = a + b/T: {} and {} K for ethanol with water, {} and {} K for "
                    "water with ethanol, alpha {}. Fitted by us to seven published sets, "
                    "the newest of 2012, and to the azeotrope.",
                    p.a12, p.b12_K, p.a21, p.b21_K, p.alpha)},
       {"Sources",
        "Vapour pressures and latent heats: Perry's Chemical Engineers' Handbook, 8th ed. Heat "
        "of mixing: Larkin, J. Chem. Thermodyn. 7 (1975) 137. Strengths: OIML R 22 (1973)."},
       {"Accuracy",
        "a set that the fit had not seen (Kamihama et al. 2012, 101.3 kPa) lies 0.09 K and "
        "0.003 in y from it on average; older sets differ by 0.3 to 0.5 K and 0.009 to 0.014 "
        "among themselves. From 50 to 110 kPa."}});
}

// The cues of the day, truly and as the thermometer shows them.
std::string cues_text(const std::vector<still::DaysCue>& cues, const Look& look) {
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  std::vector<std::vector<std::string>> rows;
  for (const still::DaysCue& cue : cues) {
    const std::string of = shown(cue.strength, look.units);
    rows.push_back(
        {cue.of == still::CueOf::head ? fmt::format("head, for {} at the spout", of)
         : cue.strength == units::VolumeStrength{} ? std::string("boiling water")
                                                   : fmt::format("boiling, {} in the pot", of),
         print(cue.truly), print(cue.cue.as_shown), print(cue.cue.sd * numeric::half_of_80)});
  }
  return heading("Cues of the day", look) +
         grid({{"", Side::left}, {"truly"}, {"the thermometer shows"}, {"within"}}, rows) +
         paragraph(
             "\"Within\" is for the day's air and the thermometer, four times in five; a head "
             "that stands still, with its bulb in the vapour, is taken for granted.");
}

std::string todays_headline(const still::TodaysAir& air, const Look& look) {
  return headline(fmt::format("Today {} ± {}; the thermometer is off by {} ± {}.",
                              units::print(air.pressure, look.units),
                              units::print(air.pressure_sd * numeric::half_of_80, look.units),
                              offset_shown(air.thermometer_offset, look.units),
                              units::print(air.offset_sd * numeric::half_of_80, look.units)),
                  look);
}

std::string run(Arguments& arguments, const Look& look) {
  const std::optional<Asked> wanted = asked(arguments);
  const AskedAir asked_of_air = asked_air(arguments);
  if (!wanted && arguments.has("--why")) {
    arguments.refuse("--why", "", "--why beside a liquid or a vapour");
  }
  arguments.settle();
  const DaysAir air = days_air(asked_of_air, arguments);
  std::vector<still::DaysCue> cues;
  if (air.today) {
    std::vector<units::VolumeStrength> liquids;
    if (wanted && !wanted->in_vapour) {
      liquids.push_back(spirit::volume_strength(spirit::mass_fraction(wanted->ethanol)));
    }
    cues = still::days_cues(*air.today, liquids);
  }
  if (!wanted) {
    if (look.json) return wire::todays_air_json(*air.today, cues) + "\n";
    return todays_headline(*air.today, look) + set_in_lines(still::account(*air.today)) +
           cues_text(cues, look);
  }
  const vapour::BoilingMixture found =
      wanted->in_vapour ? vapour::condensing_mixture(wanted->ethanol, air.pressure)
                        : vapour::boiling_mixture(wanted->ethanol, air.pressure);
  const vapour::Azeotrope azeotrope = vapour::azeotrope(air.pressure);
  if (look.json) return wire::boiling_json(found, azeotrope, air.today, cues) + "\n";
  std::string out = text(found, azeotrope, wanted->in_vapour, look);
  if (air.today) {
    out += fmt::format("\n{}", todays_headline(*air.today, look)) +
           set_in_lines(still::account(*air.today)) + cues_text(cues, look);
  }
  return out + (arguments.has("--why") ? why(found) : std::string());
}

}  // namespace

Command vapour_command() {
  return {
      "vapour",
      "boiling point of ethanol and water, and the vapour that rises from it",
      {{liquid_moles, "FRACTION", "of ethanol in the boiling liquid, by moles: 0.25"},
       {liquid_strength, "STRENGTH", "of the boiling liquid instead: \"10 %vol\""},
       {vapour_moles, "FRACTION", "of ethanol in a vapour that begins to condense: 0.6"},
       {vapour_strength, "STRENGTH", "of that vapour instead, as condensed: \"65 %vol\""},
       {"--pressure", "PRESSURE", "of the air: \"101.325 kPa\" (default) or \"29.8 inHg\""},
       {"--altitude", "HEIGHT", "instead of --pressure: \"350 m\" or \"1200 ft\""},
       boiling_water_option("shown by your thermometer today, \"99.2 °C\": pressure, cues"),
       {"--why", "", "adds the model, its sources and how well it is known"}},
      {R"(--liquid-strength "10 %vol" --pressure "101.325 kPa")",
       "A liquid of 10.0 %vol boils at 92.6 °C; its vapour has 55.2 %vol."},
      "Ethanol and water alone, liquid and vapour in equilibrium: one stage, what a pot gives\n"
      "without reflux. Strengths are % by volume at 20 °C. Solids and sugar are left out.\n"
      "\n"
      "With --boiling-water: what the thermometer shows in water that boils hard, its tip in "
      "the\n"
      "water. With --pressure, read today at the still, it tells how far the thermometer is "
      "off;\n"
      "with --altitude or neither, pressure and thermometer together. The cues of the day are\n"
      "given truly and as that thermometer shows them.\n"
      "  lynearm vapour --boiling-water \"99.2 °C\" --altitude \"120 m\"\n",
      run};
}

}  // namespace lynearm::cli
