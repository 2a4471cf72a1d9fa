#include "still/exchange.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "still/condenser.hpp"
#include "vapour/enthalpy.hpp"

namespace lynearm::still {
namespace {

constexpr double no_end = std::numeric_limits<double>::infinity();

double coolant_W_per_K(units::VolumeFlow flow) {
  return coolant_J_per_L_K * flow.litres_per_second();
}

// One coil, its vapour and its coolant, in bare figures.
class Zones {
 public:
  Zones(const VapourFlow& vapour, double inlet_K, double coolant_W_per_K,
        const vapour::BoilingCurve& curve)
      : vapour_(vapour),
        inlet_K_(inlet_K),
        rate_W_per_K_(coolant_W_per_K),
        dew_(curve.dew_temperature(vapour.ethanol)),
        liquid_J_per_mol_(vapour::liquid_enthalpy(vapour.ethanol, dew_).joules_per_mole()),
        condensing_W_(vapour.mol_per_s *
                      (vapour::vapour_enthalpy(vapour.ethanol, dew_).joules_per_mole() -
                       liquid_J_per_mol_)) {}

  [[nodiscard]] double dew_K() const { return dew_.kelvins(); }
  [[nodiscard]] double condensing_W() const { return condensing_W_; }
  // From the dew point down to a temperature.
  [[nodiscard]] double cooling_W(double spirit_K) const {
    return vapour_.mol_per_s *
           (liquid_J_per_mol_ -
            vapour::liquid_enthalpy(vapour_.ethanol, units::Temperature::kelvins(spirit_K))
                .joules_per_mole());
  }
  // The conductance that condenses all and cools the liquid down to `spirit_K`; without end
  // where no coil can.
  [[nodiscard]] double needed_W_per_K(double spirit_K) const {
    const double liquid_W = cooling_W(spirit_K);
    const double between_K = inlet_K_ + liquid_W / rate_W_per_K_;
    const double warm_end_K = dew_K() - between_K - condensing_W_ / rate_W_per_K_;
    if (!(spirit_K > inlet_K_) || !(warm_end_K > 0.0)) return no_end;
    const double difference_K = dew_K() - between_K;
    return condensing_W_ / log_mean_K(difference_K, warm_end_K) +
           (liquid_W > 0.0 ? liquid_W / log_mean_K(difference_K, spirit_K - inlet_K_) : 0.0);
  }

 private:
  const VapourFlow& vapour_;
  double inlet_K_;
  double rate_W_per_K_;
  units::Temperature dew_;
  double liquid_J_per_mol_;
  double condensing_W_;
};

// `warmest_K`: what the coolant has to be below, and `which` it is.
void check(const VapourFlow& vapour, units::Temperature inlet, double warmest_K,
           const char* which, const char* inlet_field) {
  if (!(inlet.celsius() >= 0.0 && inlet.kelvins() < warmest_K)) {
    throw base::InputError(
        inlet_field, fmt::format("{:.1f} °C", inlet.celsius()),
        fmt::format("0 °C to below the {:.1f} °C {}", warmest_K - 273.15, which));
  }
  if (!(vapour.mol_per_s >= 0.0 && std::isfinite(vapour.mol_per_s))) {
    throw base::InputError("vapour", fmt::format("{:.3g} mol/s", vapour.mol_per_s),
                           "zero or more");
  }
}

}  // namespace

double counter_current_effectiveness(double transfer_units, double ratio) {
  if (!(transfer_units >= 0.0)) {
    throw base::InputError("transfer_units", fmt::format("{:.3g}", transfer_units),
                           "zero or more");
  }
  if (!(ratio >= 0.0 && ratio <= 1.0)) {
    throw base::InputError("ratio", fmt::format("{:.3g}", ratio), "0 to 1");
  }
  // With e = -expm1(-N (1 - C)) and d = 1 - C: e / (d + C e), which for equal streams, where
  // both vanish, tends to N / (1 + N).
  const double d = 1.0 - ratio;
  if (d * transfer_units < 1e-9) return transfer_units / (1.0 + transfer_units);
  const double e = -std::expm1(-transfer_units * d);
  return e / (d + ratio * e);
}

double log_mean_K(double a, double b) {
  if (!(a > 0.0 && b > 0.0)) return 0.0;
  const double x = (a - b) / b;
  return std::abs(x) < 1e-8 ? b * (1.0 + 0.5 * x) : b * x / std::log1p(x);
}

Exchange exchange(const VapourFlow& vapour, units::HeatLoss conductance,
                  const CoolantFlow& coolant, const vapour::BoilingCurve& curve) {
  const double rate = coolant_W_per_K(coolant.flow);
  const double inlet_K = coolant.inlet.kelvins();
  const double coil = conductance.watts_per_kelvin();
  const Zones zones(vapour, inlet_K, rate, curve);
  check(vapour, coolant.inlet, zones.dew_K(), "at which the vapour condenses", "coolant.inlet");
  if (!(coil >= 0.0 && std::isfinite(coil))) {
    throw base::InputError("conductance", fmt::format("{:.3g} W/K", coil), "zero or more");
  }
  if (!(rate >= 0.0 && std::isfinite(rate))) {
    throw base::InputError("coolant.flow",
                           fmt::format("{:.3g} L/min", coolant.flow.litres_per_minute()),
                           "zero or more");
  }
  Exchange result;
  result.spirit = result.coolant = coolant.inlet;
  if (vapour.mol_per_s == 0.0) return result;

  const double most_W =
      rate > 0.0 ? -std::expm1(-coil / rate) * rate * (zones.dew_K() - inlet_K) : 0.0;
  if (most_W <= zones.condensing_W()) {
    result.condensing = units::Power::watts(most_W);
    result.escapes = units::Share::fraction(1.0 - most_W / zones.condensing_W());
    result.spirit = units::Temperature::kelvins(zones.dew_K());
    // Standing coolant warms to the vapour.
    result.coolant =
        rate > 0.0 ? units::Temperature::kelvins(inlet_K + most_W / rate) : result.spirit;
    return result;
  }
  // Needed over given conductance falls from without end to below one as the spirit is allowed
  // to run warmer; as a share of the two it is bounded.
  const auto excess = [&](double spirit_K) {
    const double needed = zones.needed_W_per_K(spirit_K);
    return std::isinf(needed) ? 0.5 : needed / (needed + coil) - 0.5;
  };
  // At the dew point no liquid is cooled, and the coil is known to be enough: rounding apart.
  const double spirit_K =
      excess(zones.dew_K()) >= 0.0
          ? zones.dew_K()
          : numeric::root_between(excess, inlet_K, zones.dew_K(), "condenser", {1e-15, 200})
                .value;
  result.spirit = units::Temperature::kelvins(spirit_K);
  result.condensing = units::Power::watts(zones.condensing_W());
  result.cooling = units::Power::watts(zones.cooling_W(spirit_K));
  result.coolant = units::Temperature::kelvins(inlet_K + result.heat().watts() / rate);
  return result;
}

CoolantFlow coolant_at_approaches(const VapourFlow& vapour, const Condenser& condenser,
                                  const vapour::BoilingCurve& curve) {
  const units::Temperature dew = curve.dew_temperature(vapour.ethanol);
  const units::Temperature leaving = dew - condenser.warm_end_approach;
  const units::Temperature spirit = condenser.coolant_inlet + condenser.cold_end_approach;
  check(vapour, condenser.coolant_inlet, std::min(leaving, dew).kelvins(),
        "that it may leave with", "condenser.coolant_inlet");
  if (!(spirit < dew)) {
    throw base::InputError(
        "condenser.coolant_inlet", fmt::format("{:.1f} °C", condenser.coolant_inlet.celsius()),
        fmt::format("below {:.1f} °C", (dew - condenser.cold_end_approach).celsius()));
  }
  const Zones zones(vapour, condenser.coolant_inlet.kelvins(), 1.0, curve);
  const double heat_W = zones.condensing_W() + zones.cooling_W(spirit.kelvins());
  return {condenser.coolant_inlet,
          coolant_flow(units::Power::watts(heat_W), condenser.coolant_inlet, leaving)};
}

units::HeatLoss conductance(const VapourFlow& vapour, const Condenser& condenser,
                            const vapour::BoilingCurve& curve) {
  if (!(vapour.mol_per_s > 0.0)) {
    throw base::InputError("vapour", fmt::format("{:.3g} mol/s", vapour.mol_per_s),
                           "above zero");
  }
  const CoolantFlow coolant = coolant_at_approaches(vapour, condenser, curve);
  const Zones zones(vapour, coolant.inlet.kelvins(), coolant_W_per_K(coolant.flow), curve);
  return units::HeatLoss::watts_per_kelvin(
      zones.needed_W_per_K((coolant.inlet + condenser.cold_end_approach).kelvins()));
}

AtTheSpout at_the_spout(const Point& point, units::HeatLoss conductance,
                        const CoolantFlow& coolant, const vapour::BoilingCurve& curve) {
  AtTheSpout result;
  result.exchange =
      exchange({point.over_mol_per_s, point.leaving_ethanol}, conductance, coolant, curve);
  const double celsius = result.exchange.spirit.celsius();
  if (celsius >= -20.0 && celsius <= 40.0) {
    result.shown = spirit::shown(spirit::mass_fraction(point.spout), result.exchange.spirit,
                                 spirit::Scale::percent_vol);
  }
  return result;
}

}  // namespace lynearm::still
