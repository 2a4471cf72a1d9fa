// Inside fit_still: the logged runs made ready, the unknowns, and the figures that all readings
// should show for given unknowns.
//
// Unknowns are counted in spreads from the middle of their belief. A run is computed anew only
// when a figure it depends on has changed.
#pragma once

#include <vector>

#include "still/fit_still.hpp"
#include "still/logged_power.hpp"

namespace lynearm::still {

class FitProblem {
 public:
  /// throws     InputError "runs[i].record"
  FitProblem(const std::vector<RecordedRun>& runs, const FitChoices& choices,
             std::vector<PassedOver>& passed_over);

  struct Place {
    int run = 0;
    Seen seen;
  };
  [[nodiscard]] const std::vector<Place>& readings() const { return readings_; }
  [[nodiscard]] const std::vector<Belief>& unknowns() const { return unknowns_; }
  [[nodiscard]] int runs() const { return static_cast<int>(runs_.size()); }

  /// What each reading would show, or how fast that moves in its unit a second.
  [[nodiscard]] std::vector<double> shown(const std::vector<double>& steps) const;
  [[nodiscard]] std::vector<double> slopes(const std::vector<double>& steps) const;
  /// throws     as distil()
  [[nodiscard]] Run run(int i, const std::vector<double>& steps) const;
  /// With what was stated and nothing else.
  [[nodiscard]] Run run_as_stated(int i) const;

 private:
  struct Ready {
    Charge charge;
    RunSetting stated;
    vapour::BoilingCurve curve;
    double end_s = 0.0;
    std::size_t first = 0, count = 0;  ///< of readings_
  };
  struct Kept {
    Figures figures;
    std::vector<double> shown;
  };
  [[nodiscard]] Figures figures(int i, const std::vector<double>& steps) const;
  [[nodiscard]] Run compute(const Ready& ready, const Figures& figures) const;
  [[nodiscard]] std::vector<double> true_figures(int i, const Figures& figures) const;

  std::vector<Ready> runs_;
  std::vector<Place> readings_;
  std::vector<Belief> unknowns_;
  mutable std::vector<std::vector<Kept>> kept_;  ///< of each run, used last first
};

}  // namespace lynearm::still
