#include "cli/gauge_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "numeric/uncertainty.hpp"
#include "spirit/density.hpp"
#include "spirit/freezing.hpp"
#include "spirit/obscuration_rule.hpp"
#include "spirit/strength.hpp"

namespace lynearm::cli {
namespace {

using spirit::GaugingNote;
using units::fixed;

// Two figures of the expanded uncertainty; nothing where none is known.
std::string plus_minus(double standard, std::string_view unit) {
  const double expanded = numeric::coverage_factor * standard;
  if (expanded <= 0.0) return "";
  const int decimals = expanded < 0.095 ? 3 : expanded < 0.95 ? 2 : 1;
  return fmt::format("± {} {}, ", fixed(expanded, decimals), unit);
}

std::string observed(const AskedGauging& asked, const Look& look) {
  const spirit::Observation& observation = asked.input.observation;
  if (const auto* by = std::get_if<spirit::ByHydrometer>(&observation)) {
    return spirit::print(by->reading) + " read";
  }
  if (const auto* by = std::get_if<spirit::ByDensity>(&observation)) {
    return units::print(by->density, look.units, 2) + " measured";
  }
  if (const auto* by = std::get_if<spirit::ByFlask>(&observation)) {
    return units::print(by->shown, look.units, 2) + " in the flask";
  }
  if (const auto* by = std::get_if<spirit::ByRefraction>(&observation)) {
    return "index " + fixed(by->index.ratio(), 4) + " read";
  }
  return units::print(std::get<spirit::KnownStrength>(observation).strength) + " spirit";
}

std::string caution_text(GaugingNote note, const AskedGauging& asked,
                         const spirit::Gauging& gauging) {
  switch (note) {
    case GaugingNote::may_be_frozen:
      return fmt::format(
          "ice may be in it: spirit of this strength begins to freeze at {}, and what is still "
          "liquid is stronger than the whole. Warm it before gauging.",
          units::print(spirit::freezing_point(gauging.apparent)));
    case GaugingNote::refraction_is_flat:
      return "near 80 % by mass the index hardly changes with strength: use a hydrometer, or "
             "dilute the sample with as much water and read again.";
    case GaugingNote::near_warmest:
      return "at this warmth alcohol leaves an open jar. Spirit above 40 °C at the spout means "
             "vapour may be escaping: heat off first.";
    case GaugingNote::obscured: {
      const auto rule = spirit::us_gauging(asked.input.residue);
      return fmt::format(
          "the residue is taken to fill {} mL a gram. In the United States at {} mg/100 mL: {} "
          "(27 CFR 30.31); in the European Union the strength of the distillate counts. Local "
          "law decides.",
          spirit::sucrose_mL_per_g, fixed(asked.input.residue.grams_per_litre() * 100.0, 0),
          spirit::words(rule));
    }
  }
  return "";
}

}  // namespace

std::string text(const AskedGauging& asked, const spirit::Gauging& gauging, const Look& look) {
  const units::MassFraction same = spirit::mass_fraction(gauging.strength);
  const double proof = spirit::proof(same).degrees();
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  const auto density = [&](units::Temperature t) {
    return print(spirit::density(gauging.apparent, t));
  };
  std::vector<Row> rows{{"strength", units::print(gauging.strength),
                         plus_minus(gauging.standard.percent(), "%vol") + "at 20 °C"},
                        {"by mass", units::print(gauging.ethanol)},
                        {"US proof", fixed(proof, 1) + " proof", "at 60 °F"},
                        {"density", density(spirit::reference_20C), "at 20 °C"},
                        {"", density(asked.input.at), "at " + print(asked.input.at)}};
  if (asked.input.residue > units::MassConcentration{}) {
    rows.insert(rows.begin() + 1,
                {"apparent", units::print(spirit::volume_strength(gauging.apparent)),
                 "with what is dissolved in it"});
  }
  if (gauging.other_side) {
    rows.push_back({"or", units::print(spirit::volume_strength(*gauging.other_side)),
                    "the other strength of this index"});
  }
  if (gauging.lot) {
    const spirit::Account& account = gauging.lot->account;
    const auto litres = [](double standard) { return plus_minus(standard, "L"); };
    const std::string volume_doubt =
        look.units == units::System::us
            ? plus_minus(gauging.lot->volume_standard.us_gallons(), "gal")
            : litres(gauging.lot->volume_standard.litres());
    rows.push_back({"volume", print(account.volume_20C), volume_doubt + "at 20 °C"});
    rows.push_back({"", fixed(account.volume_60F.us_gallons(), 2) + " gal", "at 60 °F"});
    rows.push_back({"mass", units::print(account.mass, look.units, 3)});
    rows.push_back({"weight", units::print(account.weight, look.units, 3),
                    "on a scale, for the air it pushes aside"});
    rows.push_back({"pure alcohol", fixed(account.alcohol.litres(), 2) + " L",
                    litres(gauging.lot->alcohol_standard.litres()) + "at 20 °C"});
    rows.push_back({"", fixed(account.proof_gallons.gallons(), 2) + " proof gallons"});
  }
  std::string out =
      headline(fmt::format("{} at {} is {} at 20 °C ({:.1f} proof).", observed(asked, look),
                           print(asked.input.at), units::print(gauging.strength), proof),
               look) +
      table(rows);
  if (!asked.limits.empty()) {
    out += fmt::format("The ± holds 19 times in 20, with {}.\n", fmt::join(asked.limits, ", "));
  }
  for (const GaugingNote note : gauging.notes) {
    out += caution(caution_text(note, asked, gauging), look);
  }
  return out;
}

namespace {

std::string equation(const spirit::Observation& observation) {
  if (const auto* by = std::get_if<spirit::ByHydrometer>(&observation)) {
    const units::Temperature reference =
        by->hydrometer.reference.value_or(spirit::reference_of(by->reading.scale));
    return fmt::format(
        "The glass floats to the density around it: density(p, t) = density of the mark at {} "
        "/ "
        "(1 + {:g} (t - {})). Solved for p.",
        units::print(reference), by->hydrometer.glass_expansion_per_K, units::print(reference));
  }
  if (std::holds_alternative<spirit::ByDensity>(observation)) {
    return "density(p, t) = the density measured. Solved for p.";
  }
  if (std::holds_alternative<spirit::ByFlask>(observation)) {
    return "Mass = weight shown (1 - air/8000) / (1 - air/density), with air of 1.2 kg/m³; "
           "density = mass / volume of the flask at t. Solved for p.";
  }
  if (std::holds_alternative<spirit::ByRefraction>(observation)) {
    return "index(p, t) = the index read. Solved for p; from pure ethanol's index to the "
           "maximum there are two.";
  }
  return "The strength was given.";
}

std::string source(const spirit::Observation& observation) {
  std::string text =
      "OIML R 22 (1973), general formula of density; 20 °C strength by its "
      "definition; proof and 60 °F strength by 27 CFR 30.11.";
  if (std::holds_alternative<spirit::ByHydrometer>(observation)) {
    text += " Glass: OIML R 44 (1985).";
  } else if (std::holds_alternative<spirit::ByFlask>(observation)) {
    text += " Weighing in air: OIML D 28, R 111. Flask: ISO 4787 (from memory).";
  } else if (std::holds_alternative<spirit::ByRefraction>(observation)) {
    text +=
        " Index: CRC Handbook, 102nd ed., at 20 °C; other temperatures by specific "
        "refraction.";
  }
  return text;
}

}  // namespace

std::string why(const AskedGauging& asked, const spirit::Gauging& gauging, const Look& look) {
  const units::MassFraction same = spirit::mass_fraction(gauging.strength);
  std::vector<Ground> all{
      {"What went in", fmt::format("{} at {}.", observed(asked, look),
                                   units::print(asked.input.at, look.units))},
      {"Equation", fmt::format("{} p is the share of ethanol by mass: here {:.6f}.",
                               equation(asked.input.observation), gauging.apparent.fraction())},
      {"Definitions",
       fmt::format(
           "% by volume: volume of the ethanol alone over that of the whole, both at one "
           "temperature: {:.3f} at 20 °C, {:.3f} at 15 °C, {:.3f} at 60 °F; proof is "
           "twice the last. Specific gravity in vacuum: {:.5f} 20/20 °C, {:.5f} 60/60 "
           "°F.",
           gauging.strength.percent(), spirit::volume_strength_15C(same).percent(),
           spirit::volume_strength_60F(same).percent(),
           spirit::specific_gravity(gauging.apparent).ratio(),
           spirit::specific_gravity_60F(gauging.apparent).ratio())}};
  if (asked.input.residue > units::MassConcentration{}) {
    all.push_back(
        {"Obscuration",
         fmt::format("{} of residue fill {} mL a gram; the rest of the density is the "
                     "spirit's.",
                     units::print(asked.input.residue), spirit::sucrose_mL_per_g)});
  }
  all.push_back({"Sources", source(asked.input.observation)});
  all.push_back(
      {"Uncertainty",
       fmt::format("standard {:.3f} %vol, expanded (k = 2) {:.3f} %vol. Limits are taken as "
                   "uniform, first order (GUM, JCGM 100:2008). Standard, each by itself:",
                   gauging.standard.percent(),
                   numeric::coverage_factor * gauging.standard.percent())});
  std::vector<spirit::Contribution> sorted = gauging.contributions;
  std::sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) {
    return std::abs(a.strength.fraction()) > std::abs(b.strength.fraction());
  });
  std::vector<Row> rows;
  for (const spirit::Contribution& each : sorted) {
    rows.push_back(
        {"  " + std::string(each.input), fixed(std::abs(each.strength.percent()), 3) + " %vol",
         gauging.lot ? fixed(std::abs(each.alcohol.litres()), 4) + " L of pure alcohol" : ""});
  }
  return grounds(all) + table(rows);
}

}  // namespace lynearm::cli
