// lynearm gauge: from what an instrument shows, and the spirit's temperature, to the true
// strength; with a volume or weight, to the lot; with --batch, for a whole file.
#include "cli/commands.hpp"
#include "cli/gauge_batch.hpp"
#include "cli/gauge_input.hpp"
#include "cli/gauge_text.hpp"
#include "wire/spirit.hpp"

namespace lynearm::cli {
namespace {

std::string run(Arguments& arguments, const Look& look) {
  const AskedGauging asked = asked_gauging(arguments);
  const bool flask = arguments.has("--flask-weight");
  const bool refracted = arguments.has("--index");
  const spirit::Gauging gauging = with_names({{"shown", flask ? "flask_weight" : "weight"},
                                              {"reading", refracted ? "index" : "reading"},
                                              {"temperature", "at"}},
                                             [&] { return spirit::gauge(asked.input); });
  if (look.json) return wire::json(asked.input, gauging) + "\n";
  return text(asked, gauging, look) +
         (arguments.has("--why") ? why(asked, gauging, look) : std::string());
}

std::optional<int> stream(Arguments& arguments, const Look& look) {
  if (!arguments.has("--batch")) return std::nullopt;
  for (const Option& option : gauging_options()) {
    if (option.name == "--glass-true-at" || !arguments.has(option.name)) continue;
    arguments.refuse(option.name, arguments.texts(option.name).front(),
                     "nothing: with --batch every reading stands in the file");
  }
  if (look.json) arguments.refuse("--json", "given", "nothing: --batch writes CSV");
  const std::string path =
      arguments.required_text("--batch", "a file, or - for standard input");
  const spirit::Hydrometer hydrometer = asked_hydrometer(arguments);
  arguments.settle();
  return gauge_batch(path, hydrometer);
}

std::vector<Option> options() {
  std::vector<Option> all = gauging_options();
  all.push_back(
      {"--batch", "FILE.csv", "corrects a table of readings, row by row; - is standard input"});
  all.push_back({"--why", "", "adds the equation, the definitions, sources and uncertainty"});
  return all;
}

}  // namespace

Command gauge_command() {
  return {
      "gauge",
      "true strength, volume and pure alcohol from what an instrument shows",
      options(),
      {R"(--reading "62.4 %vol" --at "27.5 C")",
       "62.4 %vol read at 27.5 °C is 59.8 %vol at 20 °C (119.5 proof)."},
      "Density of ethanol and water by OIML R 22 (1973), -20 to 40 °C; hydrometer glass of\n"
      "25e-6 per kelvin. A scale is true at 20 °C; in proof, \"%vol at 60 F\" and\n"
      "\"SG 60/60\" at 60 °F. Sugar or wood extract in the spirit makes it read too low: give\n"
      "its --residue. A refractive index from 1.3614 to 1.3658 has two strengths: say --side.\n"
      "\n"
      "A table for --batch has a head line. Columns: reading and temperature, each cell with\n"
      "its unit, or with the unit in the head: reading_percent_vol, reading_proof,\n"
      "temperature_C, temperature_F; others are carried through. Faulty rows are told by line\n"
      "on standard error, and the exit status is then 3.\n"
      "\n"
      "More worked lines\n"
      "  lynearm gauge --density \"0.90431 g/mL\" --at \"20 C\" --volume \"4.2 L\"\n"
      "  lynearm gauge --flask-weight \"152.34 g\" --tare \"61.80 g\" --flask \"100 mL\" --at "
      "\"19 C\"\n"
      "  lynearm gauge --index 1.3650 --side weak --at \"20 C\"\n"
      "  lynearm gauge --strength \"62 %vol\" --at \"28 C\" --volume \"48 L\" --vessel "
      "stainless-304\n"
      "  lynearm gauge --reading \"56.1 %vol\" --at \"18 C\" --residue \"1.5 g/L\"\n",
      run,
      stream,
  };
}

}  // namespace lynearm::cli
