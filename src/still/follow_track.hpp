// One computed run as a table in time: what a filter asks thousands of runs at each reading.
// Straight lines between the run's own points, single precision.
//
// Against sight(): within 0.03 K, 0.05 %vol and 2 mL (tests/still/follow_test.cpp).
#pragma once

#include <optional>
#include <vector>

#include "still/run.hpp"

namespace lynearm::still {

/// The still at one moment of a track.
struct Instant {
  double t_s = 0.0;
  double pot_C = 0.0, head_C = 0.0;
  double spout_percent = 0.0;   ///< of what runs or last ran
  double collected_mL = 0.0;    ///< at 20 °C
  double flow_mL_s = 0.0;       ///< 0: nothing runs
  double pot_percent = 0.0;     ///< strength of what is left in the pot
  double alcohol_left_L = 0.0;  ///< pure, in the pot
  double pot_K_s = 0.0, head_K_s = 0.0, spout_percent_s = 0.0;  ///< slopes in time
  [[nodiscard]] bool runs() const { return flow_mL_s > 0.0; }
};

class Track {
 public:
  Track() = default;
  explicit Track(const Run& run);

  /// Before the start as at the start; past the end as at the end, with the flow going on.
  [[nodiscard]] Instant at(double t_s) const;

  /// Seconds since heat on, and mL collected, when something first happens while spirit runs.
  struct Moment {
    double t_s = 0.0, collected_mL = 0.0;
  };
  [[nodiscard]] std::optional<Moment> when_spout_falls_to(double percent) const;
  [[nodiscard]] std::optional<Moment> when_head_rises_to(double celsius) const;
  [[nodiscard]] std::optional<Moment> when_collected(double mL) const;

  [[nodiscard]] double begin_s() const;  ///< the first drop
  [[nodiscard]] double end_s() const { return rows_.back().t_s; }
  [[nodiscard]] double end_mL() const { return rows_.back().collected_mL; }
  [[nodiscard]] bool empty() const { return rows_.empty(); }

 private:
  struct Row {
    float t_s, pot_C, head_C, spout_percent, collected_mL, flow_mL_s, pot_percent,
        alcohol_left_L;
  };
  template <class Figure>
  [[nodiscard]] std::optional<Moment> first(Figure figure, double wanted, bool rising) const;
  std::vector<Row> rows_;
};

}  // namespace lynearm::still
