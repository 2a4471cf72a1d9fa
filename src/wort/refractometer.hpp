// What a Brix refractometer shows in a wort, and in a wash whose alcohol it sees too.
//
// In unfermented wort the reading is extract, but for the wort's sugars and proteins not being
// sucrose (the wort factor). In a wash alcohol counts as well, each per cent by mass for 0.39
// to 0.45 Bx; the reading alone cannot tell the two apart, so either the original extract or a
// hydrometer must be known. Model: the refractions of spirit and extract (Lorentz and Lorenz)
// add by mass, over the volume of wort/wash.hpp; Balling's balance ties alcohol to extract.
// Leaves out yeast and grain, which blur the line: strain, and let the drop come to rest.
#pragma once

#include "units/quantity.hpp"
#include "wort/scales.hpp"
#include "wort/wash.hpp"

namespace lynearm::wort {

/// Reading over true extract in a wort of malt or grain: common practice, no source; 1.02 to
/// 1.06 are met. Measure your own: wort_factor().
inline constexpr double grain_wort_factor = 1.04;
/// In a wash of cane or beet sugar: one, by the definition of Brix.
inline constexpr double sugar_wash_factor = 1.0;

/// A refractometer graduated in Brix at 20 °C.
struct BrixRefractometer {
  bool compensated = true;  ///< reads as if at 20 °C, whatever the temperature (ideally so)
  double wort_factor = grain_wort_factor;  ///< 0.9 to 1.2
};

/// The factor of a wort, from both instruments in the same unfermented sample: shown over
/// extract, each brought to 20 °C. Good to 0.02 at 12 °P where each is good to 0.15.
///
/// shown      above 0, to 40
/// extract    above 0, to 40 °P, by hydrometer
/// throws     InputError ("reading", "extract"), or ("wort_factor") when the result is not 0.9
///            to 1.2: one of the two is misread
[[nodiscard]] double wort_factor(Brix shown, units::Plato extract);

/// Refractive index of a wash.
///
/// t          0 to 40 °C
/// throws     InputError ("temperature"), or when the extract is over 40 % of extract and water
/// accuracy   exact limits: spirit::refractive_index() without extract, refractive_index() of
///            sucrose without ethanol at 20 °C (within 0.00001 elsewhere). Between them
///            compared with no measurement; adding up the two rises of the index instead gives
///            0.00 to 0.05 Bx less from OG 1.040 to 1.090
[[nodiscard]] units::RefractiveIndex refractive_index(
    const Wash& wash, units::Temperature t = spirit::reference_20C);

/// What the refractometer shows in a wash at `t`; of an uncompensated one in warm water below
/// zero, the scale carried straight on.
///
/// throws     InputError as above, or ("wort_factor")
[[nodiscard]] Brix shown(const Wash& wash, units::Temperature t = spirit::reference_20C,
                         const BrixRefractometer& instrument = {});

/// Extract of an unfermented wort.
///
/// reading    0 to 40
/// t          0 to 40 °C, of wort and prism; nothing to a compensated one
/// throws     InputError ("reading", "temperature", "wort_factor")
/// accuracy   the factor's: 0.02 of it is 0.2 °P at 12 °P. Uncompensated: see
///            refractive_index() in wort/scales.hpp
[[nodiscard]] units::Plato extract(Brix reading, units::Temperature t = spirit::reference_20C,
                                   const BrixRefractometer& instrument = {});

/// A wash as found by two readings.
struct RefractedWash {
  units::Plato original;         ///< extract of the wort before
  units::Plato real_extract;     ///< extract truly left
  units::Share alcohol_by_mass;  ///< g ethanol in 100 g
  units::VolumeStrength alcohol;
  units::SpecificGravity gravity;  ///< what a hydrometer shows at 20 °C
};

/// The wash that was a wort of `original` extract and now shows `reading`.
///
/// original   above 0, to 40 °P
/// reading    from that of the wort fermented to no extract at all to that of the unfermented
///            wort; a reading outside makes the wort factor or the original extract suspect,
///            and the message tells the limits
/// t          0 to 40 °C
/// throws     InputError ("original_extract", "reading", "temperature", "wort_factor")
/// accuracy   SG ± 0.003 and 0.5 %vol in all (our estimate): 0.2 Bx of reading makes 0.0013 of
///            SG and 0.2 %vol, 0.3 °P of original extract 0.0008 and 0.3, a yield of 0.47 for
///            Balling's 0.484 g alcohol a gram 0.0008 and 0.2, a wort factor 0.02 off 0.0004
///            and 0.1, the digits of the CRC table 0.0003. Against the cubic of Bonham 2001,
///            Zymurgy (from memory; in original and final Brix, wort factor taken out) over OG
///            1.040 to 1.090 and FG 0.990 to 1.020: that reads 0.0005 to 0.0027 lower
///            (tests/wort/refractometer_test.cpp)
[[nodiscard]] RefractedWash wash_of_original(units::Plato original, Brix reading,
                                             units::Temperature t = spirit::reference_20C,
                                             const BrixRefractometer& instrument = {});

/// The wash that shows `gravity` on a hydrometer (true_gravity() of its reading) and `reading`
/// on the refractometer, its original extract not known: found with it, by Balling's formula.
///
/// gravity    0.975 to 1.150
/// reading    from that of a wort of this gravity without alcohol to that of the wash with 20 %
///            by mass of it; the message tells the limits
/// t          0 to 40 °C, of the refractometer's sample
/// throws     InputError ("gravity", "reading", "temperature", "wort_factor"), or when the
///            original extract would be above 40 °P
/// accuracy   less sure than wash_of_original(): 0.2 Bx makes 0.3 %vol and 0.5 °P of original
///            extract, 0.001 of SG 0.4 and 0.4; the wort factor 0.02 at 3 °P left makes 0.1
///            %vol
[[nodiscard]] RefractedWash wash_of_gravity(units::SpecificGravity gravity, Brix reading,
                                            units::Temperature t = spirit::reference_20C,
                                            const BrixRefractometer& instrument = {});

}  // namespace lynearm::wort
