#include "numeric/least_squares.hpp"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

#include "base/error.hpp"

namespace lynearm::numeric {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

std::vector<double> to_std(const VectorXd& v) { return {v.data(), v.data() + v.size()}; }

VectorXd to_eigen(const std::vector<double>& v) {
  return Eigen::Map<const VectorXd>(v.data(), static_cast<Index>(v.size()));
}

double width_of(const LeastSquaresControl& control) {
  if (control.loss_width > 0.0) return control.loss_width;
  return control.loss == Loss::huber ? 1.345 : 4.0;
}

// The weight of a squared residual: half the slope of its loss along it, over the residual.
double weight(double r, const LeastSquaresControl& control) {
  const double width = width_of(control);
  switch (control.loss) {
    case Loss::squares:
      return 1.0;
    case Loss::huber:
      return std::abs(r) <= width ? 1.0 : width / std::abs(r);
    case Loss::student:
      return (width + 1.0) / (width + r * r);
  }
  return 1.0;
}

double loss(double r, const LeastSquaresControl& control) {
  const double width = width_of(control);
  switch (control.loss) {
    case Loss::squares:
      return r * r;
    case Loss::huber:
      return std::abs(r) <= width ? r * r : 2.0 * width * std::abs(r) - width * width;
    case Loss::student:
      return (width + 1.0) * std::log1p(r * r / width);
  }
  return r * r;
}

double total_loss(const VectorXd& residuals, const LeastSquaresControl& control) {
  double sum = 0.0;
  for (const double r : residuals) sum += loss(r, control);
  return sum;
}

class Search {
 public:
  Search(const ResidualFunction& residuals, const std::vector<double>& start,
         const std::vector<double>& scale, std::string_view procedure,
         const LeastSquaresControl& control)
      : f_(residuals),
        scale_(to_eigen(scale)),
        procedure_(procedure),
        control_(control),
        place_(to_eigen(start)),
        residuals_(at_start(start)),
        loss_(total_loss(residuals_, control)),
        reach_(VectorXd::Zero(place_.size())) {}

  LeastSquares run() {
    double damping = 1e-3;
    for (iterations_ = 1;; ++iterations_) {
      linearise();
      if (arrived()) return result();
      if (iterations_ >= control_.most_iterations) give_up("after the most iterations");
      double growth = 2.0;
      while (!step(damping)) {
        damping *= growth;
        growth *= 2.0;
        // The step is then below a figure's last digit: nothing more can be had from it.
        if (damping > 1e20) {
          if (step_left_ <= control_.tolerance_when_stalled) return result();
          give_up("no shorter step lowers the sum");
        }
      }
      damping = std::max(damping * std::max(1.0 / 3.0, 1.0 - std::pow(2.0 * gain_ - 1.0, 3.0)),
                         1e-14);
    }
  }

 private:
  VectorXd at_start(const std::vector<double>& start) const {
    VectorXd r = to_eigen(f_(start));
    if (!r.allFinite()) throw base::NotConverged(procedure_, "not finite at the start");
    return r;
  }

  // The residuals at a place, or nothing where it lies too far out.
  std::optional<VectorXd> try_at(const VectorXd& place) const {
    if (!place.allFinite()) return std::nullopt;
    try {
      VectorXd r = to_eigen(f_(to_std(place)));
      base::ensure(r.size() == residuals_.size(), "as many residuals at every call");
      if (r.allFinite()) return r;
    } catch (const base::InputError&) {
    } catch (const base::NotConverged&) {
    }
    return std::nullopt;
  }

  MatrixXd slopes() const {
    const Index rows = residuals_.size();
    const Index columns = place_.size();
    if (control_.slopes) {
      const std::vector<double> given = control_.slopes(to_std(place_));
      base::ensure(static_cast<Index>(given.size()) == rows * columns,
                   "slopes are residuals times parameters");
      return Eigen::Map<
          const Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>>(
          given.data(), rows, columns);
    }
    MatrixXd jacobian(rows, columns);
    for (Index j = 0; j < columns; ++j) {
      VectorXd high = place_;
      VectorXd low = place_;
      high[j] += control_.difference * scale_[j];
      low[j] -= control_.difference * scale_[j];
      const auto above = try_at(high);
      const auto below = try_at(low);
      // At the edge of what the function accepts one side must do.
      if (above && below) {
        jacobian.col(j) = (*above - *below) / (high[j] - low[j]);
      } else if (above) {
        jacobian.col(j) = (*above - residuals_) / (high[j] - place_[j]);
      } else if (below) {
        jacobian.col(j) = (residuals_ - *below) / (place_[j] - low[j]);
      } else {
        (void)f_(to_std(high));  // throws what is in the way
        give_up("not finite on both sides of a place");
      }
    }
    return jacobian;
  }

  void linearise() {
    weights_ = residuals_.unaryExpr([&](double r) { return weight(r, control_); });
    const VectorXd root = weights_.cwiseSqrt();
    jacobian_ = root.asDiagonal() * slopes();
    weighted_ = root.cwiseProduct(residuals_);
    if (!jacobian_.allFinite()) give_up("a slope is not finite");
    // Steps are measured in columns of the greatest length seen, so that a parameter whose
    // effect fades on the way out is not sent further.
    reach_ = reach_.cwiseMax(jacobian_.colwise().norm().transpose());
    const VectorXd length = reach_.unaryExpr([](double n) { return n > 0.0 ? n : 1.0; });
    svd_.compute(jacobian_ * length.cwiseInverse().asDiagonal(),
                 Eigen::ComputeThinU | Eigen::ComputeThinV);
    length_ = length;
    along_ = svd_.matrixU().transpose() * weighted_;
  }

  bool told(Index k) const {
    const VectorXd& singular = svd_.singularValues();
    return singular[k] > control_.rank_tolerance * singular[0] && singular[k] > 0.0;
  }

  bool arrived() {
    const VectorXd& singular = svd_.singularValues();
    double on_way = 0.0;
    int rank = 0;
    VectorXd full = VectorXd::Zero(place_.size());
    for (Index k = 0; k < singular.size(); ++k) {
      if (!told(k)) continue;
      ++rank;
      on_way += along_[k] * along_[k];
      full -= svd_.matrixV().col(k) * (along_[k] / singular[k]);
    }
    full = full.cwiseQuotient(length_);
    const double squares = weighted_.squaredNorm();
    const auto freedom = static_cast<double>(std::max<Index>(1, residuals_.size() - rank));
    const double scatter = std::sqrt(std::max(0.0, squares - on_way) / freedom);
    step_left_ = scatter > 0.0 ? std::sqrt(on_way) / scatter : 0.0;
    // Data without scatter give no uncertainty to measure by: then the last digits count.
    const VectorXd digits = place_.cwiseAbs().cwiseMax(scale_) * 1e-12;
    const bool short_step = (full.cwiseAbs().array() <= digits.array()).all();
    return short_step || (scatter > 0.0 && step_left_ <= control_.tolerance);
  }

  // Tries a damped step; moves there and sets gain_ when it lowers the loss.
  bool step(double damping) {
    const VectorXd& singular = svd_.singularValues();
    const VectorXd shares =
        (singular.array() / (singular.array().square() + damping)) * along_.array();
    const VectorXd move = -(svd_.matrixV() * shares).cwiseQuotient(length_);
    // What the slopes here say is not believed at several times a parameter's size: a flat
    // valley out there would keep the search.
    const VectorXd size = place_.cwiseAbs().cwiseMax(scale_);
    if ((move.cwiseAbs().array() > control_.longest_step * size.array()).any()) return false;
    const VectorXd next = place_ + move;
    if (next == place_) return false;
    const auto residuals = try_at(next);
    if (!residuals) return false;
    const double loss_there = total_loss(*residuals, control_);
    const double expected =
        weighted_.squaredNorm() - (weighted_ + jacobian_ * move).squaredNorm();
    if (!(loss_there < loss_) || !(expected > 0.0)) return false;
    gain_ = std::min(1.0, (loss_ - loss_there) / expected);
    place_ = next;
    residuals_ = *residuals;
    loss_ = loss_there;
    return true;
  }

  [[noreturn]] void give_up(std::string_view why) const {
    throw base::NotConverged(
        procedure_,
        fmt::format("{}; at ({:.6g}) the loss is {:.6g}, {} iterations, step left {:.3g} "
                    "standard uncertainties",
                    why, fmt::join(place_.data(), place_.data() + place_.size(), ", "), loss_,
                    iterations_, step_left_));
  }

  LeastSquares result() const {
    // Rank is judged with the columns as they are here, each of length one.
    const VectorXd length = jacobian_.colwise().norm().transpose().unaryExpr(
        [](double n) { return n > 0.0 ? n : 1.0; });
    const Eigen::JacobiSVD<MatrixXd> svd(jacobian_ * length.cwiseInverse().asDiagonal(),
                                         Eigen::ComputeThinU | Eigen::ComputeThinV);
    const VectorXd& singular = svd.singularValues();
    const Index n = place_.size();
    LeastSquares found;
    MatrixXd inverse = MatrixXd::Zero(n, n);
    VectorXd seen = VectorXd::Zero(n);
    for (Index k = 0; k < singular.size(); ++k) {
      if (!(singular[k] > control_.rank_tolerance * singular[0]) || singular[k] <= 0.0) {
        continue;
      }
      const VectorXd direction = svd.matrixV().col(k);
      inverse += direction * direction.transpose() / (singular[k] * singular[k]);
      seen += direction.cwiseAbs2();
      ++found.rank;
    }
    if (control_.loss == Loss::student) {
      inverse *= (width_of(control_) + 3.0) / (width_of(control_) + 1.0);
    }
    const VectorXd back = length.cwiseInverse();
    inverse = (back.asDiagonal() * inverse * back.asDiagonal()).eval();
    found.value = to_std(place_);
    found.residuals = to_std(residuals_);
    found.weights = to_std(weights_);
    found.sum_of_squares = residuals_.squaredNorm();
    found.covariance.assign(inverse.data(), inverse.data() + inverse.size());  // symmetric
    for (const double share : seen) found.untold.push_back(std::clamp(1.0 - share, 0.0, 1.0));
    found.step_left = step_left_;
    found.iterations = iterations_;
    return found;
  }

  const ResidualFunction& f_;
  VectorXd scale_;
  std::string_view procedure_;
  const LeastSquaresControl& control_;
  VectorXd place_, residuals_;
  double loss_;
  VectorXd reach_, length_;
  VectorXd weights_, weighted_, along_;
  MatrixXd jacobian_;  ///< weighted
  Eigen::JacobiSVD<MatrixXd> svd_;
  double gain_ = 0.0, step_left_ = 0.0;
  int iterations_ = 0;
};

}  // namespace

double LeastSquares::standard(std::size_t i) const {
  return std::sqrt(std::max(0.0, covariance.at(i * value.size() + i)));
}

double LeastSquares::correlation(std::size_t i, std::size_t j) const {
  const double size = standard(i) * standard(j);
  return size > 0.0 ? std::clamp(covariance.at(i * value.size() + j) / size, -1.0, 1.0) : 0.0;
}

LeastSquares least_squares(const ResidualFunction& residuals, const std::vector<double>& start,
                           const std::vector<double>& scale, std::string_view procedure,
                           const LeastSquaresControl& control) {
  base::ensure(!start.empty() && start.size() == scale.size(), "a scale for each parameter");
  base::ensure(std::all_of(scale.begin(), scale.end(), [](double s) { return s > 0.0; }),
               "a scale is above 0");
  return Search(residuals, start, scale, procedure, control).run();
}

}  // namespace lynearm::numeric
