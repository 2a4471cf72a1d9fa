// lynearm fit-still: the constants of a still from runs that were logged on it, for its kit.
#include <fmt/format.h>

#include <cmath>
#include <filesystem>

#include "cli/commands.hpp"
#include "cli/fit_still_input.hpp"
#include "cli/fit_still_text.hpp"
#include "cli/text_file.hpp"
#include "sheet/still_report.hpp"
#include "wire/fit_still.hpp"

namespace lynearm::cli {
namespace {

// The engine's refusals under the options' names, with what was typed.
still::StillFit fitted(const AskedFit& asked, const Arguments& arguments) {
  try {
    return still::fit_still(asked.runs, asked.choices);
  } catch (const base::InputError& error) {
    std::vector<base::Fault> faults = error.faults();
    for (base::Fault& fault : faults) {
      std::size_t run = 0;
      for (std::size_t i = 0; i < asked.run_paths.size(); ++i) {
        if (fault.field.starts_with(fmt::format("runs[{}]", i))) run = i;
      }
      const std::string part = fault.field.substr(fault.field.find('.') + 1);
      if (fault.field.starts_with("runs[") && part == "record") {
        fault.field = "--run";
        fault.value = asked.run_paths[run];
      } else if (fault.field.starts_with("charge") || fault.field.starts_with("run")) {
        // No still near what is stated runs so with this charge.
        fault.field = "--charge";
        fault.value = arguments.texts("--charge")[run];
        fault.accepted =
            fmt::format("what was charged on {}: {}", asked.run_paths[run], fault.accepted);
      }
    }
    throw base::InputError(std::move(faults));
  }
}

// A slip of the hand must not put a report over what the maker wrote.
void keep_apart(const AskedFit& asked) {
  std::vector<std::string> taken = asked.run_paths;
  taken.push_back(asked.kit_path);
  if (!asked.write_path.empty()) taken.push_back(asked.write_path);
  for (const std::string& path : taken) {
    std::error_code ignored;
    if (!asked.report_path.empty() &&
        (asked.report_path == path ||
         std::filesystem::equivalent(asked.report_path, path, ignored))) {
      throw base::InputError("--report", asked.report_path,
                             "a file that is neither a kit nor a log");
    }
  }
  for (const std::string& path : asked.run_paths) {
    std::error_code ignored;
    if (!asked.write_path.empty() &&
        std::filesystem::equivalent(asked.write_path, path, ignored)) {
      throw base::InputError("--write", asked.write_path, "a file that is not a log");
    }
  }
}

// A kit is not renewed from a fit that says the charge was another one.
void refuse_strange_charge(const still::StillFit& fit, const AskedFit& asked,
                           const Arguments& arguments) {
  if (asked.write_path.empty()) return;
  for (const std::size_t i : fit.strange()) {
    const still::FittedConstant& c = fit.constants[i];
    if (!still::is_of_a_run(c.constant)) continue;
    const auto run = static_cast<std::size_t>(c.run);
    throw base::InputError(
        "--charge", arguments.texts("--charge")[run],
        fmt::format("the charge of {}: by its readings the {} is {:.0f} times as far off as a "
                    "statement may be, so nothing is written to the kit (leave out --write to "
                    "see the fit)",
                    asked.run_paths[run], still::words(c.constant), std::abs(c.spreads_off())));
  }
}

std::string run(Arguments& arguments, const Look& look) {
  if (arguments.has("--why") && look.json) {
    arguments.refuse("--why", "asked for with --json", "--why with the text only");
  }
  const AskedFit asked = asked_fit(arguments);
  keep_apart(asked);
  const still::StillFit fit = fitted(asked, arguments);
  refuse_strange_charge(fit, asked, arguments);
  const recipe::StillKeys keys = keys_of(fit, asked.kit);
  const std::string section = recipe::still_section(keys);
  std::vector<std::string> names;
  for (const still::RecordedRun& logged : asked.runs) names.push_back(logged.name);
  // Everything is made before anything is written.
  const std::string renewed = asked.write_path.empty()
                                  ? std::string()
                                  : recipe::renew_still(asked.kit_text, keys, asked.kit_path);
  const std::string answer = look.json
                                 ? wire::json(fit, names, section) + "\n"
                                 : text(fit, asked, section, arguments.has("--why"), look);
  if (!asked.report_path.empty()) {
    write_file(asked.report_path,
               sheet::still_report({fit, asked.kit.name, names, section, asked.paper}));
  }
  if (!asked.write_path.empty()) write_file(asked.write_path, renewed);
  return answer;
}

}  // namespace

Command fit_still_command() {
  return {
      "fit-still",
      "constants of a still, learned from runs that were logged on it",
      fit_still_options(),
      {R"(--kit examples/tern-8/kit.toml --run examples/tern-8/calibration_run.csv --charge "28 L @ 27 %vol")",
       "138 readings of 1 run tell 10 of 11 constants; 8 lie far off."},
      "A log is a table of comma-separated text: time (minutes) and any of power_W,\n"
      "pot_temperature_C, head_temperature_C, spout_percent_vol, spout_temperature_C,\n"
      "collected_mL, coolant_in_C, coolant_out_C, coolant_flow_L_per_min, event (stopped,\n"
      "resumed), note. Readings far off are listed and hardly count. What the runs do not "
      "tell\n"
      "is said, and is not written. Two powers in one run, and the volume collected beside "
      "the\n"
      "head's temperature, tell the most.\n"
      "Caution: never leave a heated still. If the coolant fails: heat off first.\n",
      run};
}

}  // namespace lynearm::cli
