// Lots, strengths and concentrations of a test, by the figures it names.
#pragma once

#include "spirit/lot.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

inline units::VolumeStrength percent(double v) { return units::VolumeStrength::percent(v); }
inline units::MassConcentration grams(double v) {
  return units::MassConcentration::grams_per_litre(v);
}
/// At 20 °C.
inline Lot litres(double v, double percent_vol) {
  return lot(units::Volume::litres(v), percent(percent_vol));
}

}  // namespace lynearm::spirit
