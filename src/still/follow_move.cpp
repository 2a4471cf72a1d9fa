#include "still/follow_move.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/error.hpp"
#include "numeric/ensemble.hpp"

namespace lynearm::still {
namespace {

constexpr double freedom = 8.0;
constexpr double from_prior = 0.05;
constexpr auto d = static_cast<double>(run_constants);
// A little wider than what was found: a thin proposal costs more than a thick one.
constexpr double widen = 1.1;

double log_prior(const Standing& standing) {
  double squared = 0.0;
  for (std::size_t i = 0; i < run_constants; ++i) squared += standing[i] * standing[i];
  return -0.5 * squared;
}

}  // namespace

Proposal::Proposal(const std::vector<Standing>& standings, const std::vector<double>& weights) {
  double sum = 0.0;
  for (std::size_t k = 0; k < standings.size(); ++k) {
    sum += weights[k];
    for (std::size_t i = 0; i < run_constants; ++i) {
      mean_[i] += weights[k] * standings[k][i];
    }
  }
  base::ensure(sum > 0.0, "some possible still has a weight");
  for (double& m : mean_) m /= sum;
  std::array<Part, run_constants> spread{};
  for (std::size_t k = 0; k < standings.size(); ++k) {
    for (std::size_t i = 0; i < run_constants; ++i) {
      for (std::size_t j = 0; j <= i; ++j) {
        spread[i][j] +=
            weights[k] / sum * (standings[k][i] - mean_[i]) * (standings[k][j] - mean_[j]);
      }
    }
  }
  // Of few effective members a direction may look thinner than it is.
  for (std::size_t i = 0; i < run_constants; ++i) spread[i][i] += 1e-4;
  // The covariance of a t is its scale matrix times f / (f - 2).
  const double scale = widen * (freedom - 2.0) / freedom;
  for (std::size_t i = 0; i < run_constants; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double rest = spread[i][j] * scale;
      for (std::size_t k = 0; k < j; ++k) rest -= lower_[i][k] * lower_[j][k];
      lower_[i][j] = i == j ? std::sqrt(std::fmax(rest, 1e-10)) : rest / lower_[j][j];
    }
    log_determinant_ += std::log(lower_[i][i]);
  }
}

void Proposal::draw(std::uint64_t seed, std::uint64_t member, Standing& standing) const {
  numeric::Draw draw(seed, member);
  const bool prior = draw.uniform() < from_prior;
  Part normal{};
  for (double& z : normal) z = draw.normal();
  double chi_squared = 0.0;
  for (int i = 0; i < static_cast<int>(freedom) / 2; ++i) {
    chi_squared -= 2.0 * std::log(draw.uniform());
  }
  const double stretch = std::sqrt(freedom / chi_squared);
  for (std::size_t i = 0; i < run_constants; ++i) {
    standing[i] = prior ? normal[i] : mean_[i];
    for (std::size_t j = 0; !prior && j <= i; ++j) {
      standing[i] += lower_[i][j] * normal[j] * stretch;
    }
  }
}

double Proposal::log_prior_over(const Standing& standing) const {
  Part solved{};
  double squared = 0.0;
  for (std::size_t i = 0; i < run_constants; ++i) {
    double rest = standing[i] - mean_[i];
    for (std::size_t j = 0; j < i; ++j) rest -= lower_[i][j] * solved[j];
    solved[i] = rest / lower_[i][i];
    squared += solved[i] * solved[i];
  }
  // Over (2 pi)^(-d/2): Gamma((f + d)/2) / Gamma(f/2) (f/2)^(-d/2).
  const double log_t = std::lgamma(0.5 * (freedom + d)) - std::lgamma(0.5 * freedom) -
                       0.5 * d * std::log(0.5 * freedom) - log_determinant_ -
                       0.5 * (freedom + d) * std::log1p(squared / freedom);
  const double log_p = log_prior(standing);
  const double top = std::fmax(log_t, log_p);
  return log_p - top -
         std::log((1.0 - from_prior) * std::exp(log_t - top) +
                  from_prior * std::exp(log_p - top));
}

Standing draw_prior(std::uint64_t seed, std::uint64_t member) {
  numeric::Draw draw(seed, member);
  Standing drawn{};
  for (double& z : drawn) z = draw.normal();
  return drawn;
}

double effective_size(const std::vector<double>& weights) {
  double sum = 0.0, squares = 0.0;
  for (const double w : weights) {
    sum += w;
    squares += w * w;
  }
  return squares > 0.0 ? sum * sum / squares : 0.0;
}

std::vector<double> weights_of(const std::vector<double>& logs, double power) {
  const double top = *std::max_element(logs.begin(), logs.end());
  base::ensure(std::isfinite(top), "some possible still can be run");
  std::vector<double> weights(logs.size());
  double sum = 0.0;
  for (std::size_t k = 0; k < logs.size(); ++k) {
    weights[k] = std::isinf(logs[k]) ? 0.0 : std::exp(power * (logs[k] - top));
    sum += weights[k];
  }
  for (double& w : weights) w /= sum;
  return weights;
}

double tempering(const std::vector<double>& logs, double wanted) {
  if (effective_size(weights_of(logs)) >= wanted) return 1.0;
  double low = 0.0, high = 1.0;
  for (int i = 0; i < 30; ++i) {
    const double middle = 0.5 * (low + high);
    (effective_size(weights_of(logs, middle)) >= wanted ? low : high) = middle;
  }
  return low;
}

}  // namespace lynearm::still
