// Density of water where it is hot: the formula of spirits ends at 40 °C (density.hpp).
// Model: Kell's rational formula at one atmosphere. Between 0 and 40 °C it lies within
// 0.02 kg/m³ of OIML R 22, so only ratios of it are joined to that one.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::spirit {

/// Density of pure water.
///
/// t          0 to 150 °C; above its boil as if kept from boiling
/// throws     InputError ("temperature") outside the range
/// accuracy   the recommended densities of the same paper, from memory, to 0.01 kg/m³ at 4 to
///            100 °C
/// source     Kell, J. Chem. Eng. Data 20 (1975) 97, coefficients from memory
[[nodiscard]] units::Density hot_water_density(units::Temperature t);

}  // namespace lynearm::spirit
