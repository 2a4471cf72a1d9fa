// What the commands that run a still ask for alike: head, charge, the end of a run, and a
// still when no kit is given.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cli/arguments.hpp"
#include "plan/kit.hpp"
#include "still/cuts.hpp"
#include "still/run.hpp"
#include "units/quantity.hpp"

namespace lynearm::cli {

/// Of --head-reflux: "5 %", or a bare fraction "0.05"; nothing when it is not given.
[[nodiscard]] std::optional<units::Share> head_reflux(Arguments& arguments);

/// A lot to put into a pot: the volumes the commands take, 0.1 %vol or more.
/// noun       "a wash"
void check_lot(Arguments& arguments, const std::string& option, const units::StatedLot& lot,
               const std::string& noun);

/// A strength at the spout, a temperature at the head, or a volume collected.
[[nodiscard]] std::optional<still::Border> border(Arguments& arguments,
                                                  const std::string& option);

/// Where a run ends, by such a border. A strength of 0.1 %vol or more.
[[nodiscard]] still::Stop stop_at(Arguments& arguments, const std::string& option,
                                  const std::optional<still::Border>& border);

/// A bare pot still in which `charge` stands at its usual fill: copper, head loss estimated,
/// power 60 W a litre of boiler (a gentle run; common practice, no source), boiler's loss as
/// mash::bare_heat_loss().
[[nodiscard]] plan::Kit usual_still(units::Volume charge);

/// `work()`, its refusals told under the options' names and with the texts that were typed.
/// What was not typed is told as what stood in its place: "power without --power".
template <class Work>
auto as_asked(const Arguments& arguments,
              const std::vector<std::pair<std::string, std::string>>& names, const Work& work) {
  try {
    return work();
  } catch (const base::InputError& error) {
    std::vector<base::Fault> faults = error.faults();
    for (base::Fault& fault : faults) {
      for (const auto& [field, option] : names) {
        if (!fault.field.starts_with(field)) continue;
        if (arguments.has(option)) {
          fault.field = option;
          fault.value = arguments.texts(option).front();
        } else {
          fault.field = std::string("what stands for ") + option + ", which is not given,";
        }
        break;
      }
    }
    throw base::InputError(std::move(faults));
  }
}

}  // namespace lynearm::cli
