#include "still/box_programme.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/error.hpp"

namespace lynearm::still {
namespace {

using Vector = std::vector<double>;
using Matrix = std::vector<Vector>;

constexpr double tie = 1e-9;
constexpr int most_iterations = 100;

double dot(const Vector& a, const Vector& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

double largest(const Vector& a) {
  double most = 0.0;
  for (const double x : a) most = std::max(most, std::abs(x));
  return most;
}

// Solves a square system by elimination with the largest pivot of each column; false where it
// has no single solution.
bool eliminate(Matrix a, Vector& b) {
  const std::size_t n = b.size();
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t pivot = k;
    for (std::size_t i = k + 1; i < n; ++i) {
      if (std::abs(a[i][k]) > std::abs(a[pivot][k])) pivot = i;
    }
    if (!(std::abs(a[pivot][k]) > 0.0) || !std::isfinite(a[pivot][k])) return false;
    std::swap(a[k], a[pivot]);
    std::swap(b[k], b[pivot]);
    for (std::size_t i = k + 1; i < n; ++i) {
      const double factor = a[i][k] / a[k][k];
      if (factor == 0.0) continue;
      for (std::size_t j = k; j < n; ++j) a[i][j] -= factor * a[k][j];
      b[i] -= factor * b[k];
    }
  }
  for (std::size_t k = n; k-- > 0;) {
    for (std::size_t j = k + 1; j < n; ++j) b[k] -= a[k][j] * b[j];
    b[k] /= a[k][k];
  }
  return true;
}

// Where the interior point stands: shares, the prices of their two bounds, and those of the
// equations.
struct State {
  Vector h, low, high, prices;
};

// The equations of a Newton step. Every share has a curvature of its own, and the few squares
// and equations tie them together:
//     own_i h_i + sum_k row_ki f_k = b_i,   f_k = 2 g_k . h for a square, E h = e for an
//     equation
// with f of an equation its price, turned. Shares whose own curvature counts fall out of the
// system one by one; those that are split have next to none and stay in it. So the time goes
// with the jars, not with their cube. What rounding loses on the way is brought back by solving
// for the residual again.
class NewtonSystem {
 public:
  NewtonSystem(const Vector& own, const Matrix& squares, const Matrix& equations)
      : own_(own), squares_(squares), equations_(equations) {
    for (std::size_t i = 0; i < own_.size(); ++i) {
      double tied = 0.0;
      for (const Vector& g : squares_) tied += 2.0 * g[i] * g[i];
      (own_[i] < small * tied ? kept_ : gone_).push_back(i);
    }
    const std::size_t few = squares.size() + equations.size();
    const std::size_t split = kept_.size();
    reduced_.assign(split + few, Vector(split + few, 0.0));
    for (std::size_t i = 0; i < split; ++i) reduced_[i][i] = own_[kept_[i]];
    for (std::size_t k = 0; k < few; ++k) {
      const Vector& r = row(k);
      for (std::size_t i = 0; i < split; ++i) {
        reduced_[i][split + k] = reduced_[split + k][i] = r[kept_[i]];
      }
      for (std::size_t j = 0; j <= k; ++j) {
        double sum = 0.0;
        for (const std::size_t i : gone_) sum += r[i] / own_[i] * row(j)[i];
        reduced_[split + k][split + j] = reduced_[split + j][split + k] = -sum;
      }
      if (k < squares_.size()) reduced_[split + k][split + k] -= 0.5;
    }
  }

  // Right sides in, shares and then prices out; false where there is no single solution.
  [[nodiscard]] bool solve(Vector& b) const {
    Vector x(b.size(), 0.0);
    Vector left = b;
    double worst = largest(left);
    for (int turn = 0; turn < most_turns; ++turn) {
      if (!reduce(left)) return false;
      Vector next = x;
      for (std::size_t i = 0; i < x.size(); ++i) next[i] += left[i];
      left = residual(b, next);
      const double now = largest(left);
      if (turn > 0 && !(now < worst)) break;
      x = std::move(next);
      worst = now;
    }
    b = std::move(x);
    return true;
  }

 private:
  static constexpr int most_turns = 3;
  static constexpr double small = 1e-2;

  [[nodiscard]] const Vector& row(std::size_t k) const {
    return k < squares_.size() ? squares_[k] : equations_[k - squares_.size()];
  }

  [[nodiscard]] bool reduce(Vector& b) const {
    const std::size_t n = own_.size();
    const std::size_t split = kept_.size();
    const std::size_t few = squares_.size() + equations_.size();
    Vector x(split + few, 0.0);
    for (std::size_t i = 0; i < split; ++i) x[i] = b[kept_[i]];
    for (std::size_t k = 0; k < few; ++k) {
      if (k >= squares_.size()) x[split + k] = b[n + k - squares_.size()];
      for (const std::size_t i : gone_) x[split + k] -= row(k)[i] / own_[i] * b[i];
    }
    if (!eliminate(reduced_, x)) return false;
    for (std::size_t i = 0; i < split; ++i) b[kept_[i]] = x[i];
    for (const std::size_t i : gone_) {
      for (std::size_t k = 0; k < few; ++k) b[i] -= row(k)[i] * x[split + k];
      b[i] /= own_[i];
    }
    for (std::size_t k = 0; k < equations_.size(); ++k) {
      b[n + k] = -x[split + squares_.size() + k];
    }
    return true;
  }

  [[nodiscard]] Vector residual(const Vector& b, const Vector& x) const {
    const std::size_t n = own_.size();
    Vector left = b;
    for (std::size_t i = 0; i < n; ++i) left[i] -= own_[i] * x[i];
    for (const Vector& g : squares_) {
      double sum = 0.0;
      for (std::size_t i = 0; i < n; ++i) sum += g[i] * x[i];
      for (std::size_t i = 0; i < n; ++i) left[i] -= 2.0 * g[i] * sum;
    }
    for (std::size_t k = 0; k < equations_.size(); ++k) {
      for (std::size_t i = 0; i < n; ++i) {
        left[i] += equations_[k][i] * x[n + k];
        left[n + k] -= equations_[k][i] * x[i];
      }
    }
    return left;
  }

  const Vector& own_;
  const Matrix& squares_;
  const Matrix& equations_;
  std::vector<std::size_t> kept_, gone_;
  Matrix reduced_;
};

class Interior {
 public:
  explicit Interior(const BoxProgramme& p) : p_(p), n_(p.size.size()), equations_{p.size} {
    sums_ = {p.total};
    if (p.balance.empty()) return;
    equations_.push_back(p.balance);
    for (double& x : equations_.back()) x /= largest(p.balance);
    sums_.push_back(0.0);
  }

  BoxSolution solve() {
    begin();
    int iterations = 0;
    while (iterations < most_iterations && !done()) {
      ++iterations;
      step();
    }
    polish();
    BoxSolution solution{std::move(at_.h), at_.prices.front(), residual_, iterations};
    for (double& h : solution.share) h = std::clamp(h, 0.0, 1.0);
    if (!(solution.residual <= 1e-7)) {
      throw base::NotConverged(
          "the best allotment",
          fmt::format("{} jars, {} turns, optimality conditions met to {:.2g}", n_, iterations,
                      solution.residual));
    }
    return solution;
  }

 private:
  // Feasible, and with prices of the bounds that take up the slope; so it stays to the end. A
  // point that is not can be left behind at a bound.
  void begin() {
    const double whole = dot(p_.size, Vector(n_, 1.0));
    at_.h = p_.start.empty() ? Vector(n_, p_.total / whole) : p_.start;
    const Vector d = slope(at_.h);
    // What a change of one share can cost: the size that prices have.
    scale_ = std::max(largest(d), largest(p_.size) * 1e-3);
    for (std::size_t i = 0; i < n_; ++i) {
      at_.low.push_back(std::max(d[i], 0.0) + scale_);
      at_.high.push_back(std::max(-d[i], 0.0) + scale_);
    }
    at_.prices.assign(equations_.size(), 0.0);
    evenness_ = std::min(1e-4, 0.1 * evenness(at_));
  }

  [[nodiscard]] Vector slope(const Vector& h) const {
    Vector s = p_.linear.empty() ? Vector(n_, 0.0) : p_.linear;
    for (const Vector& g : p_.squares) {
      const double twice = 2.0 * dot(g, h);
      for (std::size_t i = 0; i < n_; ++i) s[i] += twice * g[i];
    }
    for (std::size_t i = 0; i < n_; ++i) s[i] += 2.0 * tie * p_.size[i] * h[i];
    return s;
  }

  // What is left of the conditions of optimality, and the mean product of bound and price.
  void measure() {
    dual_ = slope(at_.h);
    double products = 0.0;
    for (std::size_t i = 0; i < n_; ++i) {
      dual_[i] += at_.high[i] - at_.low[i];
      for (std::size_t k = 0; k < equations_.size(); ++k)
        dual_[i] -= at_.prices[k] * equations_[k][i];
      products += at_.low[i] * at_.h[i] + at_.high[i] * (1.0 - at_.h[i]);
    }
    mean_ = products / static_cast<double>(2 * n_);
    left_.clear();
    for (std::size_t k = 0; k < equations_.size(); ++k)
      left_.push_back(dot(equations_[k], at_.h) - sums_[k]);
    residual_ = std::max({largest(dual_) / scale_, largest(left_) / p_.total, mean_ / scale_});
  }

  bool done() {
    measure();
    return residual_ <= 1e-12;
  }

  // Newton's step towards the product `target` of every bound and its price.
  [[nodiscard]] State towards(double target) const {
    Vector b(n_ + equations_.size(), 0.0);
    Vector own(n_);
    State d{Vector(n_), Vector(n_), Vector(n_), Vector(equations_.size())};
    Vector low(n_), high(n_);
    for (std::size_t i = 0; i < n_; ++i) {
      const double room = 1.0 - at_.h[i];
      low[i] = target - at_.low[i] * at_.h[i];
      high[i] = target - at_.high[i] * room;
      own[i] = 2.0 * tie * p_.size[i] + at_.low[i] / at_.h[i] + at_.high[i] / room;
      b[i] = -dual_[i] + low[i] / at_.h[i] - high[i] / room;
    }
    for (std::size_t k = 0; k < equations_.size(); ++k) b[n_ + k] = -left_[k];
    if (!NewtonSystem(own, p_.squares, equations_).solve(b)) std::fill(b.begin(), b.end(), 0.0);
    for (std::size_t i = 0; i < n_; ++i) {
      d.h[i] = b[i];
      d.low[i] = (low[i] - at_.low[i] * d.h[i]) / at_.h[i];
      d.high[i] = (high[i] + at_.high[i] * d.h[i]) / (1.0 - at_.h[i]);
    }
    for (std::size_t k = 0; k < equations_.size(); ++k) d.prices[k] = b[n_ + k];
    return d;
  }

  // The longest step, at most a whole one, that keeps everything above zero.
  [[nodiscard]] double longest(const State& d) const {
    double step = 1.0;
    const auto keep = [&](double value, double change) {
      if (change < 0.0) step = std::min(step, -value / change);
    };
    for (std::size_t i = 0; i < n_; ++i) {
      keep(at_.h[i], d.h[i]);
      keep(1.0 - at_.h[i], -d.h[i]);
      keep(at_.low[i], d.low[i]);
      keep(at_.high[i], d.high[i]);
    }
    return step;
  }

  // The least product of a bound and its price, against the mean.
  [[nodiscard]] double evenness(const State& at) const {
    double least = at.low.front() * at.h.front();
    double sum = 0.0;
    for (std::size_t i = 0; i < n_; ++i) {
      const double low = at.low[i] * at.h[i];
      const double high = at.high[i] * (1.0 - at.h[i]);
      least = std::min({least, low, high});
      sum += low + high;
    }
    return least / (sum / static_cast<double>(2 * n_));
  }

  // Towards a tenth of the mean product, as far as no product falls far behind the others: what
  // lags behind is what jams at a bound.
  void step() {
    const State d = towards(0.1 * mean_);
    double by = std::min(1.0, 0.995 * longest(d));
    State next;
    for (int tries = 0; tries < 60; ++tries, by *= 0.7) {
      next = moved(d, by);
      if (evenness(next) >= evenness_) break;
    }
    at_ = std::move(next);
    // A share that has reached its bound in the last digit would divide by zero.
    for (double& h : at_.h) h = std::clamp(h, 1e-300, 1.0 - 1e-16);
  }

  [[nodiscard]] State moved(const State& d, double by) const {
    State next = at_;
    const auto move = [by](Vector& value, const Vector& change) {
      for (std::size_t i = 0; i < value.size(); ++i) value[i] += by * change[i];
    };
    move(next.h, d.h);
    move(next.low, d.low);
    move(next.high, d.high);
    move(next.prices, d.prices);
    return next;
  }

  // The exact optimum with the jars that are neither empty nor full as they are now; kept where
  // it is one.
  void polish() {
    measure();
    std::vector<std::size_t> split;
    State better = at_;
    for (std::size_t i = 0; i < n_; ++i) {
      const bool empty = at_.h[i] * scale_ < at_.low[i];
      const bool full = (1.0 - at_.h[i]) * scale_ < at_.high[i];
      better.h[i] = full && !empty ? 1.0 : 0.0;
      if (!empty && !full) split.push_back(i);
    }
    if (split.size() < equations_.size()) return;
    const std::size_t all = split.size() + equations_.size();
    Matrix a(all, Vector(all, 0.0));
    Vector b(all, 0.0);
    const Vector fixed = slope(better.h);
    for (std::size_t i = 0; i < split.size(); ++i) {
      for (std::size_t j = 0; j < split.size(); ++j) {
        for (const Vector& g : p_.squares) a[i][j] += 2.0 * g[split[i]] * g[split[j]];
      }
      a[i][i] += 2.0 * tie * p_.size[split[i]];
      b[i] = -fixed[split[i]];
    }
    for (std::size_t k = 0; k < equations_.size(); ++k) {
      const std::size_t at = split.size() + k;
      for (std::size_t i = 0; i < split.size(); ++i) {
        a[at][i] = equations_[k][split[i]];
        a[i][at] = -equations_[k][split[i]];
      }
      b[at] = sums_[k] - dot(equations_[k], better.h);
    }
    if (!eliminate(std::move(a), b)) return;
    for (std::size_t i = 0; i < split.size(); ++i) {
      if (!(b[i] >= -1e-12 && b[i] <= 1.0 + 1e-12)) return;
      better.h[split[i]] = std::clamp(b[i], 0.0, 1.0);
    }
    std::copy_n(b.begin() + static_cast<std::ptrdiff_t>(split.size()), equations_.size(),
                better.prices.begin());
    std::fill(better.low.begin(), better.low.end(), 0.0);
    std::fill(better.high.begin(), better.high.end(), 0.0);
    std::swap(at_, better);
    const double before = residual_;
    measure();
    // Bounds take up what is left of the slope, each with its own sign only.
    for (std::size_t i = 0; i < n_; ++i) {
      if (at_.h[i] <= 0.0) at_.low[i] = std::max(0.0, dual_[i]);
      if (at_.h[i] >= 1.0) at_.high[i] = std::max(0.0, -dual_[i]);
    }
    measure();
    if (residual_ <= std::max(before, 1e-10)) return;
    std::swap(at_, better);
    residual_ = before;
  }

  const BoxProgramme& p_;
  std::size_t n_;
  Matrix equations_;
  Vector sums_;
  State at_;
  Vector dual_, left_;
  double mean_ = 0.0;
  double evenness_ = 0.0;
  double residual_ = 0.0;
  double scale_ = 1.0;
};

}  // namespace

BoxSolution solve(const BoxProgramme& programme) { return Interior(programme).solve(); }

}  // namespace lynearm::still
