// Where a spirit begins to freeze: the temperature at which the first ice appears, and how far
// from it a spirit is. Below the curve the liquid left is stronger than the whole, so no
// instrument tells the strength of the whole.
//
// Model: a monotone curve through the freezing point depressions of the CRC Handbook. Leaves
// out supercooling (spirit often stays clear some kelvins below) and dissolved extract.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::spirit {

/// The strongest mixture of the table. A stronger one freezes below the -49.5 °C of this one
/// (pure ethanol at -114 °C, from memory), far below the range of any gauging.
inline constexpr units::MassFraction strongest_frozen = units::MassFraction::percent(68.0);

/// Temperature at which ice begins to form.
///
/// ethanol    share by mass, 0 to 68 %
/// throws     InputError ("strength") outside the range
/// accuracy   the nine rows of the table, printed to 0.01 K, exactly; between them, where
///            they stand 10 % apart, to some 0.3 K (our estimate). A trade table recalled to
///            whole degrees agrees within 1 K, 10 to 50 %vol (tests/spirit/freezing_test.cpp)
/// source     CRC Handbook of Chemistry and Physics, 102nd ed., "Concentrative Properties of
///            Aqueous Solutions"
[[nodiscard]] units::Temperature freezing_point(units::MassFraction ethanol);

/// Whether ice may be in the spirit at `t`: below its freezing point. Never above
/// strongest_frozen for `t` from -49.5 °C up.
///
/// ethanol    share by mass, 0 to 1
/// t          -49.5 °C or warmer
/// throws     InputError ("strength", "temperature")
[[nodiscard]] bool may_be_frozen(units::MassFraction ethanol, units::Temperature t);

/// The weakest spirit that stays liquid at `t`: inverse of freezing_point() to 1e-9 K. From 0
/// °C up, water.
///
/// t          -49.5 °C or warmer. At -20 °C: 29.5 % by mass, 36 %vol
/// throws     InputError ("temperature")
[[nodiscard]] units::MassFraction weakest_liquid(units::Temperature t);

}  // namespace lynearm::spirit
