#include "still/boil.hpp"

#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "base/error.hpp"

namespace lynearm::still {
namespace {

// Moles back for each that leaves, when all but all runs back.
constexpr double all_back = 1e4;

void refuse_unless(bool good, const char* field, const std::string& value,
                   const char* accepted) {
  if (!good) throw base::InputError(field, value, accepted);
}

const Head& checked(const Head& head) {
  if (head.fixed_reflux) {
    const double r = head.fixed_reflux->fraction();
    refuse_unless(r >= 0.0 && r <= 0.9, "run.head_reflux", fmt::format("{:.4g} %", 100.0 * r),
                  "0 to 90 %");
  }
  refuse_unless(head.plates >= 0 && head.plates <= most_plates, "head.plates",
                fmt::format("{}", head.plates), "0 to 12");
  const double e = head.plate_efficiency.fraction();
  refuse_unless(e > 0.0 && e <= 1.0, "head.plate_efficiency",
                fmt::format("{:.4g} %", 100.0 * e), "above 0, to 100 %");
  refuse_unless(head.loss.watts_per_kelvin() >= 0.0 && head.loss.watts_per_kelvin() <= 1e4,
                "head.loss", fmt::format("{:.4g} W/K", head.loss.watts_per_kelvin()),
                "0 to 10000 W/K");
  refuse_unless(head.cooling.watts() >= 0.0 && head.cooling.watts() <= 1e6, "head.cooling",
                fmt::format("{:.4g} W", head.cooling.watts()), "0 W or more");
  return head;
}

}  // namespace

BoilingPot::BoilingPot(const vapour::BoilingCurve& curve, const Head& head,
                       units::Temperature ambient, double warmed_J_per_K)
    : curve_(curve),
      head_(checked(head)),
      ambient_K_(ambient.kelvins()),
      warmed_J_per_K_(warmed_J_per_K),
      rectifier_(curve, head.plates, head.plate_efficiency) {}

double BoilingPot::given_off_W(double head_K) const {
  return std::fmax(head_.loss.watts_per_kelvin() * (head_K - ambient_K_), 0.0) +
         head_.cooling.watts();
}

double BoilingPot::passing_K(double x) const {
  const auto liquid = units::MoleFraction::fraction(x);
  const vapour::Boiling pot = curve_.at(liquid);
  const double share =
      head_.fixed_reflux ? head_.fixed_reflux->fraction() : all_back / (1.0 + all_back);
  return rectifier_.pass(x, pot, share, x).top.temperature.kelvins();
}

Boil BoilingPot::at(double n_mol, double x, double net_W, Guess& guess) const {
  Boil boil;
  boil.pot = curve_.along(units::MoleFraction::fraction(x));
  const vapour::Boiling& pot = boil.pot.here;
  const double rising_J = pot.vapour_enthalpy.joules_per_mole();
  const double pot_J = pot.liquid_enthalpy.joules_per_mole();
  const double along_J = boil.pot.liquid_enthalpy_slope_J_per_mol +
                         warmed_J_per_K_ * boil.pot.temperature_slope_K / n_mol;
  if (guess.top_x < 0.0) guess.top_x = x;

  // s = r / (1 - r): moles back for each mole that leaves. For an s, the heat for a mole that
  // leaves is a + s b, and the head takes `taken_J` of it.
  double a = 0.0, b = 0.0, taken_J = 0.0;
  const auto look = [&](double s) {
    boil.share = s / (1.0 + s);
    boil.passage = rectifier_.pass(x, pot, boil.share, guess.top_x);
    guess.top_x = boil.passage.top_x;
    const double back_J =
        boil.passage.back_x == boil.passage.top_x
            ? boil.passage.top.liquid_enthalpy.joules_per_mole()
            : curve_.liquid_enthalpy(units::MoleFraction::fraction(boil.passage.back_x))
                  .joules_per_mole();
    a = rising_J - pot_J - (boil.passage.leaving_y - x) * along_J;
    b = rising_J - back_J;
    taken_J = rising_J - boil.passage.top.vapour_enthalpy.joules_per_mole() + s * b;
    boil.on_mol_s = net_W / (a + s * b);
    boil.head_W = boil.on_mol_s * taken_J;
  };

  if (head_.fixed_reflux) {
    const double r = head_.fixed_reflux->fraction();
    look(r / (1.0 - r));
    boil.stalled = !(net_W > 0.0);
    return boil;
  }
  if (given_off_W(pot.temperature.kelvins()) <= 0.0) {
    look(0.0);
    boil.stalled = !(net_W > 0.0);
    return boil;
  }
  // D taken = what the head gives off: s to give it, a and b and the heat of condensing taken
  // as they are at the s before. They move little with s, so a few turns settle it; the secant
  // of successive turns makes them fewer.
  double s = guess.reflux_over_leaving > 0.0 ? guess.reflux_over_leaving : 0.05;
  double before_s = 0.0, before_off = 0.0;
  // Too little runs back at `low`, and not too little at `high`: a bracket for when the turns
  // do not close in by themselves, as with plates near the fire that no longer drives them.
  double low = 0.0, high = std::numeric_limits<double>::infinity();
  constexpr int most_turns = 120;
  for (int turn = 0;; ++turn) {
    look(s);
    const double give_W = given_off_W(boil.passage.top.temperature.kelvins());
    const double condensing_J = taken_J / s;
    const double room_W = net_W * condensing_J - give_W * b;
    double wanted = std::numeric_limits<double>::infinity();
    if (room_W > 0.0) {
      const double next = give_W * a / room_W;
      const double off = next - s;
      // Near pure water the last digits are the first drop's own; where nearly all runs back, s
      // is a small difference's reciprocal and has as many digits fewer.
      const bool still_closer = before_off == 0.0 || std::abs(off) < std::abs(before_off);
      const double near_enough = (still_closer ? 1e-13 : 1e-10) * (1.0 + s) * (1.0 + 0.01 * s);
      if (std::abs(off) <= near_enough || high <= low * (1.0 + 1e-13)) break;
      (off > 0.0 ? low : high) = s;
      wanted = next;
      if (before_off != 0.0 && off != before_off) {
        const double secant = s - off * (s - before_s) / (off - before_off);
        if (secant > 0.0 && std::abs(secant - next) < std::abs(off)) wanted = secant;
      }
      before_s = s;
      before_off = off;
    } else {
      low = std::fmax(low, s);
      before_s = before_off = 0.0;
    }
    if (low >= all_back) {
      boil.stalled = true;
      boil.on_mol_s = 0.0;
      return boil;
    }
    if (turn == most_turns) {
      throw base::NotConverged(
          "share of the vapour that the head condenses",
          fmt::format("x {:.6g}, {:.6g} W: r/(1-r) between {:.9g} and {:.9g}", x, net_W, low,
                      high));
    }
    if (!(wanted > low && wanted < high)) {
      wanted = std::isinf(high) ? std::fmax(10.0 * s, 1.0)
               : low > 0.0      ? std::sqrt(low * high)
                                : 0.5 * high;
    }
    s = wanted;
  }
  guess.reflux_over_leaving = s;
  return boil;
}

}  // namespace lynearm::still
