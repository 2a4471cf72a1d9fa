#include "wire/whys.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>

#include "spirit/gauging.hpp"
#include "spirit/lot.hpp"

namespace lynearm::wire {
namespace {

std::string litres(units::Volume volume, int decimals = 3) {
  return fmt::format("{:.{}f} L", volume.litres(), decimals);
}
std::string percent(units::VolumeStrength strength) {
  return fmt::format("{:.1f} %vol", strength.percent());
}
std::string grams_per_litre(units::MassConcentration of) {
  return fmt::format("{:.2f} g/L", of.grams_per_litre());
}
std::string celsius(units::Temperature t) { return fmt::format("{:.1f} °C", t.celsius()); }

std::string shown(const spirit::Reading& reading) {
  constexpr std::array<std::string_view, 8> units = {
      "%vol",  "%vol at 15 °C", "%vol at 60 °F",    "% by mass",
      "proof", "kg/m³",         "specific gravity", "specific gravity at 60 °F"};
  return fmt::format("{:.6g} {}", reading.figure,
                     units[static_cast<std::size_t>(reading.scale)]);
}

std::string of_lot(const spirit::Lot& lot) {
  if (!(lot.mass() > units::Mass{})) return "nothing";
  return fmt::format("{} at {}, {} of pure alcohol", litres(spirit::volume(lot)),
                     percent(spirit::strength(lot)), litres(spirit::pure_alcohol(lot)));
}

}  // namespace

std::string gauging_doubt(const journal::Glass& glass) {
  return fmt::format(
      "a volume read at a mark to {:.0f} %, one standard deviation, our estimate; a strength "
      "by {}",
      100.0 * journal::volume_share_sd, journal::words(glass));
}

Why why_gauged(const GaugeAsked& asked) {
  Why why;
  why.what = "True strength by volume at 20 °C";
  why.inputs = {{"Read", shown(asked.strength.reading)}, {"At", celsius(asked.strength.at)}};
  if (asked.volume) {
    why.what += ", and the pure alcohol in the volume";
    why.inputs.emplace_back("Volume, as warm as that", litres(*asked.volume));
  }
  why.model =
      "The density at which such an instrument floats so, at that temperature, its glass "
      "swelling by 25 millionths per kelvin; the strength whose mixture of ethanol and water "
      "is as dense.";
  why.source = std::string(density_source) + "; OIML R 44 (1985) for the instrument";
  const spirit::HydrometerClass& glass =
      spirit::hydrometer_classes()[static_cast<std::size_t>(asked.glass)];
  why.inputs.emplace_back(
      "Read on", fmt::format("{}{}{}", glass.name, asked.certificate.empty() ? "" : ", ",
                             asked.certificate));
  if (asked.residue > units::MassConcentration{}) {
    why.inputs.emplace_back("Left on drying", grams_per_litre(asked.residue));
    why.model +=
        " What is dissolved makes it denser: its own volume, 0.62 mL to a gram, is taken off "
        "first; true strength is the alcohol in a litre of the spirit as it is.";
    why.source += "; a gram of solids' volume after sucrose, our estimate for extract of oak";
  }
  why.band =
      "greatest error and one division of that glass, a thermometer to 0.5 °C, the density "
      "formula's own scatter; taken as uniform and independent";
  return why;
}

Why why_gravity(const GravityAsked& asked) {
  constexpr std::array<std::string_view, 3> units = {"specific gravity", "°P", "°Brix"};
  const bool bent = asked.gravity.scale == journal::GravityScale::brix;
  Why why;
  why.what = "True gravity at 20 °C";
  why.inputs = {{"Read", fmt::format("{:.6g} {}", asked.gravity.figure,
                                     units[static_cast<std::size_t>(asked.gravity.scale)])},
                {"At", celsius(asked.gravity.at)}};
  if (asked.original) {
    why.what += ", and the alcohol that the fall implies";
    why.inputs.emplace_back("Original gravity", fmt::format("{:.4f}", asked.original->ratio()));
  }
  why.model =
      bent ? "Index of refraction at that temperature; once it ferments, corrected for the "
             "alcohol that bends the light as well."
           : "A hydrometer corrected for the density of water and its glass at that "
             "temperature.";
  if (asked.original) {
    why.model += " Alcohol by the mass balance of the yeast's sugar, 0.90 of theory reached.";
  }
  why.source = bent ? "ICUMSA, refraction of sucrose; Lorentz and Lorenz"
                    : "NBS Circular 440, OIML R 44 (1985)";
  if (asked.original) why.band = "the yield, 0.88 to 0.93 of theory: -2 to +3 % of the alcohol";
  return why;
}

Why why_reduced(const ReduceAsked& asked, const ReductionMade& made) {
  const spirit::Reduction& by_mass = made.measured.by_mass;
  Why why;
  why.what = asked.make ? "Spirit and water that make so much at a strength"
                        : "Water that brings a spirit down to a strength";
  if (asked.make) why.inputs.emplace_back("To be made", litres(*asked.make));
  why.inputs.emplace_back("Spirit", fmt::format("{} at {}, {}", litres(made.measured.spirit),
                                                percent(asked.strength), celsius(asked.at)));
  if (asked.residue > units::MassConcentration{}) {
    why.inputs.emplace_back("Extract of it", grams_per_litre(asked.residue));
  }
  if (asked.weaker) {
    why.inputs.emplace_back(
        "Weaker spirit",
        fmt::format("{} at {}", litres(asked.weaker->volume), percent(asked.weaker->strength)));
  }
  if (asked.tea) {
    why.inputs.emplace_back(
        "Tea of oak",
        fmt::format("{} at {}, {}", litres(asked.tea->part.volume),
                    percent(asked.tea->part.strength), grams_per_litre(asked.tea->residue)));
  }
  why.inputs.emplace_back("Down to", percent(asked.to));
  why.inputs.emplace_back("Water", celsius(asked.water_at));
  why.inputs.emplace_back("Contraction, at 20 °C",
                          fmt::format("{:.0f} mL", by_mass.contraction.millilitres()));
  if (made.check && made.check->obscured) {
    const spirit::ObscuredLot& found = made.check->obscured->found;
    why.inputs.emplace_back("Found", fmt::format("{} at {} true", litres(spirit::volume(found)),
                                                 percent(spirit::true_strength(found))));
  } else if (made.check) {
    why.inputs.emplace_back("Found", of_lot(made.check->found));
  }
  why.model = added_masses;
  why.source = density_source;
  if (asked.dissolved()) {
    why.source += "; a gram of solids' volume after sucrose, our estimate for extract of oak";
  }
  why.band =
      "no band: the strength and the volume given are taken as exact; gauge what comes "
      "of it";
  return why;
}

Why why_blend(const std::vector<PartAsked>& parts) {
  Why why;
  why.what = "Volume and strength of lots poured together, at 20 °C";
  for (std::size_t i = 0; i < parts.size(); ++i) {
    why.inputs.emplace_back(
        fmt::format("Lot {}", i + 1),
        fmt::format("{} at {}", litres(parts[i].volume), percent(parts[i].strength)));
  }
  why.model = added_masses;
  why.source = density_source;
  why.band = "no band: what was given is taken as exact";
  return why;
}

Why why_lot(const journal::LotState& lot, const journal::Glass& glass) {
  Why why;
  why.what = "What is left of " + (lot.label.empty() ? std::string("the lot") : lot.label);
  why.inputs = {
      {lot.reckoned ? "Made, reckoned from its parts" : "Made, as gauged", of_lot(lot.made)}};
  if (const auto gauged = journal::gauged_when_made(lot)) {
    why.inputs.emplace_back(lot.bottles ? "Filled, as told" : "Gauged when it was made",
                            of_lot(*gauged));
  }
  if (lot.residue) why.inputs.emplace_back("Left on drying", grams_per_litre(*lot.residue));
  for (const journal::LotUse& use : lot.uses) {
    why.inputs.emplace_back(use.where,
                            litres(spirit::pure_alcohol(use.lot)) + " of pure alcohol");
  }
  why.model = std::string(added_masses) + " Left is made less its uses.";
  why.source = fmt::format("{}; {}", density_source, proof_gallon_source);
  why.band = lot.measured ? gauging_doubt(glass)
                          : "as far off as the parts it is reckoned from; gauge it to know";
  return why;
}

Why why_step(const journal::AccountStep& step, const journal::Glass& glass) {
  Why why;
  why.what = "Pure alcohol unaccounted for in " + step.what;
  why.inputs = {{"Went in", litres(step.in.value)}, {"Came out", litres(step.out.value)}};
  for (const auto& [name, lost] : step.named) why.inputs.emplace_back(name, litres(lost.value));
  why.model = "What went in, less what came out, less the losses that have a name.";
  why.source = fmt::format("{} for each gauging; {}", density_source, proof_gallon_source);
  why.band = gauging_doubt(glass) +
             fmt::format(
                 "; a wash by its gravities to {:.1f} %vol and {:.0f} % of its yield, a "
                 "pot that nobody gauged to {:.0f} or {:.0f} % of its charge",
                 journal::wash_strength_sd.percent(), 100.0 * journal::wash_yield_sd,
                 100.0 * journal::strip_pot_share_sd, 100.0 * journal::spirit_pot_share_sd);
  return why;
}

}  // namespace lynearm::wire
