// Carbon dioxide of a ferment in the room of its kit: in all, at its peak, what the closed air
// comes to and what fresh air holds it. Of a wort as planned and, by the same arithmetic, of
// one as it was pitched.
#pragma once

#include <optional>
#include <string>

#include "ferment/pace.hpp"
#include "plan/kit.hpp"
#include "units/quantity.hpp"

namespace lynearm::plan {

/// While it ferments quickest.
struct GasPeak {
  units::VolumeFlow rate;            ///< at 20 °C and the house's pressure
  units::Duration at;                ///< from the pitch
  units::VolumeFlow fresh_air;       ///< to keep the limit for a working day
  std::optional<units::Share> room;  ///< carbon dioxide in the closed air, when it settles
};

struct RoomGas {
  units::Mass mass;             ///< in all
  units::Volume volume;         ///< likewise, at 20 °C and the house's pressure
  std::optional<GasPeak> peak;  ///< absent where no pace can be reckoned
};

/// Gas of a ferment whose pace is known.
///
/// mass       in all, as ferment::ferment() gives it
/// accuracy   the mass exact but for the yield; a rate as uncertain as the pace, +-40 %
[[nodiscard]] RoomGas room_gas(units::Mass mass, const ferment::Pace& pace, const Place& place);
/// The same where only the mass is known.
[[nodiscard]] RoomGas room_gas(units::Mass mass, const Place& place);

/// What the gas of a wort that was pitched comes to by now.
enum class GasStanding {
  gives,   ///< in its fermenter
  racked,  ///< off its lees, and nothing read tells that it had come to stand
  stands,  ///< off its lees, and by its readings it has come to stand
};

struct GasPitched {
  RoomGas gas;                        ///< of wort as pitched and what was fed
  units::Mass fed;                    ///< put in since the pitch and taken for sugar; in `gas`
  std::string no_pace;                ///< why there is no peak; empty where there is one
  std::optional<units::Volume> room;  ///< air in the room with the fermenter, by the kit
  GasStanding standing = GasStanding::gives;
};

}  // namespace lynearm::plan
