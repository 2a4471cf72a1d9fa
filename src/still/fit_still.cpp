#include "still/fit_still.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/error.hpp"
#include "numeric/least_squares.hpp"
#include "still/fit_problem.hpp"

namespace lynearm::still {
namespace {

constexpr double freedom = 4.0;      // of Student's t
constexpr double clock_s = 17.0;     // a time taken to the minute
constexpr double usual_worth = 4.0;  // readings that the usual scatter counts as
// What a still does and the model does not (mains and draughts that wander, droplets, a lagging
// thermometer) moves readings together in ways that their own scatter does not show. Judged on
// invented runs with such physics: tests/still/fit_statistics_test.cpp.
constexpr double least_thinning = 2.0;
constexpr int settling_rounds = 4;  // in which scatter is judged
constexpr int most_rounds = 25;
constexpr double done = 0.02;      // of a standard uncertainty
constexpr double most_left = 0.5;  // of a standard uncertainty, at the end
constexpr double most_left_at_all = 2.0;
constexpr double eighty_percent = 1.2815515655446004;  // half width of the band, normal
// Of a spread: above the noise of a run at 1e-7; and so wide that corners are seen past.
constexpr std::array<double, 3> differences = {2e-3, 5e-2, 0.3};

std::size_t index(LogInstrument instrument) { return static_cast<std::size_t>(instrument); }

// How the readings are weighed, from one round to the next.
struct Weighing {
  std::vector<double> spread;    ///< of each reading
  std::vector<double> weight;    ///< Student's
  std::vector<double> thinning;  ///< readings for each independent one
  std::array<double, log_instrument_count> scatter{1.0, 1.0, 1.0, 1.0,
                                                   1.0};  ///< over the usual
};

class Fit {
 public:
  Fit(const std::vector<RecordedRun>& runs, const FitChoices& choices)
      : problem_(runs, choices, result_.passed_over), places_(problem_.readings()) {}

  StillFit go() {
    find_start();
    // A search that a corner of a run has caught begins again from beside.
    const std::vector<double> start = steps_;
    std::vector<double> best;
    double least_left = std::numeric_limits<double>::infinity();
    for (const double beside : {0.0, 0.7, -0.7}) {
      steps_ = start;
      for (double& step : steps_) step += beside;
      if (!settle()) continue;
      if (found_.step_left < least_left) {
        least_left = found_.step_left;
        best = steps_;
        best_weighing_ = weighing_;
      }
      if (least_left <= most_left) break;
    }
    if (best.empty() || least_left > most_left_at_all) {
      throw base::NotConverged(
          "fit of the still",
          best.empty() ? "no way down from any of three starts"
                       : fmt::format("{:.2g} standard uncertainties still to go", least_left));
    }
    steps_ = best;
    weighing_ = best_weighing_;
    if (least_left > most_left) solve(numeric::Loss::squares);
    judge(false);
    tell();
    return std::move(result_);
  }

 private:
  // Rounds of weighing and solving; false when the search found no way.
  bool settle() {
    const std::size_t n = places_.size();
    weighing_ = {};
    weighing_.weight.assign(n, 1.0);
    weighing_.thinning.assign(n, least_thinning);
    try {
      judge_spreads();
      solve(numeric::Loss::student);
      for (int round = 0; round < most_rounds; ++round) {
        judge(round < settling_rounds);
        const std::vector<double> before = steps_;
        solve(numeric::Loss::squares);
        ++result_.rounds;
        double moved = 0.0;
        for (std::size_t k = 0; k < steps_.size(); ++k) {
          moved = std::fmax(moved, std::abs(steps_[k] - before[k]) / found_.standard(k));
        }
        if (round >= settling_rounds && moved < done) break;
      }
    } catch (const base::NotConverged&) {
      return false;
    } catch (const base::InputError&) {
      return false;  // beside the start there may be no run
    }
    return true;
  }

  // The middle of all beliefs, or, where that gives no run, a head that loses less and a fire
  // that gives more.
  void find_start() {
    steps_.assign(problem_.unknowns().size(), 0.0);
    for (int nearer = 0;; ++nearer) {
      try {
        (void)problem_.shown(steps_);
        return;
      } catch (const base::InputError&) {
        if (nearer == 5) throw;
        for (std::size_t k = 0; k < steps_.size(); ++k) {
          const StillConstant c = problem_.unknowns()[k].constant;
          if (c == StillConstant::head_loss || c == StillConstant::pot_loss) steps_[k] -= 0.7;
          if (c == StillConstant::heating_efficiency) steps_[k] += 0.3;
        }
      }
    }
  }

  void judge_spreads() {
    const std::vector<double> slopes = problem_.slopes(steps_);
    weighing_.spread.resize(places_.size());
    for (std::size_t k = 0; k < places_.size(); ++k) {
      const Seen& s = places_[k].seen;
      weighing_.spread[k] =
          std::hypot(weighing_.scatter[index(s.instrument)] * s.spread, slopes[k] * clock_s);
    }
  }

  [[nodiscard]] std::vector<double> deviations() const {
    std::vector<double> z = problem_.shown(steps_);
    for (std::size_t k = 0; k < z.size(); ++k) {
      z[k] = (places_[k].seen.figure - z[k]) / weighing_.spread[k];
    }
    return z;
  }

  // Student's weights, and while settling also the scatter of each instrument and how far its
  // readings lean the same way.
  void judge(bool settling) {
    if (settling) {
      const std::vector<double> z = deviations();
      std::array<double, log_instrument_count> sum{}, count{};
      for (std::size_t k = 0; k < z.size(); ++k) {
        const std::size_t i = index(places_[k].seen.instrument);
        sum[i] += student(z[k]) * z[k] * z[k];
        count[i] += 1.0;
      }
      for (std::size_t i = 0; i < log_instrument_count; ++i) {
        weighing_.scatter[i] *=
            std::sqrt((usual_worth / (weighing_.scatter[i] * weighing_.scatter[i]) + sum[i]) /
                      (usual_worth + count[i]));
      }
      judge_spreads();
    }
    const std::vector<double> z = deviations();
    for (std::size_t k = 0; k < z.size(); ++k) weighing_.weight[k] = student(z[k]);
    if (settling) thin(z);
  }

  static double student(double z) { return (freedom + 1.0) / (freedom + z * z); }

  // Readings that lean together: by the correlation of each with the next of its kind in its
  // run, as for a process that forgets at one pace.
  void thin(const std::vector<double>& z) {
    for (int run = 0; run < problem_.runs(); ++run) {
      for (std::size_t i = 0; i < log_instrument_count; ++i) {
        std::vector<std::size_t> own;
        for (std::size_t k = 0; k < z.size(); ++k) {
          if (places_[k].run == run && index(places_[k].seen.instrument) == i) own.push_back(k);
        }
        const double n = static_cast<double>(own.size());
        double along = 0.0, all = 1.0;  // one: that of a reading or two is nothing
        for (std::size_t m = 0; m < own.size(); ++m) {
          const double here = std::clamp(z[own[m]], -3.0, 3.0);
          all += here * here;
          if (m > 0) along += here * std::clamp(z[own[m - 1]], -3.0, 3.0);
        }
        const double next = std::clamp(along / all, 0.0, 0.95);
        const double thinning = std::fmax(
            least_thinning, std::fmin((1.0 + next) / (1.0 - next), std::fmax(1.0, n / 3.0)));
        for (const std::size_t k : own) weighing_.thinning[k] = thinning;
      }
    }
  }

  void solve(numeric::Loss loss) {
    // Student's information is less than that of its weights; see numeric::LeastSquares.
    const double information = (freedom + 1.0) / (freedom + 3.0);
    const bool weighed = loss == numeric::Loss::squares;
    const auto residuals = [&](const std::vector<double>& steps) {
      std::vector<double> r = problem_.shown(steps);
      for (std::size_t k = 0; k < r.size(); ++k) {
        const double share =
            weighed ? std::sqrt(information * weighing_.weight[k] / weighing_.thinning[k])
                    : 1.0;
        r[k] = share * (places_[k].seen.figure - r[k]) / weighing_.spread[k];
      }
      r.insert(r.end(), steps.begin(), steps.end());
      return r;
    };
    numeric::LeastSquaresControl control;
    control.loss = loss;
    control.loss_width = weighed ? 0.0 : freedom;
    control.tolerance = done;
    // Where a corner of a run stops the search, the next round begins from other weights.
    control.tolerance_when_stalled = 1e3;
    control.most_iterations = 40;
    bool found = false;
    for (const double over : differences) {
      control.difference = over;
      try {
        found_ =
            numeric::least_squares(residuals, steps_, std::vector<double>(steps_.size(), 1.0),
                                   "fit of the still", control);
      } catch (const base::NotConverged&) {
        // Seen past the corner, or from other weights, there is a way.
        if (over == differences.back() && weighed && !found) throw;
        continue;
      }
      found = true;
      steps_ = found_.value;
      if (found_.step_left <= 10.0 * done) break;
    }
  }

  void tell() {
    tell_constants();
    tell_no_more_than_checked();
    tell_readings();
    for (int i = 0; i < problem_.runs(); ++i) {
      result_.runs.push_back(problem_.run(i, steps_));
      try {
        result_.as_stated.push_back(problem_.run_as_stated(i));
      } catch (const base::InputError&) {
        // Nothing to compare with; the fit stands without.
      }
    }
  }

  void tell_constants() {
    const std::size_t count = steps_.size();
    for (std::size_t k = 0; k < count; ++k) {
      const Belief& b = problem_.unknowns()[k];
      const double sd = found_.standard(k);
      FittedConstant c;
      c.constant = b.constant;
      c.run = b.run;
      c.value = figure_at(b, steps_[k]);
      c.low = figure_at(b, steps_[k] - eighty_percent * sd);
      c.high = figure_at(b, steps_[k] + eighty_percent * sd);
      c.sd = sd * b.spread * (is_a_factor(b.constant) ? c.value : 1.0);
      c.before = b;
      c.left_open = sd;
      c.told = sd <= untold_from;
      result_.constants.push_back(c);
    }
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t j = 0; j < count; ++j) {
        const double r = i == j ? 1.0 : found_.correlation(i, j);
        result_.correlations.push_back(r);
        if (i < j && std::abs(r) > entangled_from) result_.entangled.push_back({i, j, r});
      }
    }
    std::stable_sort(result_.entangled.begin(), result_.entangled.end(),
                     [](const Entangled& a, const Entangled& b) {
                       return std::abs(a.correlation) > std::abs(b.correlation);
                     });
  }

  // So many constants at most as there are independent readings to spare.
  void tell_no_more_than_checked() {
    double independent = 0.0;
    for (const double thinning : weighing_.thinning) independent += 1.0 / thinning;
    const double most = std::floor(independent - 1.0);
    std::vector<FittedConstant*> told;
    for (FittedConstant& c : result_.constants) {
      if (c.told) told.push_back(&c);
    }
    std::stable_sort(told.begin(), told.end(),
                     [](const auto* a, const auto* b) { return a->left_open < b->left_open; });
    for (std::size_t i = 0; i < told.size(); ++i) {
      if (static_cast<double>(i) >= most) told[i]->told = false;
    }
  }

  void tell_readings() {
    const std::vector<double> shown = problem_.shown(steps_);
    std::array<InstrumentFit, log_instrument_count> by{};
    std::array<std::vector<double>, log_instrument_count> spreads;
    for (std::size_t k = 0; k < places_.size(); ++k) {
      FittedReading r;
      r.run = places_[k].run;
      r.seen = places_[k].seen;
      r.expected = shown[k];
      r.spread = weighing_.spread[k];
      r.deviation = (r.seen.figure - r.expected) / r.spread;
      r.outlying = std::abs(r.deviation) > outlying_from;
      const std::size_t i = index(r.seen.instrument);
      by[i].instrument = r.seen.instrument;
      ++by[i].readings;
      by[i].count_as += 1.0 / weighing_.thinning[k];
      if (r.outlying) {
        ++by[i].outlying;
      } else {
        by[i].rms += (r.seen.figure - r.expected) * (r.seen.figure - r.expected);
      }
      spreads[i].push_back(r.spread);
      result_.readings.push_back(r);
    }
    for (std::size_t i = 0; i < log_instrument_count; ++i) {
      if (by[i].readings == 0) continue;
      const int lying = by[i].readings - by[i].outlying;
      by[i].rms = lying > 0 ? std::sqrt(by[i].rms / lying) : 0.0;
      const auto middle =
          spreads[i].begin() + static_cast<std::ptrdiff_t>(spreads[i].size() / 2);
      std::nth_element(spreads[i].begin(), middle, spreads[i].end());
      by[i].noise = *middle;
      result_.instruments.push_back(by[i]);
    }
  }

  StillFit result_;
  FitProblem problem_;
  const std::vector<FitProblem::Place>& places_;
  std::vector<double> steps_;
  Weighing weighing_, best_weighing_;
  numeric::LeastSquares found_;
};

}  // namespace

double FittedConstant::spreads_off() const {
  const double off =
      is_a_factor(constant) ? std::log(value / before.value) : value - before.value;
  return off / before.spread;
}

std::vector<std::size_t> StillFit::strange() const {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < constants.size(); ++i) {
    if (constants[i].told && std::abs(constants[i].spreads_off()) >= strange_from) {
      all.push_back(i);
    }
  }
  std::stable_sort(all.begin(), all.end(), [this](std::size_t a, std::size_t b) {
    return std::abs(constants[a].spreads_off()) > std::abs(constants[b].spreads_off());
  });
  return all;
}

const FittedConstant& StillFit::of(StillConstant constant, int run) const {
  for (const FittedConstant& c : constants) {
    if (c.constant == constant && c.run == run) return c;
  }
  throw base::BrokenInvariant("a constant that was not fitted is asked for");
}

StillFit fit_still(const std::vector<RecordedRun>& runs, const FitChoices& choices) {
  return Fit(runs, choices).go();
}

}  // namespace lynearm::still
