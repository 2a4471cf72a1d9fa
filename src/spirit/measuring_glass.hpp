// A blend tried in the measuring glass, made large: 30 mL of this, 20 of that and 5 of water,
// scaled to a wanted volume. Parts keep their masses' proportions, so the large blend is the
// one in the glass to the last drop, whatever it shrinks by.
#pragma once

#include <vector>

#include "spirit/density.hpp"
#include "spirit/reduction.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// One part as poured.
struct GlassPart {
  units::Volume volume;            ///< zero or more, at the glass's temperature
  units::VolumeStrength strength;  ///< 0 for water
};

struct ScaledBlend {
  double factor = 0.0;     ///< from the glass to the vessel
  std::vector<Lot> parts;  ///< what to take of each, in the order given
  Blend blend;
  Blend glass;  ///< what stood in the glass
};

/// The blend in the glass, made to `wanted`.
///
/// parts      at least one, not all empty
/// wanted     above zero, of the blend at `wanted_t`: the parts make a little more
/// glass_t    of the parts when poured, -20 to 40 °C
/// throws     InputError ("part", "wanted", "temperature") otherwise
/// accuracy   proportions kept and `wanted` met to rounding; a measuring glass itself is read
///            to half a division at best, which counts for more in the small parts
[[nodiscard]] ScaledBlend scale_glass(const std::vector<GlassPart>& parts, units::Volume wanted,
                                      units::Temperature glass_t = reference_20C,
                                      units::Temperature wanted_t = reference_20C);

/// The most that the lots at hand make in the proportions of the glass.
///
/// at_hand    one for each part, in the same order; zero or more
/// returns    volume at `wanted_t`; the lot that runs out first sets it
/// throws     InputError ("part") as above, or when the two lists differ in length
[[nodiscard]] units::Volume most_of_glass(const std::vector<GlassPart>& parts,
                                          const std::vector<units::Mass>& at_hand,
                                          units::Temperature glass_t = reference_20C,
                                          units::Temperature wanted_t = reference_20C);

}  // namespace lynearm::spirit
