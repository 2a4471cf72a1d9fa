// What lynearm fit-still is asked: a kit, logged runs and the charge of each.
#pragma once

#include <string>
#include <vector>

#include "cli/arguments.hpp"
#include "cli/command.hpp"
#include "plan/kit.hpp"
#include "recipe/renew_still.hpp"
#include "sheet/page.hpp"
#include "still/fit_still.hpp"

namespace lynearm::cli {

struct AskedFit {
  plan::Kit kit;
  std::string kit_path, kit_text;
  std::vector<std::string> run_paths;
  std::vector<still::RecordedRun> runs;
  still::FitChoices choices;
  std::string write_path, report_path;
  sheet::Paper paper = sheet::Paper::a4;
};

[[nodiscard]] std::vector<Option> fit_still_options();

/// Reads everything, and tells every mistake of the command line together; then those of the
/// kit, and those of the runs.
[[nodiscard]] AskedFit asked_fit(Arguments& arguments);

/// The kit's keys for what the runs told. A constant that they did not tell is left out, and
/// stays as the kit has it.
[[nodiscard]] recipe::StillKeys keys_of(const still::StillFit& fit, const plan::Kit& kit);

}  // namespace lynearm::cli
