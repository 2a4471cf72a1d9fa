// One computed run as a table in time: what a filter asks thousands of runs at each reading.
// Straight lines between the run's own points, of which one in two is left out where the line
// passes it by anyway; single precision.
//
// Against sight(): within 0.03 K, 0.05 %vol and 2 mL (tests/still/follow_test.cpp).
#pragma once

#include <optional>
#include <vector>

#include "still/cuts.hpp"
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
  double pot_kg = 0.0;          ///< ethanol and water left there
  double ran_s_ago = 0.0;       ///< since something last ran; infinity: nothing has
  double pot_K_s = 0.0, head_K_s = 0.0, spout_percent_s = 0.0;  ///< slopes in time
  [[nodiscard]] bool runs() const { return flow_mL_s > 0.0; }
};

/// Less than a drop in half a minute counts as nothing, mL/s.
inline constexpr double least_flow_mL_s = 0.0017;

class Track {
 public:
  Track() = default;
  /// until_s    the run is known to stand then: what it does later is left out
  explicit Track(const Run& run, std::optional<double> until_s = std::nullopt);

  /// Before the start as at the start; past the end as at the end, with the flow going on while
  /// there is something in the pot.
  [[nodiscard]] Instant at(double t_s) const;

  /// Seconds since heat on, and mL collected, when something first happens while spirit runs.
  struct Moment {
    double t_s = 0.0, collected_mL = 0.0;
  };
  [[nodiscard]] std::optional<Moment> when_spout_falls_to(double percent) const;
  [[nodiscard]] std::optional<Moment> when_head_rises_to(double celsius) const;
  [[nodiscard]] std::optional<Moment> when_collected(double mL) const;

  [[nodiscard]] std::optional<Moment> when(const Border& border) const;
  [[nodiscard]] std::optional<Moment> first_drops() const;
  [[nodiscard]] std::optional<Moment> when_pot_falls_to(double kg) const;

  /// Whether anything ever comes over; if so, from the first drop to the last.
  [[nodiscard]] bool ever_runs() const;
  [[nodiscard]] double begin_s() const;
  [[nodiscard]] double end_s() const;
  [[nodiscard]] double end_mL() const { return rows_.back().collected_mL; }
  /// At that time and later nothing comes over.
  [[nodiscard]] bool stands_from(double t_s) const { return stands_ && !(end_s() > t_s); }
  /// Its fire ends it, not what was asked for.
  [[nodiscard]] bool stands() const { return stands_; }
  [[nodiscard]] bool empty() const { return rows_.empty(); }

 private:
  struct Row {
    float t_s, pot_C, head_C, spout_percent, collected_mL, flow_mL_s, pot_percent,
        alcohol_left_L, pot_kg, ran_s;
  };
  /// Whether the line from a to c passes b so near that b need not be kept.
  [[nodiscard]] static bool spares(const Row& a, const Row& b, const Row& c);
  template <class Figure>
  [[nodiscard]] std::optional<Moment> first(Figure figure, double wanted, bool rising) const;
  std::vector<Row> rows_;
  bool stands_ = false;
};

}  // namespace lynearm::still
