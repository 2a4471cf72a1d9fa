#include "ferment/pace.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "ferment/gas.hpp"
#include "ferment/warmth.hpp"
#include "numeric/integrate.hpp"
#include "wort/wash.hpp"

namespace lynearm::ferment {
namespace {

using units::Duration;
using units::MassConcentration;
using units::Share;
using units::Temperature;

constexpr double dry_g_L = 2.0;
constexpr double stuck_g_L_per_h = 0.5 / 24.0;
constexpr double reference_K = 299.15;
constexpr double gas_constant_kJ = 8.314462618e-3;
constexpr double pure_ethanol_g_L = 789.24;  // OIML R 22, 20 °C

// The integrated quantities, per litre of the wort pitched.
enum : std::size_t { active_yeast, nitrogen, ethanol, temperature_K, count };

void accept(const char* field, double value, double low, double high, const char* unit) {
  if (!(value >= low && value <= high))
    throw base::InputError(field, fmt::format("{:.4g} {}", value, unit),
                           fmt::format("{:g} to {:g} {}", low, high, unit));
}

/// Activity outside the comfortable range: nothing below 5 and above 42 °C.
double comfort(double t_K) {
  const double t_C = t_K - 273.15;
  return std::clamp((t_C - 5.0) / 7.0, 0.0, 1.0) * std::clamp((42.0 - t_C) / 4.0, 0.0, 1.0);
}

/// A batch per litre, in bare numbers.
struct Litre {
  Kinetics k;
  double sugar0_g_L = 0.0;
  double yield = 1.0;
  double ceiling_g_L = 0.0;           // infinite when off
  double kelvin_per_g_ethanol = 0.0;  // adiabatic
  double cooling_per_h = 0.0;         // loss over heat capacity
  double room_K = 0.0;
  bool held = false;

  double arrhenius(double energy_kJ, double t_K) const {
    return std::exp(-energy_kJ / gas_constant_kJ * (1.0 / t_K - 1.0 / reference_K));
  }
  double sugar(double ethanol_g_L) const { return sugar0_g_L - ethanol_g_L / yield; }
  double liveliness(double ethanol_g_L, double t_K) const {
    const double part = ethanol_g_L / ceiling_g_L;
    return k.vigour * comfort(t_K) * std::max(0.0, 1.0 - part * part);
  }
  /// Ethanol made, g/(L h).
  double ethanol_rate(const numeric::State& s) const {
    const double left = std::max(0.0, sugar(s[ethanol]));
    return k.ethanol_per_yeast_h * arrhenius(k.product_kJ_per_mol, s[temperature_K]) *
           liveliness(s[ethanol], s[temperature_K]) * left / (k.sugar_half_g_L + left) *
           s[active_yeast];
  }
  void operator()(const numeric::State& s, numeric::State& rate) const {
    const double t_K = s[temperature_K];
    const double food = std::max(0.0, s[nitrogen]);
    const double growth = k.growth_per_h * arrhenius(k.growth_kJ_per_mol, t_K) *
                          liveliness(s[ethanol], t_K) * food / (k.nitrogen_half_g_L + food) *
                          s[active_yeast];
    const double death = k.death_L_per_g_h * arrhenius(k.death_kJ_per_mol, t_K) * s[ethanol];
    rate[active_yeast] = growth - death * s[active_yeast];
    rate[nitrogen] = -growth / k.yeast_per_nitrogen;
    rate[ethanol] = ethanol_rate(s);
    rate[temperature_K] =
        held ? 0.0 : kelvin_per_g_ethanol * rate[ethanol] - cooling_per_h * (t_K - room_K);
  }
};

void check(const Batch& b, const Kinetics& k, double volume_L, Duration horizon) {
  accept("hexose", hexose(b.wort, b.sugars).grams() / volume_L, 5.0, 400.0, "g/L");
  accept("yeast", b.yeast.grams() / volume_L, 0.02, 10.0, "g/L");
  accept("nitrogen", b.nitrogen.grams() / volume_L, 0.0, 2.0, "g/L");
  accept("pitched_at", b.pitched_at.celsius(), 0.0, 45.0, "°C");
  accept("vessel.room", b.vessel.room.celsius(), 0.0, 45.0, "°C");
  accept("vessel.loss", b.vessel.loss.watts_per_kelvin(), 0.0, 1e5, "W/K");
  accept("lag", b.lag.hours(), 0.0, 72.0, "h");
  accept("tolerance", b.tolerance.percent(), 5.0, 20.0, "%vol");
  accept("yield", b.yield.fraction(), 0.5, 1.0, "of theory");
  accept("horizon", horizon.days(), 2.0, 120.0, "days");
  accept("vigour", k.vigour, 0.05, 20.0, "");
}

}  // namespace

Pace pace(const Batch& batch, const Kinetics& kinetics, Duration horizon) {
  const double volume_L = wort::volume(batch.wort).litres();
  if (!(volume_L > 0.0)) throw base::InputError("wort", "nothing", "some wort");
  check(batch, kinetics, volume_L, horizon);

  const double yield = ethanol_per_hexose * batch.yield.fraction();
  const double capacity_J_per_K_L = heat_capacity(batch.wort).joules_per_kelvin() / volume_L;
  Litre litre{
      .k = kinetics,
      .sugar0_g_L = hexose(batch.wort, batch.sugars).grams() / volume_L,
      .yield = yield,
      .ceiling_g_L = kinetics.ceiling ? batch.tolerance.fraction() * pure_ethanol_g_L : 1e9,
      .kelvin_per_g_ethanol = heat_kJ_per_kg_hexose / yield / capacity_J_per_K_L,
      .cooling_per_h =
          3600.0 * batch.vessel.loss.watts_per_kelvin() / (capacity_J_per_K_L * volume_L),
      .room_K = batch.vessel.room.kelvins(),
      .held = batch.vessel.held};

  // A cold wash waits longer, within reason.
  const double waking = litre.arrhenius(kinetics.growth_kJ_per_mol, batch.pitched_at.kelvins());
  const double lag_h = std::min(batch.lag.hours() / waking, 0.5 * horizon.hours());

  // While it waits the wash drifts to the room's temperature and nothing ferments.
  const double pitched_K = batch.pitched_at.kelvins();
  const double woken_K = litre.held ? pitched_K
                                    : litre.room_K + (pitched_K - litre.room_K) *
                                                         std::exp(-litre.cooling_per_h * lag_h);
  numeric::State start(count);
  start[active_yeast] = batch.yeast.grams() / volume_L;
  start[nitrogen] = batch.nitrogen.grams() / volume_L;
  start[temperature_K] = woken_K;
  const auto path = numeric::integrate(
      [&](double, const numeric::State& s, numeric::State& rate) { litre(s, rate); }, start,
      lag_h, horizon.hours(), 2.0, "fermentation",
      [&](double, const numeric::State& s) { return litre.sugar(s[ethanol]) - dry_g_L; },
      {.relative = 1e-6, .absolute = 1e-8, .first_step = 0.5});

  // What a litre's ethanol says about the whole vessel.
  const double gas_L_per_g =
      carbon_dioxide_volume(units::Mass::grams(carbon_dioxide_per_hexose / ethanol_per_hexose))
          .litres();
  const auto point = [&](double at_h, const numeric::State& s, double rate_g_L_h) {
    const double done = std::clamp(s[ethanol] / yield / litre.sugar0_g_L, 0.0, 1.0);
    const Fermented so_far =
        ferment(batch.wort, batch.sugars, batch.yield, Share::fraction(done));
    return PacePoint{Duration::hours(at_h),
                     Share::fraction(done),
                     MassConcentration::grams_per_litre(litre.sugar0_g_L * (1.0 - done)),
                     MassConcentration::grams_per_litre(s[ethanol]),
                     wort::specific_gravity(so_far.wash),
                     units::VolumeFlow::litres_per_hour(rate_g_L_h * volume_L * gas_L_per_g),
                     Temperature::kelvins(s[temperature_K])};
  };

  Pace out;
  if (lag_h > 0.0) {
    numeric::State waiting = start;
    waiting[temperature_K] = pitched_K;
    out.course.push_back(point(0.0, waiting, 0.0));
  }
  double last_kept_h = -1e9;
  for (std::size_t i = 0; i < path.at.size(); ++i) {
    const double rate_g_L_h = litre.ethanol_rate(path.state[i]);
    const auto gas = units::VolumeFlow::litres_per_hour(rate_g_L_h * volume_L * gas_L_per_g);
    if (gas > out.peak_carbon_dioxide) {
      out.peak_carbon_dioxide = gas;
      out.peak_at = Duration::hours(path.at[i]);
    }
    out.warmest = std::max(out.warmest, Temperature::kelvins(path.state[i][temperature_K]));
    // A week in steps of two hours, a slow month in steps of half a day.
    const bool last = i + 1 == path.at.size();
    const double spacing_h = path.at[i] < 168.0 ? 2.0 : 12.0;
    if (!last && path.at[i] - last_kept_h < spacing_h - 1e-9) continue;
    last_kept_h = path.at[i];
    out.course.push_back(point(path.at[i], path.state[i], rate_g_L_h));
  }
  out.warmest = std::max(out.warmest, batch.pitched_at);

  const numeric::State& end = path.state.back();
  if (path.stopped) {
    out.ending = Ending::dry;
    out.dry_after = Duration::hours(path.at.back());
    out.done = Share::fraction(1.0);
    return out;
  }
  out.ending = litre.ethanol_rate(end) / yield < stuck_g_L_per_h ? Ending::stuck : Ending::slow;
  out.done = out.course.back().done;
  out.sugar_left = out.course.back().sugar;
  return out;
}

}  // namespace lynearm::ferment
