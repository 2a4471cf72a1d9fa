#include "plan/process.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"

namespace lynearm::plan {
namespace {

using base::Figure;

units::Spread<units::Share> spread_of(std::string_view id) {
  const std::vector<ProcessConstant>& all = process_constants();
  const auto row = std::find_if(all.begin(), all.end(),
                                [id](const ProcessConstant& c) { return c.id == id; });
  base::ensure(row != all.end(), fmt::format("data/process.toml has \"{}\"", id));
  return {row->value.value, (row->value.high - row->value.low) / 2.0};
}

}  // namespace

const std::vector<ProcessConstant>& process_constants() {
  static const std::vector<ProcessConstant> table = {
#include "plan/process.inc"
  };
  return table;
}

const ProcessDefaults& process_defaults() {
  static const ProcessDefaults defaults = {
      {.conversion = spread_of("conversion"),
       .drained_moisture = spread_of("drained-moisture"),
       .squeezed_moisture = spread_of("squeezed-moisture"),
       .sparge_mixing = spread_of("sparge-mixing"),
       .fermentable_factor = spread_of("fermentable-factor"),
       .alcohol_yield = spread_of("alcohol-yield"),
       .ferment_vigour = spread_of("ferment-vigour"),
       .lees = spread_of("lees"),
       .still_loss = spread_of("still-loss"),
       .transfer_loss = spread_of("transfer-loss"),
       .heat_loss_factor = spread_of("heat-loss-factor"),
       .evaporation_factor = spread_of("evaporation-factor")},
      spread_of("head-reflux-strip"),
      spread_of("head-reflux-spirit")};
  return defaults;
}

}  // namespace lynearm::plan
