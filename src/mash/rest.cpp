#include "mash/rest.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"
#include "mash/limits.hpp"

namespace lynearm::mash {
namespace {

// What is followed, as shares of all starch; the enzymes as shares of what was doughed in.
struct Amounts {
  double swollen = 0.0, dextrin = 0.0, glucose = 0.0, maltose = 0.0, maltotriose = 0.0;
  double alpha = 1.0, beta = 1.0;
};

// Alexander's L-stable third-order scheme: stages at c, weights in the last row.
constexpr double g = 0.435866521508459;
constexpr std::array<double, 3> stage_at = {g, 0.5 * (1.0 + g), 1.0};
constexpr double b1 = -(6.0 * g * g - 16.0 * g + 1.0) / 4.0;
constexpr double b2 = (6.0 * g * g - 20.0 * g + 5.0) / 4.0;
constexpr std::array<std::array<double, 2>, 3> earlier = {
    {{0.0, 0.0}, {0.5 * (1.0 - g), 0.0}, {b1, b2}}};

/// The chemistry of a rest at a temperature that is known in time.
class Splitting {
 public:
  Splitting(const RestMash& mash, const RestSteps& steps, const EnzymeConstants& k)
      : mash_(mash), steps_(steps), k_(k), settles_C_(steps.start.celsius()) {
    within("heat_capacity", steps.body.joules_per_kelvin(), 1.0, 1e9, "J/K");
    const units::HeatLoss loss = steps.cooling.vessel + steps.cooling.coil;
    if (loss.watts_per_kelvin() != 0.0) {
      settles_C_ = settling_temperature(steps.cooling).celsius();
      rate_per_s_ = loss.watts_per_kelvin() / steps.body.joules_per_kelvin();
    }
    double total_kg = 0.0;
    for (const StarchSource& source : mash.sources) total_kg += source.starch.kilograms();
    for (const StarchSource& source : mash.sources) {
      const double share = source.starch.kilograms() / total_kg;
      solid_.push_back(share * (1.0 - source.opened.fraction()));
      amounts_.swollen += share * source.opened.fraction();
    }
    for (auto& stage : solid_rate_) stage.resize(solid_.size());
    loss_ = loss_at(0.0);
  }

  double temperature_C(double s) const {
    return settles_C_ + (steps_.start.celsius() - settles_C_) * std::exp(-rate_per_s_ * s);
  }
  /// Moments up to `end_s` when a rate has a step or a corner: each grain's swelling changes
  /// its line, raw grain comes into reach. A step across one would lose its order.
  std::vector<double> breaks_s(double end_s) const {
    std::vector<double> at;
    const auto crossing = [&](double t_C) {
      const double share = (t_C - settles_C_) / (steps_.start.celsius() - settles_C_);
      if (!(rate_per_s_ > 0.0 && share > 0.0 && share < 1.0)) return;
      // A millionth of a second early, so that the step up to it sees only the rate before.
      const double s = -std::log(share) / rate_per_s_ - 1e-6;
      if (s > 0.0 && s < end_s) at.push_back(s);
    };
    for (const StarchSource& source : mash_.sources) {
      crossing(60.0 + source.middle.celsius() - barley_middle_C);
      if (!source.onset) continue;
      crossing(source.onset->celsius());
      crossing(source.onset->celsius() - 5.0);
    }
    std::sort(at.begin(), at.end());
    return at;
  }
  const Amounts& amounts() const { return amounts_; }
  const std::vector<double>& solid() const { return solid_; }

  void step(double s, double h) {
    std::array<Amounts, 3> rate;
    const std::array<Loss, 3> loss = {loss_, loss_at(s + 0.5 * h), loss_at(s + h)};
    for (std::size_t stage = 0; stage < 3; ++stage) {
      const double t_C = temperature_C(s + stage_at[stage] * h);
      const StageStart from = start_of(stage, rate, h);
      const double gh = g * h;
      Amounts& r = rate[stage];

      const Surviving left = surviving(loss, stage_at[stage], h);
      const double a = k_.alpha_U_per_kg * mash_.enzymes * left.alpha * alpha_activity(t_C);
      const double b = k_.beta_U_per_kg * mash_.enzymes * left.beta * beta_activity(t_C);

      double swelling = 0.0;
      for (std::size_t i = 0; i < solid_.size(); ++i) {
        const double k_swell = swelling_rate(i, t_C);
        const double before =
            solid_[i] + h * (from.e0 * solid_rate_[0][i] + from.e1 * solid_rate_[1][i]);
        const double solid = before / (1.0 + gh * k_swell);
        solid_rate_[stage][i] = -k_swell * solid;
        swelling += k_swell * solid;
      }

      const double fast_maltose = k_.maltose_alpha_fast * a + k_.maltose_beta_fast * b;
      const double fast =
          (k_.glucose_fast + k_.maltotriose_fast + k_.dextrin_fast) * a + fast_maltose;
      const double swollen = (from.base.swollen + gh * swelling) / (1.0 + gh * fast);
      r.swollen = swelling - fast * swollen;

      const double slow_maltose = k_.maltose_alpha_slow * a + k_.maltose_beta_slow * b;
      const double slow = (k_.glucose_slow + k_.maltotriose_slow) * a + slow_maltose;
      const double new_dextrin = k_.dextrin_fast * a * swollen;
      const double dextrin = (from.base.dextrin + gh * new_dextrin) / (1.0 + gh * slow);
      r.dextrin = new_dextrin - slow * dextrin;
      r.glucose = k_.glucose_fast * a * swollen + k_.glucose_slow * a * dextrin;
      r.maltose = fast_maltose * swollen + slow_maltose * dextrin;
      r.maltotriose = k_.maltotriose_fast * a * swollen + k_.maltotriose_slow * a * dextrin;
    }
    const Surviving left = surviving(loss, 1.0, h);
    amounts_.alpha = left.alpha;
    amounts_.beta = left.beta;
    loss_ = loss[2];
    // Stiffly accurate: the last row of the scheme is also its weights.
    const auto add = [&](double Amounts::*x) {
      amounts_.*x += h * (b1 * rate[0].*x + b2 * rate[1].*x + g * rate[2].*x);
    };
    for (const auto x : {&Amounts::swollen, &Amounts::dextrin, &Amounts::glucose,
                         &Amounts::maltose, &Amounts::maltotriose}) {
      add(x);
    }
    for (std::size_t i = 0; i < solid_.size(); ++i) {
      solid_[i] +=
          h * (b1 * solid_rate_[0][i] + b2 * solid_rate_[1][i] + g * solid_rate_[2][i]);
    }
  }

 private:
  struct Loss {
    double alpha_per_s = 0.0, beta_per_s = 0.0;
  };
  struct Surviving {
    double alpha, beta;
  };

  Loss loss_at(double s) const {
    const double t_C = temperature_C(s);
    return {alpha_loss_per_s(t_C), beta_loss_per_s(t_C)};
  }

  /// Enzymes left a share `u` into a step of `h`: the exact decay under the parabola through
  /// the loss rates at its start, middle and end. Never below zero, however fast they die.
  Surviving surviving(const std::array<Loss, 3>& loss, double u, double h) const {
    const double at_start = u - 1.5 * u * u + 2.0 / 3.0 * u * u * u;
    const double at_middle = 2.0 * u * u - 4.0 / 3.0 * u * u * u;
    const double at_end = -0.5 * u * u + 2.0 / 3.0 * u * u * u;
    const auto decay = [&](double Loss::*k) {
      return std::exp(-h *
                      (at_start * loss[0].*k + at_middle * loss[1].*k + at_end * loss[2].*k));
    };
    return {amounts_.alpha * decay(&Loss::alpha_per_s),
            amounts_.beta * decay(&Loss::beta_per_s)};
  }

  struct StageStart {
    Amounts base;
    double e0 = 0.0;
    double e1 = 0.0;
  };

  StageStart start_of(std::size_t stage, const std::array<Amounts, 3>& rate, double h) const {
    const double e0 = earlier[stage][0];
    const double e1 = earlier[stage][1];
    Amounts base = amounts_;
    const auto add = [&](double Amounts::*x) {
      if (stage > 0) base.*x += h * e0 * rate[0].*x;
      if (stage > 1) base.*x += h * e1 * rate[1].*x;
    };
    for (const auto x : {&Amounts::swollen, &Amounts::dextrin}) {
      add(x);
    }
    return {base, e0, e1};
  }

  double swelling_rate(std::size_t i, double t_C) const {
    // Nothing solid to speak of, as in cooked grain or late in the rest: spare the exponential.
    if (solid_[i] < 1e-14) return 0.0;
    const StarchSource& source = mash_.sources[i];
    const double rate = swelling_per_s(t_C, source.middle.celsius());
    return source.onset ? rate * reached(t_C, source.onset->celsius()) : rate;
  }

  const RestMash& mash_;
  const RestSteps& steps_;
  const EnzymeConstants& k_;
  double settles_C_;
  double rate_per_s_ = 0.0;
  Amounts amounts_;
  Loss loss_;  ///< at the moment reached
  std::vector<double> solid_;
  std::array<std::vector<double>, 3> solid_rate_;
};

RestPoint point(const Splitting& s, double at_s) {
  const Amounts& x = s.amounts();
  double solid = 0.0;
  for (const double part : s.solid()) solid += part;
  return {units::Duration::seconds(at_s),
          units::Temperature::celsius(s.temperature_C(at_s)),
          units::Share::fraction(solid + x.swollen),
          units::Share::fraction(x.dextrin),
          units::Share::fraction(x.glucose + x.maltose + x.maltotriose),
          units::Share::fraction(x.alpha),
          units::Share::fraction(x.beta)};
}

}  // namespace

RestMash rest_mash(const Bill& bill, units::Mass mash, units::Share cooked) {
  within("cook.opened", cooked.percent(), 0.0, 100.0, "%");
  const Potential potential = extract_potential(bill);
  if (!(mash >= potential.grain && mash.kilograms() > 0.0)) {
    within("mash.mass", mash.kilograms(), potential.grain.kilograms(), 1e6, "kg");
  }
  RestMash result;
  double lintner_kg = 0.0;
  for (std::size_t i = 0; i < bill.size(); ++i) {
    const Ingredient& in = bill[i].ingredient;
    if (bill[i].role == Role::dough_in) {
      lintner_kg += bill[i].mass.kilograms() * in.diastatic_power.value.lintner();
    }
    if (!(potential.lines[i].starch.kilograms() > 0.0)) continue;
    StarchSource source;
    source.line = i;
    source.starch = potential.lines[i].starch;
    source.middle = units::Temperature::celsius(barley_middle_C);
    if (!in.gelatinisation) {
      source.opened = units::Share::percent(100.0);
    } else {
      source.middle = in.gelatinisation->value;
      source.opened = bill[i].role == Role::cooked ? cooked : units::Share();
      if (in.sort == Sort::raw_grain) source.onset = in.gelatinisation->low;
    }
    result.sources.push_back(source);
  }
  result.enzymes = lintner_kg / mash.kilograms() / (reference_lintner * reference_grain_share);
  return result;
}

Rested rest(const RestMash& mash, const RestSteps& steps, const EnzymeConstants& constants) {
  within("mash.rest_temperature", steps.start.celsius(), 20.0, 80.0, "°C");
  within("mash.rest_time", steps.time.hours(), 0.0, 24.0, "h");
  within("mash.enzymes", mash.enzymes, 0.0, 100.0, "");
  within("mash.spacing", steps.spacing.minutes(), 0.1, 1440.0, "min");
  if (mash.sources.empty()) throw base::InputError("bill", "no starch", "a grain with starch");

  Splitting splitting(mash, steps, constants);
  Rested result;
  result.course.push_back(point(splitting, 0.0));
  const double end_s = steps.time.seconds();
  const double spacing_s = steps.spacing.seconds();
  const std::vector<double> breaks_s = splitting.breaks_s(end_s);
  auto next_break = breaks_s.begin();
  // Swollen starch lives for seconds: until what was cooked is split the steps stay short, so
  // that the implicit method does not swing past zero; later they grow.
  double s = 0.0;
  double h = 0.5;
  std::size_t kept = 1;
  while (s < end_s) {
    const double keep_s = std::min(end_s, static_cast<double>(kept) * spacing_s);
    const bool breaks = next_break != breaks_s.end() && *next_break < keep_s;
    const double next_s = breaks ? *next_break++ : keep_s;
    while (s < next_s) {
      const double left_s = next_s - s;
      // Two halves rather than a whole step and a splinter.
      const double step_s = left_s <= h ? left_s : std::min(h, 0.5 * left_s);
      splitting.step(s, step_s);
      s = left_s <= h ? next_s : s + step_s;
      h = std::min(60.0, h * 1.15);
    }
    if (breaks) continue;
    ++kept;
    result.course.push_back(point(splitting, s));
  }

  const Amounts& x = splitting.amounts();
  const RestPoint& last = result.course.back();
  result.end = last.temperature;
  result.fermentable = last.fermentable;
  result.glucose = units::Share::fraction(x.glucose);
  result.maltose = units::Share::fraction(x.maltose);
  result.maltotriose = units::Share::fraction(x.maltotriose);
  result.dextrin = last.dextrin;
  result.converted = last.fermentable + last.dextrin;
  result.alpha_left = last.alpha_left;
  result.beta_left = last.beta_left;
  result.enzymes = mash.enzymes;
  result.no_enzymes = mash.enzymes == 0.0;
  units::Mass total;
  for (const StarchSource& source : mash.sources) total += source.starch;
  // Swollen starch not yet split is shared by all that have swollen: no source is known for it.
  double solid = 0.0;
  for (const double part : splitting.solid()) solid += part;
  const double swollen_left = solid < 1.0 ? x.swollen / (1.0 - solid) : 0.0;
  for (std::size_t i = 0; i < mash.sources.size(); ++i) {
    const double own_solid = splitting.solid()[i] / (mash.sources[i].starch / total);
    result.raw.push_back(units::Share::fraction(own_solid + (1.0 - own_solid) * swollen_left));
  }
  return result;
}

units::Mass extract_made(const Bill& bill, const RestMash& mash, const Rested& rested) {
  base::ensure(mash.sources.size() == rested.raw.size(), "a rest belongs to its mash");
  units::Mass extract = extract_potential(bill).extract;
  for (std::size_t i = 0; i < mash.sources.size(); ++i) {
    extract -= mash.sources[i].starch * rested.raw[i].fraction();
  }
  return extract;
}

units::Share limit_attenuation(const Bill& bill, const RestMash& mash, const Rested& rested,
                               const AfterWork& work) {
  within("ferment.enzymes_active", work.active.hours(), 0.0, 200.0, "h");
  within("ferment.dextrin_loss", work.dextrin_loss_per_h, 0.0, 10.0, "1/h");
  const Potential potential = extract_potential(bill);
  double ready_kg = 0.0;
  for (std::size_t i = 0; i < bill.size(); ++i) {
    ready_kg += potential.lines[i].extract.kilograms() *
                bill[i].ingredient.free_fermentable.value.fraction();
  }
  const double alpha = work.boiled ? 0.0 : rested.enzymes * rested.alpha_left.fraction();
  const double dextrin_left = rested.dextrin.fraction() *
                              std::exp(-work.dextrin_loss_per_h * alpha * work.active.hours());
  const double from_starch =
      rested.fermentable.fraction() + rested.dextrin.fraction() - dextrin_left;
  const double fermentable_kg = ready_kg + potential.starch.kilograms() * from_starch;
  const double extract_kg = extract_made(bill, mash, rested).kilograms();
  if (!(extract_kg > 0.0)) return units::Share();
  return units::Share::fraction(fermentable_kg / extract_kg);
}

}  // namespace lynearm::mash
