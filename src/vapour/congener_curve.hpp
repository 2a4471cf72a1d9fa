// The volatilities of all congeners along the boiling line at one pressure, tabulated once and
// cheap to ask: a run of a still asks at every step. K itself on 129 nodes, stretched as those
// of boiling_curve.hpp, with cubics between: over one interval it changes so little that ln K
// would gain nothing and cost sixteen exponentials. Immutable once made, so threads may share
// it.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "units/quantity.hpp"
#include "vapour/boiling_curve.hpp"
#include "vapour/congener.hpp"

namespace lynearm::vapour {

/// K = y/x of each congener over the boiling liquid.
///
/// accuracy   against volatilities() at the boiling point, 2001 mixtures each at 20 to 120 kPa:
///            worst 4.7e-5 of K (tests/vapour/congener_curve_test.cpp)
class CongenerCurve {
 public:
  /// For the pressure of `boiling`, of which it keeps nothing.
  explicit CongenerCurve(const BoilingCurve& boiling);

  /// All sixteen, in the order of congeners(). liquid: 0 to 1; BrokenInvariant outside.
  void at(units::MoleFraction liquid, std::span<double, congener_count> k) const;

  [[nodiscard]] units::Pressure pressure() const { return pressure_; }

 private:
  struct Node {
    std::array<double, congener_count> value;  // K
    std::array<double, congener_count> slope;  // times the width of an interval
  };
  units::Pressure pressure_;
  std::vector<Node> nodes_;
};

}  // namespace lynearm::vapour
