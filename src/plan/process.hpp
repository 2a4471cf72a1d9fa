// The constants a batch is predicted with until the house knows its own: data/process.toml,
// checked and compiled in. A kit file overrides each under [constants] and [head].
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/figure.hpp"
#include "plan/kit.hpp"
#include "units/parse.hpp"
#include "units/quantity.hpp"

namespace lynearm::plan {

/// A row of the data file; the range is the 80 % band.
struct ProcessConstant {
  std::string_view id;
  std::string_view name;
  base::Figure<units::Share> value;
};

[[nodiscard]] const std::vector<ProcessConstant>& process_constants();

struct ProcessDefaults {
  Constants constants;
  units::Spread<units::Share> head_reflux_strip;
  units::Spread<units::Share> head_reflux_spirit;
};

/// The rows as the kit takes them; each half width is half the row's range.
[[nodiscard]] const ProcessDefaults& process_defaults();

}  // namespace lynearm::plan
