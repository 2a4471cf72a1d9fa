// The shelf as a programme: its rows, its limits, and what its optima say of the next drop.
#include <algorithm>
#include <cmath>

#include "spirit/strength.hpp"
#include "still/shelf.hpp"
#include "still/yardstick.hpp"

namespace lynearm::still {
namespace {

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

double square_sum(const BoxProgramme& programme, const std::vector<double>& shares) {
  double sum = 0.0;
  for (const auto& row : programme.squares) sum += dot(row, shares) * dot(row, shares);
  return sum;
}

}  // namespace

double Shelf::most() const { return dot(programme_.size, fullest_); }

void Shelf::lay_out() {
  const Weights& w = wishes_.weights;
  const double weights[] = {w.strength, w.early, w.late};
  programme_.squares.assign(3, {});
  for (std::size_t k = 0; k < open_.size(); ++k) {
    const Jar& jar = jars_[open_[k]];
    const units::Volume alcohol = spirit::pure_alcohol(lots_[k]);
    const double size = alcohol.litres() / alcohol_L_;
    const AgainstYardstick c =
        against_yardstick(lots_[k].water, jar.early->mass, jar.late->mass, alcohol, yardstick_);
    const double loads[] = {c.water, c.early, c.late};
    programme_.size.push_back(size);
    fault_.push_back(w.fault * jar.fault / yardstick_fault * size);
    for (std::size_t g = 0; g < 3; ++g)
      programme_.squares[g].push_back(std::sqrt(weights[g]) * loads[g] * size);
  }
  add_limit(wishes_.hearts_at_least, 1.0);
  add_limit(wishes_.hearts_at_most, -1.0);
  fullest_.assign(open_.size(), 1.0);
  if (const Shares* broken = broken_by(fullest_)) fullest_ = fullest_on(*broken);
}

// A row that is above zero within the limit.
void Shelf::add_limit(const std::optional<units::VolumeStrength>& limit, double sign) {
  if (!limit) return;
  const double p = spirit::mass_fraction(*limit).fraction();
  Shares row;
  for (const spirit::Lot& lot : lots_)
    row.push_back(sign * (lot.ethanol.kilograms() - p * lot.mass().kilograms()));
  limits_.push_back(std::move(row));
}

// The limit that shares break, or nothing. Never both: they lie on opposite sides.
const Shelf::Shares* Shelf::broken_by(const Shares& shares) const {
  for (const auto& row : limits_) {
    double size = 0.0;
    for (std::size_t i = 0; i < row.size(); ++i) size += std::abs(row[i]) * shares[i];
    if (dot(row, shares) < -1e-12 * size) return &row;
  }
  return nullptr;
}

// The most alcohol on a limit: every jar that is within it, and of the others, from the one
// that brings the most alcohol for what it breaks, as much as the first make good.
Shelf::Shares Shelf::fullest_on(const Shares& row) const {
  Shares shares(row.size(), 1.0);
  std::vector<std::size_t> breaking;
  double to_spare = 0.0;
  for (std::size_t i = 0; i < row.size(); ++i) {
    if (row[i] >= 0.0) {
      to_spare += row[i];
    } else {
      breaking.push_back(i);
    }
  }
  std::sort(breaking.begin(), breaking.end(), [&](std::size_t a, std::size_t b) {
    return programme_.size[a] * row[b] < programme_.size[b] * row[a];
  });
  for (const std::size_t i : breaking) {
    shares[i] = std::clamp(to_spare / -row[i], 0.0, 1.0);
    to_spare -= shares[i] * -row[i];
  }
  return shares;
}

// Shares on a limit with an alcohol of one, each above zero and perhaps above a whole jar:
// one share of all jars within the limit, another of all that break it.
Shelf::Shares Shelf::level(const Shares& row) const {
  double within = 0.0;
  double beyond = 0.0;
  for (const double x : row) (x >= 0.0 ? within : beyond) += std::abs(x);
  Shares shares;
  for (const double x : row) shares.push_back(x >= 0.0 ? beyond : within);
  const double alcohol = dot(programme_.size, shares);
  for (double& h : shares) h /= alcohol;
  return shares;
}

// Shares on a limit with so much alcohol, each above zero and below a whole jar.
Shelf::Shares Shelf::inside(const Shares& row, double alcohol) const {
  Shares shares = fullest_on(row);
  const double most = dot(programme_.size, shares);
  const Shares even = level(row);
  double part = 0.5;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    shares[i] *= alcohol / most;
    part = std::min(part, 0.5 * (1.0 - shares[i]) / (even[i] * alcohol));
  }
  for (std::size_t i = 0; i < shares.size(); ++i)
    shares[i] += part * (even[i] * alcohol - shares[i]);
  return shares;
}

// The shares of least load with so much of the alcohol.
BoxSolution Shelf::with(double share) const {
  if (share >= most() * (1.0 - 1e-9)) return {fullest_, 0.0, 0.0, 0};
  BoxProgramme programme = programme_;
  programme.total = share;
  for (const double cost : fault_) programme.linear.push_back(share * cost);
  BoxSolution free = solve(programme);
  const Shares* broken = broken_by(free.share);
  if (broken == nullptr) return free;
  // Between the free optimum and anything within the limits lies the limit that it breaks, so
  // the optimum lies on it; the other limit then holds by itself.
  programme.balance = *broken;
  programme.start = inside(*broken, share);
  return solve(programme);
}

double Shelf::least_deduction() const {
  BoxProgramme clean = programme_;
  clean.linear = fault_;
  clean.size.assign(open_.size(), 1.0);
  clean.total = 1.0;
  for (std::size_t i = 0; i < open_.size(); ++i) {
    for (auto& row : clean.squares) row[i] /= programme_.size[i];
    clean.linear[i] /= programme_.size[i];
  }
  const auto cost = [&](const Shares& shares) {
    return square_sum(clean, shares) + dot(clean.linear, shares);
  };
  if (open_.size() == 1) return cost({1.0});
  Shares of_alcohol = solve(clean).share;
  Shares shares = of_alcohol;
  for (std::size_t i = 0; i < shares.size(); ++i) shares[i] /= programme_.size[i];
  if (const Shares* broken = broken_by(shares)) {
    clean.balance = *broken;
    clean.start = level(*broken);
    for (std::size_t i = 0; i < shares.size(); ++i) {
      clean.balance[i] /= programme_.size[i];
      clean.start[i] *= programme_.size[i];
    }
    of_alcohol = solve(clean).share;
  }
  return cost(of_alcohol);
}

// d(deduction times alcohol)/d(alcohol) at the least load: the price of the next drop. What
// the faults cost is in proportion to the shares, and falls out.
double Shelf::price(double share) const {
  const BoxSolution least = with(share);
  return least.price / share - square_sum(programme_, least.share) / (share * share);
}

double Shelf::price_at_most() const { return price(most() * (1.0 - 1e-6)); }

}  // namespace lynearm::still
