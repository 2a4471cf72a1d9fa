// What the wood gives and how soon: extract as a share of what a new charred 200 L cask gives
// in eight years, so that staves, small casks and big ones are held against one measure.
//
// Model: a small pool at the surface that goes in weeks, and a pool in the wood that diffuses
// out of a slab: at first with the square root of time, until the wood is spent. Equal extract
// then comes in a time that falls with the square of the surface. Leaves out oxidation, esters
// and loss through the wood, which do not hurry. EXTRACTION IS NOT AGE.
//
// Read every time and amount as +-30 to 50 %: it orders woods, it does not replace tasting.
#pragma once

#include <optional>
#include <string_view>

#include "units/quantity.hpp"
#include "wood/surface.hpp"

namespace lynearm::wood {

/// Shown wherever an extract is compared with a cask's years.
inline constexpr std::string_view extraction_caution =
    "Extraction is not age: small casks and staves give colour and tannin in months, but not "
    "what air and years do. Taste early and often; wood taken up cannot be taken out.";

/// How far a time or an amount may be off, as a share.
inline constexpr units::Share extraction_doubt = units::Share::fraction(0.4);

/// Wood as the spirit meets it.
struct Wood {
  units::AreaPerVolume surface;
  /// How deep the spirit can draw: half the thickness of a stave wetted all round, the whole
  /// thickness of a cask's stave.
  units::Length depth = units::Length::millimetres(25.0);
  double richness = 1.0;  ///< pool against new charred American oak; see species.hpp
  int fill = 1;           ///< 1 new; each refill holds 0.45, 0.25, 0.15 (our estimate)
};

/// The wood of `count` staves in `spirit`, and of a cask of that volume.
[[nodiscard]] Wood staves(const Stave& stave, double count, units::Volume spirit);
[[nodiscard]] Wood cask(units::Volume volume);
[[nodiscard]] Wood cask(const Cask& measured);

/// How it rests.
struct Rest {
  units::Temperature t = units::Temperature::celsius(18.0);
  units::VolumeStrength strength = units::VolumeStrength::percent(60.0);
};

/// Extract after `time`, as a share of a new charred 200 L cask's gain in eight years.
///
/// wood       surface 0.01 to 2000 cm²/L; depth 0.5 to 60 mm; richness 0.05 to 5; fill 1 to 10
/// time       zero or more
/// rest       0 to 40 °C, 20 to 80 %vol
/// throws     InputError outside
/// accuracy   a 200 L cask gains 0.42 and 0.55 of eight years' extract in one and two, against
///            0.40 and 0.55 of averages for whiskey barrels (Crampton and Tolman 1908, from
///            memory). Depth: one diffusivity, 1e-12 m²/s, our estimate in a recalled range of
///            1e-12 to 1e-11, the largest that lets a cask follow the root for eight years
/// source     slab diffusion (series); temperature by 25 kJ/mol (Q10 1.4, from memory); -0.6 %
///            for each %vol above 60 (our estimate)
[[nodiscard]] units::Share extract(const Wood& wood, units::Duration time,
                                   const Rest& rest = {});

/// When extract() reaches `target`; nothing when the wood is spent before, or 100 years pass.
/// Inverse of extract() to 1e-9.
[[nodiscard]] std::optional<units::Duration> time_to(units::Share target, const Wood& wood,
                                                     const Rest& rest = {});

/// What a new charred 200 L cask has given after `years`: the target for time_to() and
/// staves_for().
[[nodiscard]] units::Share extract_of_200L_cask(units::Duration years);

/// The years a new charred 200 L cask takes to give that much extract. It is said of extract
/// only: always show extraction_caution beside it.
[[nodiscard]] std::optional<units::Duration> cask_years_of(units::Share extract);

/// Extract at which staves in glass are usually called ready: our reading of "one stave to 2 to
/// 3 litres takes three to six months" (common practice, no source) with the default stave.
inline constexpr units::Share ready = units::Share::fraction(0.24);

/// How many staves (not rounded) bring `spirit` to `target` in `time`.
///
/// throws     InputError when even 2000 cm²/L would not
[[nodiscard]] double staves_for(units::Share target, units::Duration time, const Stave& stave,
                                units::Volume spirit, const Wood& like = {},
                                const Rest& rest = {});

}  // namespace lynearm::wood
