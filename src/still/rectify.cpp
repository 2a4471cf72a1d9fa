#include "still/rectify.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "numeric/root.hpp"

namespace lynearm::still {
namespace {

units::MoleFraction fraction(double x) { return units::MoleFraction::fraction(x); }

}  // namespace

Rectifier::Rectifier(const vapour::BoilingCurve& curve, int plates, units::Share efficiency)
    : curve_(curve), plates_(plates), efficiency_(efficiency.fraction()) {}

double Rectifier::rising_for(double top_x, double share, Passage& passage) const {
  const double r = share;
  const double e = efficiency_;
  passage.top_x = top_x;
  passage.leaving_y = curve_.vapour(fraction(top_x)).fraction();
  double rising = (1.0 - r) * passage.leaving_y + r * top_x;
  double x = top_x;
  for (int i = 0; i < plates_; ++i) {
    // Between two stages pass V upward and L = r V downward, D = (1 - r) V in all:
    // y_below = r x + (1 - r) y_D; through the plate y = (1 - e) y_below + e y*(x).
    const double whole = e + (1.0 - e) * r;
    const double met = rising - (1.0 - e) * (1.0 - r) * passage.leaving_y;
    x = curve_
            .first_drop(fraction(std::clamp(met / whole, 0.0, 1.0)),
                        units::Share::fraction((1.0 - e) * r / whole), fraction(x))
            .fraction();
    passage.plate_x[static_cast<std::size_t>(i)] = x;
    rising = (1.0 - r) * passage.leaving_y + r * x;
  }
  passage.back_x = x;
  return rising;
}

Passage Rectifier::pass(double pot_x, const vapour::Boiling& pot, double share,
                        double near_x) const {
  Passage passage;
  if (share == 0.0) {
    // Nothing runs back: the head, and every plate, is the pot over again.
    passage = {pot.vapour.fraction(), pot_x, pot_x, pot, {}};
    passage.plate_x.fill(pot_x);
    return passage;
  }
  if (plates_ == 0) {
    const units::MoleFraction drop =
        curve_.first_drop(pot.vapour, units::Share::fraction(share), fraction(near_x));
    const vapour::Boiling top = curve_.at(drop);
    return {top.vapour.fraction(), drop.fraction(), drop.fraction(), top, {}};
  }
  // The vapour below rises with the drops at the top; the azeotrope is where nothing changes.
  const double wanted = pot.vapour.fraction();
  const auto miss = [&](double x) { return rising_for(x, share, passage) - wanted; };
  const double azeotrope = curve_.azeotrope().fraction();
  double low = std::min(pot_x, azeotrope);
  double high = std::max(pot_x, azeotrope);
  double x = std::clamp(near_x, low, high);
  double off = miss(x);
  constexpr double close = 1e-14;
  if (std::abs(off) > close) {
    double before_x = x;
    double before = off;
    x = std::clamp(x + (x < 0.5 * (low + high) ? 1e-6 : -1e-6), low, high);
    off = miss(x);
    for (int turn = 0; turn < 12 && std::abs(off) > close && off != before; ++turn) {
      const double next = std::clamp(x - off * (x - before_x) / (off - before), low, high);
      // Through many plates the last digit of the top moves the bottom by more than is asked.
      if (std::abs(next - x) <= 4e-16) break;
      before_x = x;
      before = off;
      x = next;
      off = miss(x);
    }
  }
  // At the azeotrope there is no bracket, and nothing to find.
  if (std::abs(off) > 1e-9) {
    off = miss(numeric::root_between(miss, low, high, "plates", {.width = 1e-15}).value);
  }
  base::ensure(std::abs(off) <= 1e-9, "the plates give back the vapour that rises into them");
  passage.top = curve_.at(fraction(passage.top_x));
  return passage;
}

void Rectifier::pass_congeners(const vapour::CongenerCurve& volatility, double pot_x,
                               double share, const Passage& passage,
                               std::span<double, vapour::congener_count> leaving_by_pot) const {
  std::array<double, vapour::congener_count> pot{};
  volatility.at(fraction(pot_x), pot);
  if (share == 0.0) {
    std::copy(pot.begin(), pot.end(), leaving_by_pot.begin());
    return;
  }
  // Traces are linear: take one of each in the leaving vapour and go down, as above.
  const double r = share;
  const double e = efficiency_;
  std::array<double, vapour::congener_count> stage{};
  std::array<double, vapour::congener_count> rising{};
  volatility.at(fraction(passage.top_x), stage);
  for (std::size_t i = 0; i < rising.size(); ++i) rising[i] = (1.0 - r) + r / stage[i];
  for (int plate = 0; plate < plates_; ++plate) {
    volatility.at(fraction(passage.plate_x[static_cast<std::size_t>(plate)]), stage);
    for (std::size_t i = 0; i < rising.size(); ++i) {
      const double x = (rising[i] - (1.0 - e) * (1.0 - r)) / (e * stage[i] + (1.0 - e) * r);
      rising[i] = (1.0 - r) + r * x;
    }
  }
  for (std::size_t i = 0; i < rising.size(); ++i) leaving_by_pot[i] = pot[i] / rising[i];
}

}  // namespace lynearm::still
