// Courses drawn about what the readings make likely, each with its weight. For this room's own
// sources.
#pragma once

#include <cstdint>
#include <vector>

#include "ferment/drawn_course.hpp"

namespace lynearm::ferment {

struct WeighedCourse {
  Offs off{};
  bool stops = false;
  DrawnCourse course;
  double weight = 0.0;  ///< all together 1
};

/// Half the misses of an instrument squared, and what the equations miss by at that gravity.
[[nodiscard]] double gravity_sd(const Reading& reading, const DrawnCourse& course,
                                const PaceDoubt& doubt);

/// How likely that reading is to be simply wrong were this the course, 0 to 1.
[[nodiscard]] double wrong_by(const Reading& reading, const DrawnCourse& course,
                              const PaceDoubt& doubt);

/// Two parts of `members` go on, one stops. Members that the equations refuse are left out.
/// throws     as pace() does for the plan's own course
[[nodiscard]] std::vector<WeighedCourse> weighed_courses(
    const Batch& batch, const Kinetics& kinetics, const PaceDoubt& doubt,
    const std::vector<Reading>& readings, units::Duration horizon, std::uint64_t seed,
    std::size_t members, const numeric::Executor& executor);

}  // namespace lynearm::ferment
