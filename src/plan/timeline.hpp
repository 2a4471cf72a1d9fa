// The steps of a batch in time: when each starts, how long it takes, whether hands are needed,
// and what runs beside it.
#pragma once

#include <string>
#include <vector>

#include "units/quantity.hpp"

namespace lynearm::plan {

enum class Attention {
  hands_on,  ///< someone works
  watch,     ///< someone stays: heat is on, spirit runs
  wait,      ///< time does the work
};

struct Step {
  std::string stage;
  std::string what;       ///< an instruction, "Stir in the malts at 68.9 °C"
  units::Duration start;  ///< from midnight before the first day
  units::Duration length;
  Attention attention = Attention::hands_on;
  bool beside = false;  ///< runs beside the step before it in the main line

  [[nodiscard]] units::Duration end() const { return start + length; }
};

struct Timeline {
  std::vector<Step> steps;  ///< in order of their start

  [[nodiscard]] units::Duration hands_on() const;
  [[nodiscard]] units::Duration watching() const;
  [[nodiscard]] units::Duration whole() const;  ///< first start to last end
};

/// "day 1 09:40" for a time counted from the midnight before the first day.
[[nodiscard]] std::string clock(units::Duration since_first_midnight);

}  // namespace lynearm::plan
