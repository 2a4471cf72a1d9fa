// How much wood a litre of spirit meets: casks by volume or by measure, and staves in glass.
// The measure all are held against is the 200 L cask, 96 cm² a litre. Leaves out bung, chime
// and the char's roughness.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::wood {

/// Inner wood of a well-shaped cask for each litre it holds.
///
/// cask       1 to 700 L
/// accuracy   +-10 % over usual bilge shapes; 88 cm²/L against 93 for a measured 220 L cask
/// source     geometry: 96 cm²/L times (200 L/volume)^(1/3), our estimate of the constant
[[nodiscard]] units::AreaPerVolume cask_surface(units::Volume cask);

/// A cask by its inner measures. Staves bend as a parabola.
struct Cask {
  units::Length length;  ///< between the heads
  units::Length bilge;   ///< widest diameter
  units::Length head;    ///< diameter at the heads, at most the bilge
  units::Length stave = units::Length::millimetres(25.0);  ///< thickness
};

/// Exact for the parabola: pi L (8 D² + 4 D d + 3 d²)/60. Throws InputError for a measure that
/// is not positive or a head wider than the bilge.
[[nodiscard]] units::Volume volume(const Cask& cask);
/// Side and two heads; the side by Simpson's rule in 64 parts (error below 1e-9).
[[nodiscard]] units::Area inner_area(const Cask& cask);
[[nodiscard]] units::AreaPerVolume surface(const Cask& cask);

/// Staves laid into spirit. The default is a stave of our own, 300 x 25 x 10 mm.
struct Stave {
  units::Length length = units::Length::millimetres(300.0);
  units::Length width = units::Length::millimetres(25.0);
  units::Length thickness = units::Length::millimetres(10.0);
};

/// All six faces of one stave.
[[nodiscard]] units::Area area(const Stave& stave);
/// The two ends alone: end grain, which gives and drinks some ten times faster for its area
/// (from memory, unsure) and is soon spent. extraction.hpp counts it as any other face.
[[nodiscard]] units::Area end_grain(const Stave& stave);
[[nodiscard]] units::Volume wood_volume(const Stave& stave);

/// count      staves, zero or more; may be a part of one
[[nodiscard]] units::AreaPerVolume surface(const Stave& stave, double count,
                                           units::Volume spirit);

/// This surface over that of the 200 L cask.
[[nodiscard]] double times_a_200L_cask(units::AreaPerVolume surface);

}  // namespace lynearm::wood
