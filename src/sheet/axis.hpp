// Ticks that a reader can divide by eye: steps of 1, 2 or 5 times a power of ten, and of 15 or
// 30 minutes or 6, 12, 24 hours where the axis is time.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace lynearm::sheet {

/// An axis, its figures in `unit`. Covers all that is drawn, and at least from...to.
struct Axis {
  std::string name;  ///< "Strength"
  std::string unit;  ///< "%vol"; "min" and "h" get steps of the clock
  std::optional<double> from;
  std::optional<double> to;
};

struct Ticks {
  double step = 1.0;
  std::vector<double> at;
  int decimals = 0;

  [[nodiscard]] std::string text(double value) const;
};

/// The ticks inside low...high, about `wanted` of them (from two to twice that).
///
/// low, high   finite, low < high
/// throws      BrokenInvariant otherwise
[[nodiscard]] Ticks ticks_inside(double low, double high, int wanted, bool of_clock_minutes,
                                 bool of_clock_hours);

/// Ticks in steps as above that begin at or below `low` and end at or above `high`.
[[nodiscard]] Ticks ticks_covering(double low, double high, int wanted);

/// Ticks for two axes at the two sides of one plot, of equal number, so that one set of rules
/// serves both: the number near `wanted` that leaves least of the plot empty.
[[nodiscard]] std::pair<Ticks, Ticks> ticks_of_both(double left_low, double left_high,
                                                    double right_low, double right_high,
                                                    int wanted);

}  // namespace lynearm::sheet
