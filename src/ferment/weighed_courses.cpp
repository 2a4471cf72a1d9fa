#include "ferment/weighed_courses.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

#include "base/error.hpp"
#include "numeric/least_squares.hpp"

namespace lynearm::ferment {
namespace {

// What half of the wrong readings are off by: a misread scale, another vessel.
constexpr double wrong_gravity = 0.02;
constexpr double wrong_warmth_K = 6.0;
// Draws about the best fit come from Student's t: its tails reach what a normal would miss.
constexpr int tails = 5;

double bell(double off, double sd) { return std::exp(-0.5 * off * off / (sd * sd)) / sd; }
// As likely in all as a bell, by Cauchy's curve: a misreading far out tells next to nothing of
// which course is the true one, where a bell's tail would choose the course that lies least far
// from it.
double wide(double off, double half) {
  const double off_by = off / half;
  return std::sqrt(2.0 / std::numbers::pi) / (half * (1.0 + off_by * off_by));
}

// A figure's likelihood: right within its doubt, or wrong.
double likelihood(double off, double sd, double wrong_half, double wrong) {
  return (1.0 - wrong) * bell(off, sd) + wrong * wide(off, wrong_half);
}

// The same as a residual for least squares: its square is -2 ln of the likelihood against that
// of no miss at all.
double residual(double off, double sd, double wrong_half, double wrong) {
  const double against =
      likelihood(off, sd, wrong_half, wrong) / likelihood(0.0, sd, wrong_half, wrong);
  return std::copysign(std::sqrt(std::max(0.0, -2.0 * std::log(std::max(against, 1e-300)))),
                       off);
}

class Search {
 public:
  Search(const Batch& batch, const Kinetics& kinetics, const PaceDoubt& doubt,
         const std::vector<Reading>& readings, units::Duration horizon)
      : batch_(batch),
        kinetics_(kinetics),
        doubt_(doubt),
        readings_(readings),
        horizon_(horizon) {}

  DrawnCourse course(const Offs& off, bool stops) const {
    return drawn_course(batch_, kinetics_, doubt_, off, stops, horizon_);
  }

  double log_likelihood(const DrawnCourse& course) const {
    double sum = 0.0;
    each(course, [&](double off, double sd, double wrong_half) {
      sum += std::log(std::max(likelihood(off, sd, wrong_half, doubt_.wrong), 1e-300));
    });
    return sum;
  }

  // Where the readings and what was thought before agree best, of the places that a search from
  // the plan and one from where the last gravity would be its end come to.
  numeric::LeastSquares fit(bool stops) const {
    std::vector<double> start(offs, 0.0);
    numeric::LeastSquares best = fit_from(start, stops);
    if (!stops) return best;
    const auto reached = reached_by_last();
    if (!reached) return best;
    start[off_stop] = (*reached - stops_about) / stops_spread;
    try {
      const numeric::LeastSquares other = fit_from(start, stops);
      if (other.sum_of_squares < best.sum_of_squares) return other;
    } catch (const base::NotConverged&) {
      // The first place stands.
    }
    return best;
  }

 private:
  // First as if no reading could be wrong, each pulling with a bounded force: far out, a
  // reading taken for wrong pulls no more.
  numeric::LeastSquares fit_from(const std::vector<double>& start, bool stops) const {
    numeric::LeastSquaresControl control;
    control.difference = 0.02;
    control.tolerance = 0.05;
    control.tolerance_when_stalled = 2.0;
    control.most_iterations = 40;
    control.loss = numeric::Loss::huber;
    const std::vector<double> scale(offs, 1.0);
    const auto near = numeric::least_squares(
        [&](const std::vector<double>& z) { return residuals(z, stops, false); }, start, scale,
        "ferment by its readings", control);
    control.loss = numeric::Loss::squares;
    return numeric::least_squares(
        [&](const std::vector<double>& z) { return residuals(z, stops, true); }, near.value,
        scale, "ferment by its readings", control);
  }

  // The share of the planned sugar that is gone by the last gravity read.
  std::optional<double> reached_by_last() const {
    const Reading* last = nullptr;
    for (const Reading& reading : readings_) {
      if (reading.gravity && (last == nullptr || last->at <= reading.at)) last = &reading;
    }
    if (last == nullptr) return std::nullopt;
    const DrawnCourse planned = course({}, false);
    const double way = planned.gravity.front() - planned.end_gravity;
    const double gone = planned.gravity.front() - last->gravity->ratio();
    return std::clamp(gone / std::max(1e-6, way), 0.1, 1.0);
  }

  // Every figure read: how far off the course, its doubt, how far off when wrong.
  template <class Use>
  void each(const DrawnCourse& course, const Use& use) const {
    for (const Reading& reading : readings_) {
      const double at_h = reading.at.hours();
      if (reading.gravity) {
        use(reading.gravity->ratio() - course.gravity_at(at_h),
            gravity_sd(reading, course, doubt_), wrong_gravity);
      }
      if (reading.temperature) {
        use(course.warmth_off(at_h, reading.temperature->celsius()), warmth_sd.kelvins(),
            wrong_warmth_K);
      }
    }
  }

  std::vector<double> residuals(const std::vector<double>& z, bool stops,
                                bool may_be_wrong) const {
    Offs off{};
    std::copy(z.begin(), z.end(), off.begin());
    std::vector<double> all(z);  // before it is read, each lies about the plan
    each(course(off, stops), [&](double by, double sd, double wrong_half) {
      all.push_back(may_be_wrong ? residual(by, sd, wrong_half, doubt_.wrong) : by / sd);
    });
    return all;
  }

  const Batch& batch_;
  const Kinetics& kinetics_;
  const PaceDoubt& doubt_;
  const std::vector<Reading>& readings_;
  units::Duration horizon_;
};

/// Where to draw from: a place and the lower triangle of what it spreads by.
struct About {
  Offs place{};
  std::array<Offs, offs> spread{};
};

About about_nothing() {
  About about;
  for (std::size_t i = 0; i < offs; ++i) about.spread[i][i] = 1.0;
  return about;
}

// Cholesky's triangle of the covariance; every direction has some, as all were doubtful before.
About about(const numeric::LeastSquares& fit) {
  About out;
  std::copy(fit.value.begin(), fit.value.end(), out.place.begin());
  auto& l = out.spread;
  for (std::size_t i = 0; i < offs; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = fit.covariance[i * offs + j];
      for (std::size_t k = 0; k < j; ++k) sum -= l[i][k] * l[j][k];
      l[i][j] = i == j ? std::sqrt(std::max(sum, 1e-6)) : sum / l[j][j];
    }
  }
  return out;
}

struct Drawn {
  Offs off{};
  double log_density = 0.0;  // of the draw, up to what all draws share
};

Drawn draw(const About& from, numeric::Draw& stream) {
  Offs n{};
  double squares = 0.0;
  for (double& one : n) {
    one = stream.normal();
    squares += one * one;
  }
  double chi = 0.0;
  for (int i = 0; i < tails; ++i) chi += std::pow(stream.normal(), 2);
  const double stretch = std::sqrt(tails / std::max(chi, 1e-9));
  Drawn out;
  out.off = from.place;
  double log_volume = 0.0;
  for (std::size_t i = 0; i < offs; ++i) {
    log_volume += std::log(from.spread[i][i]);
    for (std::size_t j = 0; j <= i; ++j) out.off[i] += from.spread[i][j] * n[j] * stretch;
  }
  const double reach = squares * stretch * stretch;
  out.log_density =
      -log_volume - 0.5 * static_cast<double>(tails + offs) * std::log1p(reach / tails);
  return out;
}

double log_before(const Offs& off) {
  double sum = 0.0;
  for (const double one : off) sum -= 0.5 * one * one;
  return sum;
}

}  // namespace

double gravity_sd(const Reading& reading, const DrawnCourse& course, const PaceDoubt& doubt) {
  const double from = course.gravity.front();
  const double fall = std::max(1e-6, from - course.end_gravity);
  const double done =
      std::clamp((from - course.gravity_at(reading.at.hours())) / fall, 0.0, 1.0);
  return std::hypot(reading.by_refractometer ? refractometer_sd : hydrometer_sd,
                    doubt.misfit * fall * 4.0 * done * (1.0 - done));
}

double wrong_by(const Reading& reading, const DrawnCourse& course, const PaceDoubt& doubt) {
  const double off = reading.gravity->ratio() - course.gravity_at(reading.at.hours());
  const double wrong = doubt.wrong * wide(off, wrong_gravity);
  const double right = (1.0 - doubt.wrong) * bell(off, gravity_sd(reading, course, doubt));
  return wrong / std::max(wrong + right, 1e-300);
}

std::vector<WeighedCourse> weighed_courses(const Batch& batch, const Kinetics& kinetics,
                                           const PaceDoubt& doubt,
                                           const std::vector<Reading>& readings,
                                           units::Duration horizon, std::uint64_t seed,
                                           std::size_t members,
                                           const numeric::Executor& executor) {
  const Search search(batch, kinetics, doubt, readings, horizon);
  const std::size_t stopping = members / 3;
  std::array<About, 2> from = {about_nothing(), about_nothing()};
  if (!readings.empty()) {
    executor(2, [&](std::size_t i) {
      try {
        from[i] = about(search.fit(i == 1));
      } catch (const base::NotConverged&) {
        // Then draws about the plan must do: wider, and fewer of them count.
      } catch (const base::InputError&) {
      }
    });
  }

  std::vector<std::optional<WeighedCourse>> drawn(members);
  std::vector<double> log_weight(members, 0.0);
  executor(members, [&](std::size_t i) {
    const bool stops = i < stopping;
    numeric::Draw stream(seed, i);
    const Drawn one = draw(from[stops ? 1 : 0], stream);
    const double share = stops ? doubt.stops / static_cast<double>(stopping)
                               : (1.0 - doubt.stops) / static_cast<double>(members - stopping);
    try {
      WeighedCourse member{one.off, stops, search.course(one.off, stops), 0.0};
      log_weight[i] = std::log(std::max(share, 1e-300)) + log_before(one.off) -
                      one.log_density + search.log_likelihood(member.course);
      drawn[i] = std::move(member);
    } catch (const base::InputError&) {
      // Past what the equations take: no such ferment.
    } catch (const base::NotConverged&) {
    }
  });

  std::vector<WeighedCourse> all;
  std::vector<double> logs;
  for (std::size_t i = 0; i < members; ++i) {
    if (!drawn[i]) continue;
    all.push_back(*std::move(drawn[i]));
    logs.push_back(log_weight[i]);
  }
  if (all.empty())
    throw base::NotConverged("ferment by its readings", "no course could be drawn");
  const double most = *std::max_element(logs.begin(), logs.end());
  double sum = 0.0;
  for (std::size_t i = 0; i < all.size(); ++i) sum += all[i].weight = std::exp(logs[i] - most);
  for (WeighedCourse& one : all) one.weight /= sum;
  return all;
}

}  // namespace lynearm::ferment
