// The marks on a hydrometer's stem: which density of the liquid brings which figure to its
// surface, at the temperature where the glass is true. What the spirit's own temperature does
// is for hydrometer.hpp.
#pragma once

#include "spirit/density_kernel.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/reading.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

class Marks {
 public:
  /// throws     InputError ("reference", "glass_expansion"): a reference from -20 to 40 °C, an
  ///            expansion from 0 to 0.001 per kelvin
  Marks(Scale scale, const Hydrometer& hydrometer);

  /// Density at which the figure stands at the surface, at the reference.
  ///
  /// throws     InputError ("reading") where a scale of strength has no such figure: it carries
  /// 0
  ///            to 100 %, 0 to 200 proof
  [[nodiscard]] double density_kgm3(double figure) const;

  /// The figure at the surface: inverse of density_kgm3() to 1e-12 of the scale's length. Past
  /// the ends of a scale of strength it goes on in proportion to density.
  [[nodiscard]] double figure(double density_kgm3) const;

  /// What the volume of the glass at `t_C` is to that at the reference. The mass of the float
  /// equals the mass of liquid it displaces, so the density of the liquid times this is the
  /// density of the mark at its surface.
  [[nodiscard]] double glass(double t_C) const {
    return 1.0 + expansion_per_K_ * (t_C - reference_C_);
  }

  [[nodiscard]] Scale scale() const { return scale_; }
  [[nodiscard]] double reference_C() const { return reference_C_; }

 private:
  Scale scale_;
  double reference_C_;
  double expansion_per_K_;
  DensityAt at_;
};

/// Whether the figures of a scale are densities, or densities over that of water.
[[nodiscard]] bool of_density(Scale scale);

/// The figures that are marked on a scale, at most: 0 to 100 %, 0 to 200 proof, 700 to 1100
/// kg/m³, specific gravity 0.7 to 1.1.
struct ScaleEnds {
  double first, last;
};
[[nodiscard]] ScaleEnds ends_of(Scale scale);

}  // namespace lynearm::spirit
