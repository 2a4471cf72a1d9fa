// Refusing input outside its range, in one line at the head of a function.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::mash {

/// Throws InputError(field) unless low <= value <= high; `unit` is only for the words.
void within(const char* field, double value, double low, double high, const char* unit);

/// A temperature of liquid water, 0 to 100 °C.
void within_liquid(const char* field, units::Temperature t);

}  // namespace lynearm::mash
