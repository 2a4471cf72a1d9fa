// What a batch needs next and when, for the house's page. The shape is that of
// web/api/openapi.yaml; what it is, is decided in station/next_step.hpp.
#pragma once

#include <optional>
#include <string>

#include "journal/moment.hpp"
#include "journal/stage.hpp"

namespace lynearm::wire {

enum class NextStanding {
  now,    ///< a still is on, or stopped half way
  waits,  ///< for a hand, or for its time
  done,
};

struct NextStep {
  std::string what{};                     ///< an instruction, "Rack the wash"
  std::optional<journal::Stage> stage{};  ///< where it is done; none: on the batch's own page
  journal::Moment since{};                ///< when the batch came to stand there
  NextStanding standing = NextStanding::waits;
  std::optional<journal::Moment> due{};         ///< from when on
  std::optional<journal::Moment> late_after{};  ///< then it is overdue
  std::string due_by{};                         ///< what `due` rests on, for people
};

}  // namespace lynearm::wire
