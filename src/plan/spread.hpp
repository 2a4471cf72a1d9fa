// A constant that is not known exactly: its median and the half width of its 80 % band.
#pragma once

namespace lynearm::plan {

/// Normal about the median, cut off at the limits of its key; the half width is that of the
/// central 80 % (1.2816 standard deviations).
template <class Quantity>
struct Spread {
  Quantity median;
  Quantity half_width_80{};

  friend bool operator==(const Spread&, const Spread&) = default;
};

}  // namespace lynearm::plan
