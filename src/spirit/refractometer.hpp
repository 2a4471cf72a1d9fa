// What a refractometer shows in a spirit, and the strengths it may mean.
//
// The index rises with strength to a maximum near 80 % by mass and falls again: from the index
// of pure ethanol up, one reading has two strengths, and near the maximum hardly any. Model: a
// smooth curve at 20 °C through the table of the CRC Handbook; at other temperatures the
// refraction (Lorentz and Lorenz) of the water and of the ethanol in it, and the density of
// OIML R 22. Leaves out dissolved extract, sugar and colour: a sweetened or wooded spirit
// shows too much.
#pragma once

#include <optional>

#include "spirit/density.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// The range of temperature of the refractive index.
inline constexpr units::Temperature coldest_refracted = units::Temperature::celsius(0.0);
inline constexpr units::Temperature warmest_refracted = units::Temperature::celsius(40.0);
/// Half the last digit of the CRC table: no reading is known better through it.
inline constexpr units::RefractiveIndex table_blur = units::RefractiveIndex::ratio(0.00005);

/// Refractive index of ethanol and water, sodium D line, against air.
///
/// ethanol    share by mass, 0 to 1
/// t          0 to 40 °C
/// throws     InputError ("strength", "temperature") outside the ranges
/// accuracy   at 20 °C against the 62 rows of the CRC Handbook: worst 0.000046, RMS 0.000030,
///            all within half the last printed digit
///            (tests/published/crc_refractive_index_test.cpp). From 98 to 100 % that table
///            falls by 0.0016, against 0.0006 from 96 to 98: refractions that add by mass give
///            1.3624 at 98 % where it prints 1.3630, so between 94 and 100 % the table itself
///            is in doubt by up to 0.0006. Other temperatures: water within 0.00003 of the
///            IAPWS values, ethanol -0.00040 per kelvin, both from memory; mixtures were
///            compared with nothing. Their change is in doubt by some 5 % (our estimate):
///            0.0001 at 10 K from 20 °C
/// source     CRC Handbook of Chemistry and Physics, 102nd ed., "Concentrative Properties of
///            Aqueous Solutions"; IAPWS R9-97 (water, from memory); OIML R 22 (density)
[[nodiscard]] units::RefractiveIndex refractive_index(units::MassFraction ethanol,
                                                      units::Temperature t = reference_20C);

/// Where the index is greatest.
struct RefractiveMaximum {
  units::MassFraction strength;
  units::RefractiveIndex index;
};

/// The maximum at `t`: 1.36576 at 79.9 % by mass at 20 °C; 81.9 % at 0 and 77.4 % at 40 °C.
/// The place is flat: within table_blur of the top lie 77.1 to 82.7 % at 20 °C.
///
/// t          0 to 40 °C
/// accuracy   the CRC table has 1.3658 at 80 %; about 78.5 % (41 mol % water) in Jiménez Riobóo
///            et al. 2009, Eur. Phys. J. E 30; about 75 % in Leach and Lythgoe 1905, J. Am.
///            Chem. Soc. 27:964
[[nodiscard]] RefractiveMaximum refractive_maximum(units::Temperature t = reference_20C);

/// The strengths a reading may mean. Which of the two only the maker can say: by a hydrometer,
/// by knowing the cut, or by diluting the sample with as much water and reading again
/// (strength_of_diluted()).
struct RefractedStrength {
  units::MassFraction weak;                   ///< below the maximum; the only one, or the first
  std::optional<units::MassFraction> strong;  ///< above it; empty when pure ethanol shows more
  bool flat = false;  ///< at the maximum: any strength from `weak` to `strong` shows the same
};

/// The strengths of a spirit that shows `reading` at `t`. Inverse of refractive_index() to
/// 1e-12 in the index.
///
/// reading    from that of water to the maximum at that temperature; within table_blur of
///            either end it counts as the end, and of pure ethanol's as having a strong answer
/// t          0 to 40 °C, the spirit and the prism alike; for an instrument that compensates,
///            20 °C
/// throws     InputError ("reading", "temperature")
[[nodiscard]] RefractedStrength strengths(units::RefractiveIndex reading,
                                          units::Temperature t = reference_20C);

/// Two strengths and all between them.
struct StrengthSpan {
  units::MassFraction low;
  units::MassFraction high;
};

/// The strengths around `about` whose index lies within `doubt` of its own: what a reading
/// really tells. By an instrument good to 0.0002 at 20 °C: 10 ± 0.3, 40 ± 0.5, 50 ± 0.7,
/// 60 ± 1.1, 70 ± 2.0, 90 ± 1.2 and 96 ± 0.8 % by mass, but 74 to 85 % for a spirit of 80 %:
/// use a hydrometer there.
///
/// doubt      above 0, to 0.01
/// throws     InputError ("strength", "doubt", "temperature")
[[nodiscard]] StrengthSpan strengths_within(units::MassFraction about,
                                            units::RefractiveIndex doubt,
                                            units::Temperature t = reference_20C);

/// What a sample is diluted with before it is read: as much water.
enum class Dilution {
  equal_masses,   ///< weighed
  equal_volumes,  ///< measured, both at the temperature of the reading
};

/// Strength of the spirit, from the reading of a sample of it diluted with as much water and
/// brought back to `t`. One answer always, since the mixture is below 50 % by mass; and, the
/// dilution being exact, finer than the direct reading from 43 to 89 % by mass.
///
/// reading    from water's to that of diluted pure ethanol, with table_blur at the ends
/// t          0 to 40 °C. Mixing warms the sample: let it come back
/// throws     InputError ("reading", "temperature")
/// accuracy   at 80 % by mass and a reading good to 0.0002: 1.0 % by mass; as much again for
///            2.5 % too much or too little water
[[nodiscard]] units::MassFraction strength_of_diluted(units::RefractiveIndex reading,
                                                      Dilution dilution,
                                                      units::Temperature t = reference_20C);

/// Specific refraction of ethanol and water: (n² - 1)/(n² + 2) over the density. In a mixture
/// with something else dissolved, refractions add by mass (wort/refractometer.hpp).
/// Arguments and refusals as of refractive_index().
[[nodiscard]] double specific_refraction_mL_per_g(units::MassFraction ethanol,
                                                  units::Temperature t = reference_20C);

/// The index at which (n² - 1)/(n² + 2) is `refraction`, a number from 0 to below 1.
[[nodiscard]] units::RefractiveIndex index_of_refraction(double refraction);
/// (n² - 1)/(n² + 2), its inverse.
[[nodiscard]] double refraction_of(units::RefractiveIndex index);

}  // namespace lynearm::spirit
