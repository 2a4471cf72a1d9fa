// An amount of pure alcohol as it was measured: a value and how far it may be off. How well a
// house reads a volume and a wash stands here; how well a strength, in glass.hpp.
#pragma once

#include "journal/glass.hpp"
#include "spirit/lot.hpp"
#include "units/quantity.hpp"

namespace lynearm::journal {

/// How well a house reads a volume at a jar's or a bucket's mark, as one standard deviation.
/// Our estimate. How well it reads a strength: glass.hpp.
inline constexpr double volume_share_sd = 0.01;
/// Of the alcohol a wash holds by its two gravities: 0.001 of each; and, as a share of it, the
/// yield of the yeast. Our estimates.
inline constexpr units::VolumeStrength wash_strength_sd = units::VolumeStrength::percent(0.2);
inline constexpr double wash_yield_sd = 0.03;

/// Pure alcohol at 20 °C and its standard uncertainty.
struct PureVolume {
  units::Volume value, sd;
};
/// Errors taken as independent of each other.
[[nodiscard]] PureVolume operator+(PureVolume a, PureVolume b);
[[nodiscard]] PureVolume operator-(PureVolume a, PureVolume b);

/// Of a lot whose volume was read at a mark and its strength on that glass.
[[nodiscard]] PureVolume pure_in(const spirit::Lot& lot, const Glass& glass);
/// Of so much wash at 20 °C, its strength by its two gravities.
[[nodiscard]] PureVolume pure_in_wash(units::Volume volume, units::VolumeStrength strength);

/// Whether a difference of pure alcohol is worth a word at all, however surely it was measured:
/// more than 0.05 L and than 2 % of what went in. Our choice.
[[nodiscard]] bool worth_asking(units::Volume difference, units::Volume of);
/// How many standard deviations part what was read badly from what cannot be. Our choice: at
/// three, one honest batch in 800 is asked about something; at four, none of 20,000
/// (tests/journal/questions_random_test.cpp).
inline constexpr double impossible_deviations = 4.0;

}  // namespace lynearm::journal
