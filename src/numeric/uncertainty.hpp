// Uncertainty of a measured result, first order: each input's standard uncertainty times the
// slope of the result along it, summed in squares (GUM, JCGM 100:2008, clause 5.1). Inputs are
// taken as independent; results share them, so two results of one call are correlated and are
// carried together. Leaves out second-order terms: the tests compare with a simulation.
#pragma once

#include <functional>
#include <vector>

namespace lynearm::numeric {

/// An input as measured, and its standard uncertainty (zero or more; zero: known).
struct MeasuredInput {
  double value = 0.0;
  double standard = 0.0;
};

/// Standard uncertainty of a figure that may be wrong by up to `half_width` either way, any
/// error as likely as another (GUM 4.3.7): half_width / sqrt(3).
[[nodiscard]] double standard_of_limits(double half_width);

/// One result with its uncertainty.
struct MeasuredResult {
  double value = 0.0;
  double standard = 0.0;              ///< combined
  std::vector<double> contributions;  ///< slope times standard of each input, with its sign
};

/// Coverage factor of an expanded uncertainty: 2, about 95 % (GUM 6.3.3).
inline constexpr double coverage_factor = 2.0;

/// The results of `f` at the measured inputs, each with its uncertainty.
///
/// f          from inputs to results, as many at every call; smooth over a standard
///            uncertainty either way. May throw InputError past an edge of its range on one
///            side of an input (a reading at the end of a scale): the slope is then taken from
///            the other side
/// throws     what `f` throws at the inputs themselves, or on both sides of one
/// accuracy   slopes by central differences over a tenth of each standard uncertainty
[[nodiscard]] std::vector<MeasuredResult> propagate(
    const std::function<std::vector<double>(const std::vector<double>&)>& f,
    const std::vector<MeasuredInput>& inputs);

}  // namespace lynearm::numeric
