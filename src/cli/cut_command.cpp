// lynearm cut: jars of a run allotted to foreshots, hearts and feints, as a few alternatives.
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/cut_input.hpp"
#include "cli/cut_jars.hpp"
#include "cli/cut_text.hpp"
#include "cli/still_options.hpp"
#include "cli/still_run.hpp"
#include "cli/table.hpp"
#include "still/jars_of_run.hpp"
#include "wire/cut.hpp"

namespace lynearm::cli {
namespace {

// From jars, wherever they come from, to what is printed.
std::string planned_cut(const std::vector<still::Jar>& jars, const AskedCut& asked,
                        bool with_grounds, const Look& look) {
  wire::CutReport report;
  report.filled = still::fill_loads(jars);
  report.purpose = asked.purpose;
  report.wishes = asked.wishes;
  report.proposal =
      with_names({{"weights.volume", "weights"},
                  {"weights.strength", "weights"},
                  {"weights.early", "weights"},
                  {"weights.late", "weights"},
                  {"weights.fault", "weights"},
                  {"weights", asked.purpose == "own" ? "weights" : "purpose"}},
                 [&] { return still::propose(report.filled.jars, report.wishes); });
  if (look.json) return wire::json(report) + "\n";
  return text(report, look) + (with_grounds ? why(report) : std::string());
}

// The jars that a run would fill, computed from a charge.
std::vector<still::Jar> jars_of_a_run(Arguments& arguments) {
  if (arguments.has("--jars")) {
    arguments.refuse("--jars", arguments.texts("--jars").front(),
                     "either --jars or --charge, not both");
  }
  const AskedStill still = asked_still(arguments);
  const auto each = arguments.required<units::Volume>("--jar");
  arguments.settle();
  const StillRun made = run_still(still, arguments);
  return as_asked(arguments, still_run_names(),
                  [&] { return still::jars_of(made.run, each, usual_amount_factor); });
}

std::vector<Option> computed_options() {
  std::vector<Option> all{
      {"--jar", "VOLUME", "of each jar that the run is caught in: \"250 mL\""}};
  for (Option& option : still_run_options()) all.push_back(std::move(option));
  return all;
}

std::string run(Arguments& arguments, const Look& look) {
  const AskedCut asked = asked_cut(arguments);
  const bool why = arguments.has("--why");
  if (arguments.has("--charge")) {
    const std::string text = planned_cut(jars_of_a_run(arguments), asked, why, look);
    if (look.json) return text;
    return fmt::format(
        "{}\n{}", text,
        set_in_lines("The jars are those of a computed run, with the congeners of a usual "
                     "charge (from memory, within a factor of two to three): a forecast, to "
                     "be replaced by the jars that ran."));
  }
  for (const Option& option : computed_options()) {
    if (!arguments.has(option.name)) continue;
    arguments.refuse(option.name, arguments.texts(option.name).front(),
                     "only beside --charge, for jars of a computed run");
  }
  return planned_cut(asked_jars(arguments), asked, why, look);
}

std::vector<Option> options() {
  std::vector<Option> all{
      {"--jars", "FILE.csv", "the jars of a run, one a row; - reads standard input"}};
  for (Option& option : cut_wishes_options()) all.push_back(std::move(option));
  // In place of --jars: a computed run.
  for (Option& option : computed_options()) {
    if (option.name == "--charge")
      option.help = "instead of --jars, of a computed run: " + option.help;
    all.push_back(std::move(option));
  }
  all.push_back({"--why", "", "adds the worth, the choice and where the loads come from"});
  return all;
}

}  // namespace

Command cut_command() {
  return {
      "cut",
      "which jars of a run make the hearts, as a few alternatives",
      options(),
      {"--jars examples/tern-7/jars.csv --purpose clean",
       "2.70 L at 72.0 %vol of hearts from 9 of 21 jars, none in part."},
      "An estimate: nose and palate decide. Hearts of most worth: pure alcohol less what "
      "early\n"
      "and late congeners, water and faults take off it, by the weights. A jar may be split, "
      "a\n"
      "middle one left out.\n" +
          jars_help() +
          "Caution: methanol runs through the whole of a run and no cut removes it. "
          "Discarding\n"
          "foreshots does not make a spirit safe, and nothing here says that one is.\n"
          "\n"
          "More worked lines\n"
          "  lynearm cut --jars examples/tern-7/jars.csv --purpose fuller --hearts \"2.5 L\"\n"
          "  lynearm cut --jars examples/tern-7/jars.csv --weights \"late 1, early 1\" "
          "--jars-at-least \"56 %vol\"\n"
          "  lynearm cut --charge \"15 L @ 28 %vol\" --stop \"10 %vol\" --jar \"250 mL\"\n",
      run};
}

}  // namespace lynearm::cli
