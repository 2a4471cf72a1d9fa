// Woods and how they were heated: what each holds against new charred American oak. Orders,
// not analyses; the pools of one forest differ by half.
#pragma once

#include <string_view>
#include <vector>

#include "base/figure.hpp"
#include "units/quantity.hpp"

namespace lynearm::wood {

using base::Figure;

/// A wood. Pools against American oak (Quercus alba), a share: 1 is as much.
struct Species {
  std::string_view id;
  std::string_view name;
  Figure<units::Share> lactone;  ///< coconut, fresh wood
  Figure<units::Share> tannin;
  Figure<units::Share> vanillin;
  std::string_view character;
};

/// A way of heating. Pools against the wood's most.
struct Toast {
  std::string_view id;
  std::string_view name;
  Figure<units::Temperature> surface;  ///< temperature of the wood's face
  Figure<units::Duration> time;
  Figure<units::Share> vanillin;
  Figure<units::Share> lactone;
  Figure<units::Share> tannin;
  Figure<units::Share> colour;
};

/// The tables of data/woods.toml and data/toasts.toml.
[[nodiscard]] const std::vector<Species>& species();
[[nodiscard]] const std::vector<Toast>& toasts();
/// Throws InputError ("wood", "toast") with the nearest id.
[[nodiscard]] const Species& species(std::string_view id);
[[nodiscard]] const Toast& toast(std::string_view id);

/// What a wood gives after its heating; new charred American oak is 1 in each.
struct Gift {
  double vanillin = 1.0;
  double lactone = 1.0;
  double tannin = 1.0;
  double colour = 1.0;
};

/// The product of both tables over that of charred American oak.
[[nodiscard]] Gift gift(const Species& wood, const Toast& toast);

}  // namespace lynearm::wood
