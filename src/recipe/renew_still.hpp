// The constants of the still written into the text of a kit: [boiler] loss and heat_efficiency,
// [head] loss, [condenser] holds and parrot. All else stays byte for byte: comments, order,
// spacing, line ends.
//
// Model: the text is edited by lines, since a TOML writer would lose its owner's hand, and the
// result is read again as a kit: where it does not say what was meant (tables written in line,
// dotted keys), it is refused. A head's fixed shares give way to its loss.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "units/parse.hpp"
#include "units/quantity.hpp"

namespace lynearm::recipe {

/// What to write; what is not given stays as the kit has it.
struct StillKeys {
  std::optional<units::HeatLoss> pot_loss;
  std::optional<units::Share> heat_efficiency;              ///< above 100 % is written as 100 %
  std::optional<units::Spread<units::HeatLoss>> head_loss;  ///< with its 80 % half width
  std::optional<units::Volume> coil;
  std::optional<units::Volume> parrot;

  [[nodiscard]] bool empty() const {
    return !pot_loss && !heat_efficiency && !head_loss && !coil && !parrot;
  }
};

/// The keys as they would stand in a kit, with their tables.
[[nodiscard]] std::string still_section(const StillKeys& keys);

/// The kit with the keys renewed.
///
/// text       a kit that can be read
/// file       named in faults
/// throws     InputError "boiler", "head" or "condenser" when the text is laid out so that its
///            lines cannot be edited; what read_kit() throws
[[nodiscard]] std::string renew_still(std::string_view text, const StillKeys& keys,
                                      const std::string& file);

}  // namespace lynearm::recipe
