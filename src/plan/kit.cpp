#include "plan/kit.hpp"

#include <algorithm>

namespace lynearm::plan {

double specific_heat_J_per_kg_K(Material material) {
  switch (material) {
    case Material::stainless_steel:
      return 500.0;
    case Material::copper:
      return 385.0;
    case Material::aluminium:
      return 900.0;
    case Material::glass:
      return 840.0;
    case Material::plastic:
      return 1900.0;
    case Material::wood:
      return 2000.0;
  }
  return 0.0;
}

const Vessel* Kit::vessel(const std::string& vessel_name) const {
  const auto found = std::find_if(vessels.begin(), vessels.end(), [&](const Vessel& vessel) {
    return vessel.name == vessel_name;
  });
  return found == vessels.end() ? nullptr : &*found;
}

}  // namespace lynearm::plan
