#include "still/synthetic_run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <deque>
#include <string>

#include "numeric/ensemble.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/lot.hpp"
#include "spirit/strength.hpp"
#include "still/run_state.hpp"
#include "vapour/boiling_curve.hpp"
#include "vapour/enthalpy.hpp"

namespace lynearm::still {
namespace {

constexpr double step_s = 2.0;
constexpr double show_every_s = 20.0;
constexpr double longest_s = 48.0 * 3600.0;

/// Wanders about nothing and comes back: an Ornstein-Uhlenbeck process.
class Wander {
 public:
  Wander(double sd, double time_s, numeric::Draw& draw)
      : keep_(std::exp(-step_s / time_s)),
        kick_(sd * std::sqrt(1.0 - keep_ * keep_)),
        draw_(draw),
        now_(sd * draw.normal()) {}
  double next() { return now_ = keep_ * now_ + kick_ * draw_.normal(); }

 private:
  double keep_, kick_;
  numeric::Draw& draw_;
  double now_;
};

struct Flowed {
  double ethanol_mol = 0.0, water_mol = 0.0;
  [[nodiscard]] double litres() const { return litres_20C(ethanol_mol, water_mol); }
  [[nodiscard]] double mol() const { return ethanol_mol + water_mol; }
};

/// A pipe in which what entered first leaves first.
class Coil {
 public:
  explicit Coil(double litres) : room_L_(litres) {}
  Flowed pass(const Flowed& in) {
    parcels_.push_back(in);
    held_L_ += in.litres();
    Flowed out;
    while (held_L_ > room_L_ && !parcels_.empty()) {
      Flowed& first = parcels_.front();
      const double litres = first.litres();
      const double over = held_L_ - room_L_;
      const double part = litres > 0.0 ? std::fmin(over / litres, 1.0) : 1.0;
      out.ethanol_mol += first.ethanol_mol * part;
      out.water_mol += first.water_mol * part;
      held_L_ -= litres * part;
      first.ethanol_mol *= 1.0 - part;
      first.water_mol *= 1.0 - part;
      if (part >= 1.0 - 1e-12) parcels_.pop_front();
    }
    return out;
  }

 private:
  double room_L_, held_L_ = 0.0;
  std::deque<Flowed> parcels_;
};

/// What the fire does at a time.
struct Fire {
  double from_s = 0.0;
  double power_W = 0.0;
};

struct Physics {
  double head_loss, pot_loss, efficiency, entrained, head_wall, pot_wall, ambient_K;
  double strangeness;
};

struct Shown {
  std::vector<TrueMoment> curve;
  std::vector<double> pot_lagged_K, head_lagged_K;
};

// Steps the still from cold until the spout has fallen to `run_to`; `fires` may grow on the
// way: `decide` sees the moment and says what the fire is from now on.
template <class Decide>
Shown run_still(const Physics& is, const Charge& charge, const HoldUp& hold_up,
                const vapour::BoilingCurve& curve, double run_to, double pot_lag_s,
                double head_lag_s, numeric::Draw& draw, Decide decide) {
  using units::MoleFraction;
  Shown shown;
  const double odd = is.strangeness;
  Wander mains(0.012 * odd, 900.0, draw), room(1.2 * odd, 1800.0, draw),
      draught(0.07 * odd, 1200.0, draw), carry(0.3, 600.0, draw);
  const Moles start = moles(charge.spirit);
  double e = start.ethanol.moles(), w = start.water.moles();
  double pot_K = charge.temperature.kelvins();
  double head_metal_K = is.ambient_K, head_K = is.ambient_K;
  bool passing = false;  // the head's metal is hot
  double back = 0.0, x_back = 0.2;
  double pot_lagged = pot_K, head_lagged = head_K;
  Coil coil(hold_up.condenser.litres());
  const double parrot_L = hold_up.parrot.litres();
  Flowed parrot, jar;
  TrueMoment now;
  for (double t = 0.0, show = 0.0; t < longest_s; t += step_s) {
    const double n = e + w;
    const double x = e / n;
    const auto liquid = MoleFraction::fraction(x);
    const double boil_K = curve.temperature(liquid).kelvins();
    const double around_K = is.ambient_K + room.next();
    const double head_loss = is.head_loss * std::fmax(1.0 + draught.next(), 0.3);
    const double net_W =
        decide(now) * (1.0 + mains.next()) * is.efficiency - is.pot_loss * (pot_K - around_K);
    const double droplets = is.entrained * odd * std::fmax(1.0 + carry.next(), 0.0);
    Flowed over;
    bool running = false;
    if (pot_K >= boil_K - 1e-6 && net_W > 0.0) {
      const vapour::BoilingAlong pot = curve.along(liquid);
      const double H = pot.here.vapour_enthalpy.joules_per_mole();
      const double along =
          pot.liquid_enthalpy_slope_J_per_mol + is.pot_wall * pot.temperature_slope_K / n;
      const double y = pot.here.vapour.fraction();
      const double dew_K = curve.temperature(pot.here.vapour).kelvins();
      if (!passing && head_metal_K < dew_K - 1e-6) {
        head_metal_K += (net_W - head_loss * (head_metal_K - around_K)) * step_s / is.head_wall;
        head_metal_K = std::fmin(head_metal_K, dew_K);
        head_K = head_metal_K;
      } else {
        running = true;
        passing = true;
        double rising = 0.0, y_over = y;
        double metal_W = 0.0;
        for (int turn = 0; turn < 6; ++turn) {
          if (rising > 0.0) {
            const double share = std::clamp(back / rising, 0.0, 0.95);
            x_back = curve
                         .first_drop(pot.here.vapour, units::Share::fraction(share),
                                     MoleFraction::fraction(x_back))
                         .fraction();
          } else {
            x_back = curve.liquid_under(pot.here.vapour).fraction();
          }
          const vapour::Boiling drop = curve.at(MoleFraction::fraction(x_back));
          y_over = drop.vapour.fraction();
          const double top_K = drop.temperature.kelvins();
          // The metal follows the vapour.
          metal_W = std::clamp(is.head_wall * (top_K - head_metal_K) / 60.0, -0.5 * net_W,
                               0.5 * net_W) *
                    std::fmin(odd, 1.0);
          const double head_W = head_loss * (top_K - around_K) + metal_W;
          const double h_back = drop.liquid_enthalpy.joules_per_mole();
          const double H_over = drop.vapour_enthalpy.joules_per_mole();
          const double G = pot.here.liquid_enthalpy.joules_per_mole() + (y_over - x) * along;
          rising = (net_W + back * (h_back - G)) / (H - G);
          const double wanted = (head_W - rising * (H - H_over)) / (H_over - h_back);
          back = std::clamp(0.5 * back + 0.5 * wanted, 0.0, 0.94 * rising);
          head_K = top_K;
        }
        head_metal_K += metal_W * step_s / is.head_wall;
        const double on = std::fmax(rising - back, 0.0) * step_s;
        const double drops = rising * droplets * step_s;
        over.ethanol_mol = on * y_over + drops * x;
        over.water_mol = on * (1.0 - y_over) + drops * (1.0 - x);
        e -= over.ethanol_mol;
        w -= over.water_mol;
        pot_K = curve.temperature(MoleFraction::fraction(e / (e + w))).kelvins();
      }
    } else {
      passing = false;
      const double capacity =
          n * vapour::liquid_heat_capacity(liquid, units::Temperature::kelvins(pot_K))
                  .joules_per_mole_kelvin() +
          is.pot_wall + charge.extract.kilograms() * extract_kJ_per_kg_K * 1e3;
      pot_K = std::fmin(pot_K + net_W * step_s / capacity, boil_K);
      head_metal_K -= head_loss * (head_metal_K - around_K) * step_s / is.head_wall;
      head_K = head_metal_K;
    }
    if (running) {
      const Flowed out = coil.pass(over);
      parrot.ethanol_mol += out.ethanol_mol;
      parrot.water_mol += out.water_mol;
      const double held = parrot.litres();
      if (held > parrot_L && held > 0.0) {
        const double part = (held - parrot_L) / held;
        now.spout = units::VolumeStrength::fraction(
            strength_of_mole_fraction(parrot.ethanol_mol / parrot.mol()));
        jar.ethanol_mol += parrot.ethanol_mol * part;
        jar.water_mol += parrot.water_mol * part;
        parrot.ethanol_mol *= 1.0 - part;
        parrot.water_mol *= 1.0 - part;
        now.runs = true;
      }
    }
    pot_lagged += (pot_K - pot_lagged) * -std::expm1(-step_s / pot_lag_s);
    head_lagged += (head_K - head_lagged) * -std::expm1(-step_s / head_lag_s);
    now.at = units::Duration::seconds(t + step_s);
    now.pot_temperature = units::Temperature::kelvins(pot_K);
    now.head_temperature = units::Temperature::kelvins(head_K);
    now.pot = units::VolumeStrength::fraction(strength_of_mole_fraction(e / (e + w)));
    if (t + step_s >= show) {
      show += show_every_s;
      now.collected = units::Volume::litres(jar.litres());
      now.pure_alcohol =
          spirit::pure_alcohol(lot({vapour::AmountOfSubstance::moles(jar.ethanol_mol),
                                    vapour::AmountOfSubstance::moles(jar.water_mol)}));
      shown.curve.push_back(now);
      shown.pot_lagged_K.push_back(pot_lagged);
      shown.head_lagged_K.push_back(head_lagged);
      if (now.runs && now.spout.fraction() <= run_to) break;
    }
  }
  return shown;
}

// A slip of the pen: digits swapped, a digit wrong, ten too many or too few.
double mistyped(double figure, int decimals, numeric::Draw& draw) {
  const double wrong_by_ten = figure + (draw.uniform() < 0.5 ? 10.0 : -10.0);
  std::string text = fmt::format("{:.{}f}", figure, decimals);
  const double kind = draw.uniform();
  std::vector<std::size_t> digits;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] >= '0' && text[i] <= '9') digits.push_back(i);
  }
  if (kind < 0.4 && digits.size() >= 2 && text[digits[0]] != text[digits[1]]) {
    std::swap(text[digits[0]], text[digits[1]]);
    return std::stod(text);
  }
  if (kind < 0.7) {
    const std::size_t place = digits[draw.uniform() < 0.5 || digits.size() < 2 ? 0 : 1];
    const int was = text[place] - '0';
    const int by = 1 + static_cast<int>(draw.uniform() * 8.999);
    text[place] = static_cast<char>('0' + (was + by) % 10);
    return std::stod(text);
  }
  return wrong_by_ten;
}

}  // namespace

RunSetting synthetic_kit() {
  RunSetting kit;
  kit.head.loss = units::HeatLoss::watts_per_kelvin(3.5);
  kit.head.wall = units::HeatCapacity::kilojoules_per_kelvin(1.5);
  kit.heating.power = units::Power::watts(1500.0);
  kit.heating.efficiency = units::Share::percent(94.0);
  kit.heating.loss = units::HeatLoss::watts_per_kelvin(3.0);
  kit.heating.ambient = units::Temperature::celsius(20.0);
  kit.to_the_boil = units::Power::watts(2400.0);
  kit.wall = units::HeatCapacity::kilojoules_per_kelvin(4.0);
  kit.hold_up.condenser = units::Volume::millilitres(60.0);
  kit.hold_up.parrot = units::Volume::millilitres(150.0);
  return kit;
}

SyntheticRun synthetic_run(std::uint64_t seed, const SyntheticOptions& options) {
  numeric::Draw draw(seed, 0x51171);
  SyntheticRun run;
  run.pressure = options.pressure;
  run.kit = options.kit.value_or(synthetic_kit());
  run.believed = options.charge;
  if (!(run.believed.spirit.ethanol > units::Mass{})) {
    run.believed.spirit =
        spirit::lot(units::Volume::litres(20.0), units::VolumeStrength::percent(27.0));
  }
  const vapour::BoilingCurve curve(options.pressure);

  const HiddenSpread& sd = options.spread;
  const auto factor = [&draw](double log_sd) { return std::exp(log_sd * draw.normal()); };
  HiddenConstants& truth = run.truth;
  truth.head_loss = run.kit.head.loss * factor(sd.head_loss_log);
  truth.pot_loss = run.kit.heating.loss * factor(sd.pot_loss_log);
  truth.efficiency = units::Share::fraction(
      std::fmin(run.kit.heating.efficiency.fraction() * factor(sd.efficiency_log), 1.0));
  truth.charge_strength =
      spirit::strength(run.believed.spirit) * factor(sd.charge_strength_log);
  truth.charge_volume = spirit::volume(run.believed.spirit) * factor(sd.charge_volume_log);
  const double hold = factor(sd.hold_up_log);
  truth.hold_up = {run.kit.hold_up.condenser * hold, run.kit.hold_up.parrot * hold};
  truth.pot_thermometer =
      units::TemperatureChange::kelvins(sd.pot_thermometer_K * draw.normal());
  truth.head_thermometer =
      units::TemperatureChange::kelvins(sd.head_thermometer_K * draw.normal());
  truth.hydrometer_percent = sd.hydrometer_percent * draw.normal();

  Charge charge = run.believed;
  charge.spirit = spirit::lot(truth.charge_volume, truth.charge_strength);
  const Physics is{truth.head_loss.watts_per_kelvin(),
                   truth.pot_loss.watts_per_kelvin(),
                   truth.efficiency.fraction(),
                   0.006 * factor(0.5),
                   std::fmax(run.kit.head.wall.joules_per_kelvin(), 50.0),
                   run.kit.wall.joules_per_kelvin(),
                   run.kit.heating.ambient.kelvins(),
                   options.strangeness};
  const double pot_lag_s = 20.0 + 40.0 * draw.uniform();
  const double head_lag_s = 20.0 + 60.0 * draw.uniform();

  // What the maker does with the fire: to the boil, the run, changes at some volumes, a stop.
  const double run_W = run.kit.heating.power.watts();
  const double to_boil_W = run.kit.to_the_boil.value_or(run.kit.heating.power).watts();
  std::deque<std::pair<double, double>> changes;  // litres, W
  const double share_L = 0.25 * truth.charge_volume.litres();
  if (options.changed_power && draw.uniform() < 0.8) {
    changes.emplace_back(share_L * (0.15 + 0.3 * draw.uniform()),
                         run_W * (0.75 + 0.5 * draw.uniform()));
    if (draw.uniform() < 0.4) {
      changes.emplace_back(share_L * (0.6 + 0.3 * draw.uniform()),
                           run_W * (0.8 + 0.6 * draw.uniform()));
    }
  }
  double stop_at_L =
      draw.uniform() < options.interrupted ? share_L * (0.3 + 0.5 * draw.uniform()) : 1e9;
  const double kept_L = options.fire_kept_after.litres();
  const auto before_kept = [&](double litres) {
    return litres < kept_L || litres > share_L ? litres : 0.95 * kept_L * litres / share_L;
  };
  for (auto& change : changes) change.first = before_kept(change.first);
  std::sort(changes.begin(), changes.end());
  stop_at_L = before_kept(stop_at_L);
  const double rest_s = 3600.0 * (1.0 + 9.0 * draw.uniform());
  std::vector<Reading> events;
  double power_W = to_boil_W, resume_s = 0.0, resume_W = 0.0;
  bool boiled = false, stopped = false;
  const auto log = [&events](units::Duration at, std::optional<double> watts,
                             std::optional<Event> event) {
    Reading reading;
    reading.at = at;
    if (watts) reading.power = units::Power::watts(std::round(*watts));
    reading.event = event;
    events.push_back(reading);
  };
  log(units::Duration{}, to_boil_W, std::nullopt);
  const auto decide = [&](const TrueMoment& now) {
    const double t = now.at.seconds();
    if (stopped) {
      if (t >= resume_s) {
        stopped = false;
        power_W = resume_W;
        log(now.at, power_W, Event::resumed);
      }
      return power_W;
    }
    if (!boiled && now.head_temperature.celsius() > 60.0) {
      // Turned down when the head grows too hot to touch.
      boiled = true;
      if (run_W != to_boil_W) log(now.at, power_W = run_W, std::nullopt);
    }
    if (now.runs && !changes.empty() && now.collected.litres() >= changes.front().first) {
      power_W = std::round(changes.front().second / 10.0) * 10.0;
      changes.pop_front();
      log(now.at, power_W, std::nullopt);
    }
    if (now.runs && now.collected.litres() >= stop_at_L) {
      stop_at_L = 1e9;
      stopped = true;
      resume_W = power_W;
      resume_s = t + rest_s;
      power_W = 0.0;
      log(now.at, std::nullopt, Event::stopped);
    }
    return power_W;
  };
  const Shown shown = run_still(is, charge, truth.hold_up, curve, options.run_to.fraction(),
                                pot_lag_s, head_lag_s, draw, decide);
  run.curve = shown.curve;

  // The readings.
  const bool all = options.every_instrument;
  const bool has_pot = all || draw.uniform() < 0.6;
  const bool has_head = all || draw.uniform() < 0.8;
  const bool has_spout = all || draw.uniform() < 0.9 || !has_head;
  const bool has_collected = all || draw.uniform() < 0.8;
  const double every_s =
      options.interval ? options.interval->seconds() : 60.0 * (5.0 + 7.0 * draw.uniform());
  const double jar_error = 0.005 * draw.normal();
  double spirit_C = 17.0 + 6.0 * draw.uniform();
  std::vector<std::pair<Reading, std::vector<bool>>> rows;
  rows.reserve(events.size() + 100);
  for (const Reading& event : events) rows.emplace_back(event, std::vector<bool>(4, false));
  const auto slips = [&] { return draw.uniform() < options.mistyped; };
  for (double t = every_s; !run.curve.empty(); t += every_s * (0.7 + 0.6 * draw.uniform())) {
    const auto i = static_cast<std::size_t>(t / show_every_s);
    if (i >= run.curve.size()) break;
    const TrueMoment& m = run.curve[i];
    // Nobody logs every few minutes while it warms, or overnight.
    const bool quiet = m.head_temperature.celsius() < 50.0 && draw.uniform() < 0.75;
    if (quiet) continue;
    Reading reading;
    std::vector<bool> wrong(4, false);
    reading.at = units::Duration::minutes(std::round(m.at.minutes() * 2.0) / 2.0);
    const auto temperature = [&](double K, double offset_K, std::size_t place) {
      double C = std::round((K - 273.15 + offset_K + 0.12 * draw.normal()) * 10.0) / 10.0;
      if (slips()) {
        wrong[place] = true;
        C = mistyped(C, 1, draw);
      }
      return units::Temperature::celsius(std::clamp(C, -19.0, 119.0));
    };
    if (has_pot && draw.uniform() < 0.9) {
      reading.pot_temperature =
          temperature(shown.pot_lagged_K[i], truth.pot_thermometer.kelvins(), 0);
    }
    if (has_head && draw.uniform() < 0.9) {
      reading.head_temperature =
          temperature(shown.head_lagged_K[i], truth.head_thermometer.kelvins(), 1);
    }
    spirit_C = std::clamp(spirit_C + 0.4 * draw.normal(), 14.0, 27.0);
    const double at_C = std::round(spirit_C * 2.0) / 2.0;
    const bool runs = m.runs && !(i > 0 && run.curve[i - 1].collected == m.collected);
    if (has_spout && runs && draw.uniform() < 0.9) {
      const double glass =
          spirit::shown(spirit::mass_fraction(m.spout), units::Temperature::celsius(spirit_C),
                        spirit::Scale::percent_vol)
              .figure;
      double figure =
          std::round((glass + truth.hydrometer_percent + 0.25 * draw.normal()) * 5.0) / 5.0;
      if (slips()) {
        wrong[2] = true;
        figure = mistyped(figure, 1, draw);
      }
      reading.spout =
          spirit::Reading{std::clamp(figure, 0.0, 100.0), spirit::Scale::percent_vol};
      reading.spout_temperature = units::Temperature::celsius(at_C);
    }
    if (has_collected && m.runs && draw.uniform() < 0.7) {
      const double warm = 1.0 + 0.0009 * (spirit_C - 20.0);
      double ml = std::round((m.collected.millilitres() * warm * (1.0 + jar_error) *
                                  (1.0 + 0.006 * draw.normal()) +
                              5.0 * draw.normal()) /
                             10.0) *
                  10.0;
      if (slips()) {
        wrong[3] = true;
        ml = draw.uniform() < 0.5 ? mistyped(ml, 0, draw)
                                  : ml + (draw.uniform() < 0.5 ? 1000.0 : -1000.0);
      }
      reading.collected = units::Volume::millilitres(std::fmax(ml, 0.0));
    }
    if (reading.pot_temperature || reading.head_temperature || reading.spout ||
        reading.collected) {
      rows.emplace_back(reading, wrong);
    }
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const auto& a, const auto& b) { return a.first.at < b.first.at; });
  for (auto& [reading, wrong] : rows) {
    run.record.readings.push_back(reading);
    run.mistyped.push_back(wrong);
  }
  return run;
}

namespace {

template <class Reached>
std::optional<TrueMoment> first_moment(const SyntheticRun& run, Reached reached) {
  for (const TrueMoment& m : run.curve) {
    if (m.runs && reached(m)) return m;
  }
  return std::nullopt;
}

}  // namespace

std::optional<TrueMoment> SyntheticRun::when_spout_falls_to(units::VolumeStrength s) const {
  return first_moment(*this, [s](const TrueMoment& m) { return m.spout <= s; });
}
std::optional<TrueMoment> SyntheticRun::when_head_rises_to(units::Temperature t) const {
  return first_moment(*this, [t](const TrueMoment& m) { return m.head_temperature >= t; });
}
std::optional<TrueMoment> SyntheticRun::when_collected(units::Volume v) const {
  return first_moment(*this, [v](const TrueMoment& m) { return m.collected >= v; });
}

}  // namespace lynearm::still
