// The lots of a blend as bare figures against one wanted strength: the inner part of
// blend_limit.hpp and target_blend.hpp. No checks.
#pragma once

#include <cstddef>
#include <vector>

#include "spirit/lot.hpp"

namespace lynearm::spirit {

/// One lot that is not empty.
struct BlendItem {
  std::size_t lot = 0;  ///< its place in the list given
  double ethanol_kg = 0.0;
  double mass_kg = 0.0;
  double p = 0.0;         ///< mass fraction
  double above_kg = 0.0;  ///< ethanol beyond the wanted strength; lacking if below zero
};

/// What some of the lots can make at the wanted strength.
class BlendKernel {
 public:
  /// to_p       wanted mass fraction, above 0
  /// water      may be added
  BlendKernel(const std::vector<Lot>& lots, double to_p, bool water);

  /// From the weakest to the strongest; equal ones in the order given.
  [[nodiscard]] const std::vector<BlendItem>& items() const { return items_; }
  [[nodiscard]] double to_p() const { return to_p_; }
  [[nodiscard]] bool water() const { return water_; }

  /// Most ethanol, kg, that the open items bring into a blend of the wanted strength. Any less
  /// can be made too: use less of each.
  ///
  /// open       one flag for each item
  /// used       filled with the share used of each, when not null
  double most_ethanol_kg(const std::vector<char>& open,
                         std::vector<double>* used = nullptr) const;

 private:
  std::vector<BlendItem> items_;
  double to_p_;
  bool water_;
};

}  // namespace lynearm::spirit
