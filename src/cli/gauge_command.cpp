// lynearm gauge: from what a glass hydrometer shows, and the spirit's temperature, to the true
// strength. A reading in proof is one of a US proof hydrometer, true at 60 °F.
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "spirit/density.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "wire/spirit.hpp"

namespace lynearm::cli {
namespace {

void check_temperature(Arguments& arguments, units::Temperature at) {
  if (arguments.refused("--at") || !arguments.has("--at")) return;
  std::string accepted = "-20 to 40 °C, the range of the density formula (OIML R 22)";
  if (at > spirit::warmest) {
    accepted +=
        "; spirit above 40 °C at the spout means vapour may be escaping: heat off first, "
        "then let the sample cool in a closed jar";
  }
  if (!(at >= spirit::coldest && at <= spirit::warmest)) {
    arguments.refuse("--at", arguments.texts("--at").front(), accepted);
  }
}

std::string text(const wire::Gauging& gauging, const Look& look) {
  const units::MassFraction ethanol = gauging.ethanol;
  const units::VolumeStrength strength = spirit::volume_strength(ethanol);
  const double proof = spirit::proof(ethanol).degrees();
  const auto density = [&](units::Temperature t) {
    return units::print(spirit::density(ethanol, t), look.units);
  };
  return headline(
             fmt::format("{} read at {} is {} at 20 °C ({:.1f} proof).",
                         spirit::print(gauging.reading), units::print(gauging.at, look.units),
                         units::print(strength), proof),
             look) +
         table({{"strength", units::print(strength), "at 20 °C"},
                {"by mass", units::print(ethanol)},
                {"US proof", units::fixed(proof, 1) + " proof", "at 60 °F"},
                {"density", density(spirit::reference_20C), "at 20 °C"},
                {"", density(gauging.at), "at " + units::print(gauging.at, look.units)}});
}

std::string run(Arguments& arguments, const Look& look) {
  const auto reading = arguments.required<spirit::Reading>("--reading");
  const auto at = arguments.required<units::Temperature>("--at");
  check_temperature(arguments, at);
  arguments.settle();
  const wire::Gauging gauging{reading, at, spirit::true_mass_fraction(reading, at)};
  return look.json ? wire::json(gauging) + "\n" : text(gauging, look);
}

}  // namespace

Command gauge_command() {
  return {
      "gauge",
      "true strength from a hydrometer reading and the spirit's temperature",
      {{"--reading", "STRENGTH",
        "what the glass shows: \"62.4 %vol\" (true at 20 °C) or \"125 proof\" (at 60 °F)"},
       {"--at", "TEMPERATURE", "the spirit's temperature: \"27.5 C\" or \"81 F\""}},
      {R"(--reading "62.4 %vol" --at "27.5 C")",
       "62.4 %vol read at 27.5 °C is 59.8 %vol at 20 °C (119.5 proof)."},
      "Density of ethanol and water by OIML R 22 (1973), glass of 25e-6 per kelvin. Sugar or\n"
      "wood extract in the spirit makes it read too low; this does not know of them.\n",
      run};
}

}  // namespace lynearm::cli
