// A run of a still from the command line: charge, end, kit or usual still, and what is changed
// about it; read, checked and computed for every command that needs a run.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cli/air_pressure.hpp"
#include "cli/arguments.hpp"
#include "cli/command.hpp"
#include "plan/kit.hpp"
#include "still/exchange.hpp"
#include "still/run.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::cli {

/// --charge, --stop, --kit, --power, --head-reflux, --head-loss, --plates, --parrot,
/// --pressure,
/// --altitude and --boiling-water.
[[nodiscard]] std::vector<Option> still_run_options();

struct AskedStill {
  units::StatedLot charge;
  still::Stop stop;
  std::string kit_path, kit_text;  ///< empty: a usual still
  std::optional<units::Power> power;
  std::optional<units::Share> reflux;
  std::optional<units::HeatLoss> loss;
  std::optional<int> plates;
  std::optional<units::Volume> parrot;
  AskedAir air;
};

/// Reads them; notes faults in `arguments`. --charge and --stop must be there.
[[nodiscard]] AskedStill asked_still(Arguments& arguments);

struct StillRun {
  plan::Kit kit;
  vapour::BoilingCurve curve;
  std::optional<still::TodaysAir> today;  ///< by --boiling-water
  still::Run run;                         ///< with the congeners of a usual charge
};

/// throws     InputError with the options' names
[[nodiscard]] StillRun run_still(const AskedStill& asked, const Arguments& arguments);

/// Under what names the engine's refusals of a run are told; for as_asked().
[[nodiscard]] const std::vector<std::pair<std::string, std::string>>& still_run_names();

/// How well the congeners of a usual charge are known, as one factor; see
/// still/congeners_of_run.hpp.
inline constexpr double usual_amount_factor = 2.0;

}  // namespace lynearm::cli
