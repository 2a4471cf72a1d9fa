// A hydrometer prepared once, for loops over many readings: true_mass_fraction() and shown() in
// bare doubles, without exceptions for a reading that fits no spirit. Ten readings and more a
// microsecond, each at a temperature of its own.
//
// Model and what it leaves out: hydrometer.hpp. Only the way is shorter: the density of each
// mark, which true_mass_fraction() finds by an iteration, is read here from a curve through
// such densities, made and checked when the instrument is prepared.
#pragma once

#include <array>
#include <cstddef>

#include "spirit/density_kernel.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/marks.hpp"

namespace lynearm::spirit {

/// Marks::density_kgm3() as a curve: polynomials over 128 equal stretches of the scale.
class MarkCurve {
 public:
  explicit MarkCurve(const Marks& marks);
  /// figure     within ends_of() the scale (not checked)
  /// accuracy   within 4.5e-13 kg/m³ of the mark (tests/spirit/hydrometer_kernel_test.cpp)
  [[nodiscard]] double density_kgm3(double figure) const;

 private:
  static constexpr std::size_t stretches = 128;
  static constexpr std::size_t terms = 10;
  double first_, stretches_per_figure_;
  std::array<std::array<double, terms>, stretches> coefficients_{};
};

/// Safe to share between threads. Some 10 kB; preparing one takes about a fifth of a
/// millisecond, the time of a thousand readings one by one.
class HydrometerKernel {
 public:
  /// throws     InputError ("reference", "glass_expansion") as Marks does
  explicit HydrometerKernel(Scale scale, const Hydrometer& hydrometer = {});

  /// Mass fraction of the spirit in which the glass shows `figure`.
  ///
  /// figure     on the scale; t_C -20 to 40
  /// returns    the mixture, or which border stands against it; never throws for a figure or a
  ///            temperature, NaN included
  /// accuracy   within 3.5e-14 of the formula in exact arithmetic, every scale, -20 to 40 °C;
  ///            7e-15 from -10 °C up (tests/spirit/hydrometer_kernel_test.cpp)
  [[nodiscard]] Found mass_fraction(double figure, double t_C) const;

  /// What the glass shows in a spirit; past the ends of a scale of strength it goes on in
  /// proportion to density, as shown() does.
  ///
  /// p          mass fraction 0 to 1; t_C -20 to 40
  /// throws     InputError ("strength", "at") outside
  [[nodiscard]] double shown_figure(double p, double t_C) const;

  /// One temperature, many readings: a column of a gauging table. Lives no longer than the
  /// kernel.
  class Column {
   public:
    [[nodiscard]] Found mass_fraction(double figure) const;
    /// throws     InputError ("strength") outside 0 to 1
    [[nodiscard]] double shown_figure(double p) const;

   private:
    friend class HydrometerKernel;
    Column(const HydrometerKernel& kernel, double t_C);

    const HydrometerKernel* kernel_;
    DensityAt at_;
    double glass_, per_glass_;
  };
  /// throws     InputError ("at") outside -20 to 40 °C
  [[nodiscard]] Column column(double t_C) const;

 private:
  Marks marks_;
  ScaleEnds ends_;
  MarkCurve curve_;
};

}  // namespace lynearm::spirit
