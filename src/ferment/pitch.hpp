// What to pitch: dry yeast by volume, and whether the wort feeds it. Yeast grows on nitrogen it
// can assimilate; malt brings plenty, maize some, sugar none. Leaves out vitamins, zinc and
// oxygen, which a bare sugar wash lacks as well.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::ferment {

/// Dry yeast for a wash: 0.3 to 1 g/L, common practice, no source. 1 g holds 1 to 2e10 cells.
inline constexpr units::MassConcentration usual_pitch =
    units::MassConcentration::grams_per_litre(0.5);

/// Mass of dry yeast. dose: 0.05 to 5 g/L. Throws InputError outside.
[[nodiscard]] units::Mass dry_yeast(units::Volume wash,
                                    units::MassConcentration dose = usual_pitch);

/// Assimilable nitrogen (mg) that comes with a gram of extract, by where the extract is from.
/// Malt: 150 to 220 mg/L in a 12 °P wort; maize and other unmalted grain 50 to 90; refined
/// sugar none; from memory, the middle of each range over the 125.7 g/L extract of 12 °P.
struct NitrogenPerExtract {
  double malt_mg_per_g = 185.0 / 125.7;
  double raw_grain_mg_per_g = 70.0 / 125.7;
  double sugar_mg_per_g = 0.0;
};

/// Extract in the wort by where it is from.
struct ExtractOrigin {
  units::Mass malt;
  units::Mass raw_grain;
  units::Mass sugar;
};

/// Nitrogen in di-ammonium phosphate, 21.2 % (exact from its formula: 2 N in (NH4)2HPO4).
inline constexpr units::Share nitrogen_in_diammonium_phosphate =
    units::Share::fraction(2.0 * 14.0067 / 132.0562);

/// Need and supply.
struct Nutrition {
  units::MassConcentration need;
  units::MassConcentration supply;
  units::MassConcentration shortfall;  ///< zero or more
  units::Mass nitrogen;                ///< supplied, in the whole wash
  units::Mass diammonium_phosphate;    ///< that makes up the shortfall; zero when none
};

/// Nitrogen for a wash.
///
/// wash       above zero
/// hexose     fermentable sugar in it, as hexose
/// returns    need 1 mg for each gram of hexose: the winemaker's 200 to 250 mg/L at 200 to
///            250 g/L (from memory), scaled down with the sugar. Below about 0.7 mg/g risk of a
///            sluggish or stuck fermentation
/// throws     InputError for a negative mass or an empty wash
[[nodiscard]] Nutrition nutrition(units::Volume wash, units::Mass hexose,
                                  const ExtractOrigin& origin,
                                  const NitrogenPerExtract& content = {});

}  // namespace lynearm::ferment
