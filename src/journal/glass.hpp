// How surely a house reads the strength of a spirit: by the alcoholmeter and the thermometer of
// its kit. A reading in the journal names no instrument, so it is taken as made on those of the
// kit that the batch was planned with. Where no kit is known, one figure stands for both.
#pragma once

#include <string>

#include "plan/kit.hpp"
#include "units/quantity.hpp"

namespace lynearm::journal {

/// An alcoholmeter and the thermometer beside it, each as one standard deviation.
struct Glass {
  /// Where no instrument is known: a figure after its temperature is allowed for, our estimate.
  units::VolumeStrength strength_sd = units::VolumeStrength::percent(0.3);
  units::TemperatureChange temperature_sd{};  ///< zero: counted in the figure above
  std::string name{};  ///< "the kit's alcoholmeter, ..."; empty: none known

  [[nodiscard]] bool known() const { return !name.empty(); }
};

/// That of a kit. One of a class of OIML R 44 may be off by its greatest error and by half a
/// division, each uniform (spirit/gauging.hpp, which the gauge answers by); of an uncertified
/// one the kit says within how much it reads four times in five. So it does of the thermometer.
[[nodiscard]] Glass glass_of(const plan::Instruments& kit);

/// One standard deviation of a strength read on it near `strength` at 20 °C: the glass, and the
/// thermometer by how fast the true strength moves with it under one figure of the glass.
///
/// strength   below 1 and above 95 %vol: as there
/// accuracy   classes I to III against spirit::gauge(), which counts the density formula too:
///            within 5 % (tests/journal/glass_test.cpp)
[[nodiscard]] units::VolumeStrength reading_sd(const Glass& glass,
                                               units::VolumeStrength strength);

/// "the kit's alcoholmeter, class II ..., to 0.08 %vol and its thermometer to 0.39 °C, one
/// standard deviation each"; without a kit the fixed figure, and that it is our estimate.
[[nodiscard]] std::string words(const Glass& glass);

}  // namespace lynearm::journal
