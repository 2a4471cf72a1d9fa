// A sentence that holds metric figures, said in another system: findings and steps are made
// once, in metric, and restated where they are shown.
#pragma once

#include <string>

#include "units/kind.hpp"

namespace lynearm::units {

/// `sentence` with each figure followed by L, mL, kg, g, °C or K (a change) in `system`; both
/// ends of "12 to 15 °C" too. Compound units (g/L, L/min), m³ and strengths are left as they
/// are.
///
/// us     the figure is replaced: "36.0 L" becomes "9.51 gal"
/// both   it is added: "36.0 L (9.51 gal)"
[[nodiscard]] std::string restated(const std::string& sentence, System system);

}  // namespace lynearm::units
