// A jar of a run as it stands on the shelf: how much, how strong, what it carries beside
// alcohol and what the maker's nose said of it. Cut planning pours such jars into hearts and
// feints.
//
// Congeners stand in three groups, by when they come over: early (acetaldehyde, ethyl acetate
// and other light ones), middle (the higher alcohols), late (furfural, acids, heavy esters). A
// load comes from a computed run, a laboratory, or estimated_loads.hpp. Leaves out methanol: it
// runs through the whole of a run, and no cut parts it off.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "spirit/lot.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

/// A mass of congeners with its 80 % band; low <= mass <= high.
struct Load {
  units::Mass mass, low, high;

  friend constexpr Load operator+(Load a, Load b) {
    // One model's error is one way in every jar, so bands add as they are and do not average
    // out.
    return {a.mass + b.mass, a.low + b.low, a.high + b.high};
  }
  friend constexpr Load operator*(Load a, double share) {
    return {a.mass * share, a.low * share, a.high * share};
  }
};

/// What the maker says of a jar.
enum class Use {
  open,       ///< hearts or feints, as the proposal finds
  foreshots,  ///< set aside and discarded
  feints,     ///< never in the hearts; into the next charge
  apart,      ///< never in the hearts nor in the next charge
};

struct Jar {
  std::string label;               ///< a number or a name, each once
  units::Volume volume;            ///< at 20 °C, above zero
  units::VolumeStrength strength;  ///< true, above 0 to 97 %vol
  std::optional<Load> early{}, middle{}, late{};
  Use use = Use::open;
  double fault = 0.0;  ///< nose and palate: 0 nothing found, to 10 spoiled
};

/// Strongest a jar may be: pot or column, no still passes the azeotrope (97.2 %vol at normal
/// pressure), and a glass read above is a glass misread.
inline constexpr units::VolumeStrength strongest_jar = units::VolumeStrength::percent(97.0);
inline constexpr std::size_t most_jars = 200;

[[nodiscard]] inline spirit::Lot lot_of(const Jar& jar) {
  return spirit::lot(jar.volume, jar.strength);
}

/// Refuses jars that cannot be.
///
/// throws     InputError with every fault: "jars" when there are none, or more than 200;
///            "jars[2].label", ".volume", ".strength", ".early", ".middle", ".late", ".fault",
///            counted from 0; a group of congeners must be stated for every jar or for none
void check(const std::vector<Jar>& jars);

/// throws     InputError "jars[2].early" and the like for a load that is not stated
void require_loads(const std::vector<Jar>& jars);

/// The jars' places in the order they ran: that of their numbers where every label is a whole
/// number, otherwise the list's own.
[[nodiscard]] std::vector<std::size_t> running_order(const std::vector<Jar>& jars);

}  // namespace lynearm::still
