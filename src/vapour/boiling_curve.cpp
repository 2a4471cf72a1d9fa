#include "vapour/boiling_curve.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "vapour/enthalpy.hpp"
#include "vapour/equilibrium.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

constexpr int intervals = 256;
// The steep end: the vapour over dilute wash changes within x of about 0.1.
constexpr double spread = 0.3;

double stretched(double x) { return (1.0 + spread) * x / (x + spread); }
double unstretched(double s) { return spread * s / (1.0 + spread - s); }

}  // namespace

BoilingCurve::BoilingCurve(units::Pressure p) : pressure_(p) {
  require_in_range(p, "pressure");
  azeotrope_ = vapour::azeotrope(p).ethanol;
  nodes_.resize(intervals + 1);
  for (int i = 0; i <= intervals; ++i) {
    const double x = i == intervals ? 1.0 : unstretched(static_cast<double>(i) / intervals);
    const kernel::Boil boil = boil_at(x, i);
    const auto liquid = units::MoleFraction::fraction(x);
    const auto t = units::Temperature::kelvins(boil.t_K);
    Node& node = nodes_[static_cast<std::size_t>(i)];
    node.temperature_K.value = boil.t_K;
    node.vapour.value = boil.vapour;
    node.liquid_J_per_mol.value = vapour::liquid_enthalpy(liquid, t).joules_per_mole();
    node.vapour_J_per_mol.value =
        vapour::vapour_enthalpy(units::MoleFraction::fraction(boil.vapour), t)
            .joules_per_mole();
  }
  // Fourth-order differences of the nodes themselves; one-sided ones at the ends.
  const auto set_slopes = [&](Column Node::*column) {
    const auto v = [&](int i) { return (nodes_[static_cast<std::size_t>(i)].*column).value; };
    constexpr int n = intervals;
    for (int i = 0; i <= n; ++i) {
      double slope = 0.0;
      if (i == 0) {
        slope = (-25.0 * v(0) + 48.0 * v(1) - 36.0 * v(2) + 16.0 * v(3) - 3.0 * v(4)) / 12.0;
      } else if (i == 1) {
        slope = (-3.0 * v(0) - 10.0 * v(1) + 18.0 * v(2) - 6.0 * v(3) + v(4)) / 12.0;
      } else if (i == n - 1) {
        slope =
            (3.0 * v(n) + 10.0 * v(n - 1) - 18.0 * v(n - 2) + 6.0 * v(n - 3) - v(n - 4)) / 12.0;
      } else if (i == n) {
        slope = (25.0 * v(n) - 48.0 * v(n - 1) + 36.0 * v(n - 2) - 16.0 * v(n - 3) +
                 3.0 * v(n - 4)) /
                12.0;
      } else {
        slope = (v(i - 2) - 8.0 * v(i - 1) + 8.0 * v(i + 1) - v(i + 2)) / 12.0;
      }
      (nodes_[static_cast<std::size_t>(i)].*column).slope = slope;
    }
  };
  set_slopes(&Node::temperature_K);
  set_slopes(&Node::vapour);
  set_slopes(&Node::liquid_J_per_mol);
  set_slopes(&Node::vapour_J_per_mol);
}

// The next node, started from the parabola through the last three.
kernel::Boil BoilingCurve::boil_at(double x, int i) const {
  const double pressure_Pa = pressure_.pascals();
  const auto before = [&](int back) {
    return nodes_[static_cast<std::size_t>(i - back)].temperature_K.value;
  };
  const kernel::Boil boil = i < 3
                                ? kernel::boil(house_nrtl, x, pressure_Pa)
                                : kernel::boil_near(house_nrtl, x, pressure_Pa,
                                                    3.0 * (before(1) - before(2)) + before(3));
  if (!(std::abs(boil.residual) < kernel::boil_residual)) {
    throw base::NotConverged(
        "boiling curve", fmt::format("x {:.9g} at {:.6g} kPa: residual {:.3g} at {:.9g} K", x,
                                     pressure_.kilopascals(), boil.residual, boil.t_K));
  }
  return boil;
}

BoilingCurve::Place BoilingCurve::place(units::MoleFraction liquid) const {
  const double x = liquid.fraction();
  if (!(x >= 0.0 && x <= 1.0)) {
    base::ensure(false, fmt::format("a mole fraction of {:.9g} lies between 0 and 1", x));
  }
  const double along = stretched(x) * intervals;
  const int i = std::min(static_cast<int>(along), intervals - 1);
  const double below = x + spread;
  return {&nodes_[static_cast<std::size_t>(i)], along - i,
          intervals * (1.0 + spread) * spread / (below * below)};
}

double BoilingCurve::value(const Place& at, Column Node::*column) {
  const Column& a = at.left[0].*column;
  const Column& b = at.left[1].*column;
  const double t = at.t;
  const double s = 1.0 - t;
  return s * s * ((1.0 + 2.0 * t) * a.value + t * a.slope) +
         t * t * ((1.0 + 2.0 * s) * b.value - s * b.slope);
}

double BoilingCurve::slope(const Place& at, Column Node::*column) {
  const Column& a = at.left[0].*column;
  const Column& b = at.left[1].*column;
  const double t = at.t;
  const double s = 1.0 - t;
  return (6.0 * t * s * (b.value - a.value) + s * (1.0 - 3.0 * t) * a.slope +
          t * (1.0 - 3.0 * s) * b.slope) *
         at.t_by_x;
}

Boiling BoilingCurve::at(units::MoleFraction liquid) const {
  const Place here = place(liquid);
  return {units::Temperature::kelvins(value(here, &Node::temperature_K)),
          units::MoleFraction::fraction(value(here, &Node::vapour)),
          MolarEnthalpy::joules_per_mole(value(here, &Node::liquid_J_per_mol)),
          MolarEnthalpy::joules_per_mole(value(here, &Node::vapour_J_per_mol))};
}

BoilingAlong BoilingCurve::along(units::MoleFraction liquid) const {
  const Place here = place(liquid);
  return {{units::Temperature::kelvins(value(here, &Node::temperature_K)),
           units::MoleFraction::fraction(value(here, &Node::vapour)),
           MolarEnthalpy::joules_per_mole(value(here, &Node::liquid_J_per_mol)),
           MolarEnthalpy::joules_per_mole(value(here, &Node::vapour_J_per_mol))},
          slope(here, &Node::temperature_K),
          slope(here, &Node::vapour),
          slope(here, &Node::liquid_J_per_mol)};
}

units::Temperature BoilingCurve::temperature(units::MoleFraction liquid) const {
  return units::Temperature::kelvins(value(place(liquid), &Node::temperature_K));
}

units::MoleFraction BoilingCurve::vapour(units::MoleFraction liquid) const {
  return units::MoleFraction::fraction(value(place(liquid), &Node::vapour));
}

double BoilingCurve::vapour_slope(units::MoleFraction liquid) const {
  return slope(place(liquid), &Node::vapour);
}

MolarEnthalpy BoilingCurve::liquid_enthalpy(units::MoleFraction liquid) const {
  return MolarEnthalpy::joules_per_mole(value(place(liquid), &Node::liquid_J_per_mol));
}

MolarEnthalpy BoilingCurve::liquid_enthalpy_slope(units::MoleFraction liquid) const {
  return MolarEnthalpy::joules_per_mole(slope(place(liquid), &Node::liquid_J_per_mol));
}

MolarEnthalpy BoilingCurve::vapour_enthalpy(units::MoleFraction liquid) const {
  return MolarEnthalpy::joules_per_mole(value(place(liquid), &Node::vapour_J_per_mol));
}

units::MoleFraction BoilingCurve::liquid_under(units::MoleFraction vapour) const {
  return first_drop(vapour, units::Share::fraction(0.0), vapour * 0.5);
}

units::Temperature BoilingCurve::dew_temperature(units::MoleFraction vapour) const {
  return temperature(liquid_under(vapour));
}

units::MoleFraction BoilingCurve::first_drop(units::MoleFraction rising, units::Share share,
                                             units::MoleFraction near) const {
  const double y = rising.fraction();
  const double r = share.fraction();
  base::ensure(y >= 0.0 && y <= 1.0 && r >= 0.0 && r <= 1.0,
               "a rising vapour and its condensed share lie between 0 and 1");
  // The left side rises with x from 0 to 1, so [0, 1] brackets the root; Newton inside it.
  double low = 0.0;
  double high = 1.0;
  double x = std::clamp(near.fraction(), low, high);
  double miss = 0.0;
  for (int turn = 0; turn < 100; ++turn) {
    const Place here = place(units::MoleFraction::fraction(x));
    miss = (1.0 - r) * value(here, &Node::vapour) + r * x - y;
    if (std::abs(miss) < 1e-15) break;
    (miss > 0.0 ? high : low) = x;
    const double next = x - miss / ((1.0 - r) * slope(here, &Node::vapour) + r);
    const double kept = next > low && next < high ? next : 0.5 * (low + high);
    const double moved = std::abs(kept - x);
    x = kept;
    if (moved < 1e-15 + 1e-14 * x) break;
    // Newton doubles the digits: after so small a move the next would change nothing.
    if (kept == next && moved < 1e-9 * x) break;
  }
  const double left =
      (1.0 - r) * value(place(units::MoleFraction::fraction(x)), &Node::vapour) + r * x - y;
  if (!(std::abs(left) < 1e-13)) {
    throw base::NotConverged("first drop", fmt::format("rising {:.9g}, share {:.6g}: bracket "
                                                       "[{:.12g}, {:.12g}], residual {:.3g}",
                                                       y, r, low, high, left));
  }
  return units::MoleFraction::fraction(x);
}

}  // namespace lynearm::vapour
