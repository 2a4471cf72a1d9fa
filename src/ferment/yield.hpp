// What a wort turns into: ethanol, gas and by-products, with nothing lost on the way.
//
// Model: the exact stoichiometry C6H12O6 -> 2 C2H5OH + 2 CO2, of which a share is reached; the
// rest of the hexose becomes glycerol, yeast and acids. Sugars larger than hexose take up water
// as they split. Leaves out the alcohol and water that the gas carries off (0.5 to 1 % of the
// alcohol, from memory), what bacteria turn to acid, and the salts.
#pragma once

#include "units/quantity.hpp"
#include "wort/gravity.hpp"
#include "wort/wash.hpp"

namespace lynearm::ferment {

// Molar masses, g/mol: IUPAC standard atomic weights.
inline constexpr double hexose_g_per_mol = 180.15588;
inline constexpr double water_g_per_mol = 18.01528;
inline constexpr double ethanol_g_per_mol = 46.06844;
inline constexpr double carbon_dioxide_g_per_mol = 44.0095;

/// g per g hexose, exact: 0.5114 and 0.4886, together 1.
inline constexpr double ethanol_per_hexose = 2.0 * ethanol_g_per_mol / hexose_g_per_mol;
inline constexpr double carbon_dioxide_per_hexose = 1.0 - ethanol_per_hexose;

/// g hexose from a g of the anhydrous larger sugar, exact: 1.0526 for sucrose and maltose,
/// 1.0714 for maltotriose, 1.1111 for starch.
inline constexpr double hexose_per_disaccharide =
    2.0 * hexose_g_per_mol / (2.0 * hexose_g_per_mol - water_g_per_mol);
inline constexpr double hexose_per_trisaccharide =
    3.0 * hexose_g_per_mol / (3.0 * hexose_g_per_mol - 2.0 * water_g_per_mol);
inline constexpr double hexose_per_starch =
    hexose_g_per_mol / (hexose_g_per_mol - water_g_per_mol);

/// Ethanol reached in practice as a share of theory, our choice between figures that part:
/// 0.888 by the predicted spirit yield of Bringhurst et al. 1996 (from its abstract), 0.899 by
/// Balling's factors with extract counted as maltose, 0.864 by a winemaker's norm of 17.86 g
/// hexose for 1 %vol in a litre, 0.90 to 0.95 in textbooks (from memory). A plan
/// draws it from 0.88 to 0.93, four times in five (data/process.toml).
inline constexpr units::Share usual_yield = units::Share::fraction(0.90);

/// What kind of sugar the extract is.
struct Sugars {
  units::Share fermentable = units::Share::fraction(0.85);  ///< of the extract
  double hexose_per_gram = hexose_per_disaccharide;         ///< of the fermentable part
};

/// Two extracts together: the sugars of the sum of their masses.
[[nodiscard]] Sugars mixed(units::Mass extract_a, const Sugars& a, units::Mass extract_b,
                           const Sugars& b);

/// Hexose the yeast can reach in `wort`.
[[nodiscard]] units::Mass hexose(const wort::Wort& wort, const Sugars& sugars);

/// A wort after fermenting. wort.mass() = wash.mass() + carbon_dioxide + yeast, to rounding.
struct Fermented {
  wort::Wash wash;             ///< extract holds sugar left, dextrins, glycerol and acids
  units::Mass carbon_dioxide;  ///< gone
  units::Mass yeast;           ///< grown, dry mass, in the lees; the pitch not counted
  units::Mass glycerol;        ///< in wash.extract
  units::Mass acids;           ///< in wash.extract
  units::Mass sugar_left;      ///< fermentable extract left, in wash.extract
  units::Mass hexose_fermented;
  units::Mass water_taken_up;  ///< by splitting the larger sugars
};

/// Ferments a wort.
///
/// sugars     fermentable 0 to 1; hexose_per_gram 1 to 1.1112
/// yield      ethanol as a share of theory, 0.5 to 1
/// done       share of the fermentable sugar fermented, 0 to 1; 1 is dry
/// throws     InputError outside the ranges, or when there is no water to split the sugars
/// accuracy   mass closes to rounding. The by-products are (1 - yield) of the hexose, split as
///            glycerol 0.50, yeast 0.38, acids 0.12, so that 0.90 gives 5, 3.8 and 1.2 % of the
///            sugar (glycerol 3-5, yeast 2-4, acids 1: from memory)
/// source     stoichiometry, mass balance
[[nodiscard]] Fermented ferment(const wort::Wort& wort, const Sugars& sugars,
                                units::Share yield = usual_yield,
                                units::Share done = units::Share::fraction(1.0));

}  // namespace lynearm::ferment
