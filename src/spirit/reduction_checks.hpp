// What every reduction refuses, said once: amounts below zero or not finite. And limits told to
// a few decimals, rounded to the side on which they can be had.
#pragma once

#include <string_view>

#include "spirit/lot.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// throws     InputError (`field`) unless zero or more and finite
void check_amount(units::Mass mass, std::string_view field);
/// throws     InputError (`field`) unless both masses are zero or more and finite
void check_amount(const Lot& lot, std::string_view field);
/// throws     InputError (`field`) unless above zero and finite
void check_wanted(units::Volume volume, std::string_view field);
/// throws     InputError (`field`) unless above 0 and at most 100 %vol
void check_wanted(units::VolumeStrength strength, std::string_view field);

/// `limit` cut to `decimals`, so that "at most" what is printed is possible. A limit that is
/// round but for the last bits stays it.
[[nodiscard]] double rounded_down(double limit, int decimals);
[[nodiscard]] double rounded_up(double limit, int decimals);

}  // namespace lynearm::spirit
