#include "still/fit_readings.hpp"

#include <algorithm>
#include <cmath>

#include "spirit/density.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "still/condenser.hpp"
#include "still/sight.hpp"

namespace lynearm::still {
namespace {

constexpr double thermometer_K = 0.2;
constexpr double hydrometer_percent = 0.5;
constexpr double hydrometer_cold_percent = 1.5;  // no temperature was taken with it
constexpr double receiver_L = 0.02, receiver_share = 0.01;
constexpr double coolant_share = 0.06, coolant_W = 20.0;
constexpr double least_spirit_C = -20.0, most_spirit_C = 40.0;  // of OIML R 22
constexpr double head_hot_C = 60.0;

// Whether spirit ran at each reading, as far as the log shows it: from the first strength or
// volume on, between stops; in a log without either, from a hot head on.
std::vector<bool> running(const std::vector<Reading>& readings) {
  const bool shows = std::any_of(readings.begin(), readings.end(), [](const Reading& r) {
    return r.spout || (r.collected && r.collected->litres() > 0.0);
  });
  std::vector<bool> runs;
  bool now = false;
  double litres = 0.0;
  for (const Reading& r : readings) {
    if (r.event) now = false;
    if (shows) {
      const bool more = r.collected && r.collected->litres() > litres;
      if (more) litres = r.collected->litres();
      if (!r.event && (r.spout || more)) now = true;
    } else if (r.head_temperature && r.head_temperature->celsius() > head_hot_C) {
      now = !r.event;
    }
    runs.push_back(now);
  }
  return runs;
}

std::optional<double> strength_percent(const Reading& r) {
  const double at_C = r.spout_temperature ? r.spout_temperature->celsius()
                                          : spirit::reference_of(r.spout->scale).celsius();
  try {
    return spirit::volume_strength(
               spirit::true_mass_fraction(*r.spout, units::Temperature::celsius(std::clamp(
                                                        at_C, least_spirit_C, most_spirit_C))))
        .percent();
  } catch (const base::InputError&) {
    return std::nullopt;  // no spirit shows that
  }
}

// Litres at 20 °C of litres at the spout's temperature. What stands in the receiver is as a
// whole a little stronger than what runs; that changes its expansion by less than 0.1 %.
double litres_at_20C(double litres, double at_C, double percent) {
  const units::MassFraction p =
      spirit::mass_fraction(units::VolumeStrength::percent(std::clamp(percent, 0.0, 97.0)));
  return litres * (spirit::density(p, units::Temperature::celsius(
                                          std::clamp(at_C, least_spirit_C, most_spirit_C))) /
                   spirit::density(p, spirit::reference_20C));
}

}  // namespace

std::string_view words(LogInstrument instrument) {
  switch (instrument) {
    case LogInstrument::pot_thermometer:
      return "pot thermometer";
    case LogInstrument::head_thermometer:
      return "head thermometer";
    case LogInstrument::hydrometer:
      return "hydrometer";
    case LogInstrument::receiver:
      return "receiver";
    case LogInstrument::coolant:
      return "coolant";
  }
  return "";
}

std::string_view unit_of(LogInstrument instrument) {
  switch (instrument) {
    case LogInstrument::pot_thermometer:
    case LogInstrument::head_thermometer:
      return "°C";
    case LogInstrument::hydrometer:
      return "%vol";
    case LogInstrument::receiver:
      return "L";
    case LogInstrument::coolant:
      return "W";
  }
  return "";
}

SeenRun seen(const Record& record, std::optional<units::Duration> heat_off) {
  SeenRun all;
  const std::vector<bool> runs = running(record.readings);
  double percent = 60.0;
  std::optional<double> in_C, flow_L_s, spout_C;
  bool standing = false;
  for (std::size_t i = 0; i < record.readings.size(); ++i) {
    const Reading& r = record.readings[i];
    if (heat_off && r.at > *heat_off) break;
    if (r.event) standing = *r.event == Event::stopped;
    if (r.coolant_in) in_C = r.coolant_in->celsius();
    if (r.coolant_flow) flow_L_s = r.coolant_flow->litres_per_second();
    if (r.spout_temperature) spout_C = r.spout_temperature->celsius();
    const auto put = [&](LogInstrument instrument, double figure, double spread) {
      all.readings.push_back(
          {instrument, r.at.seconds(), figure, spread, spout_C.value_or(20.0), r.line});
    };
    if (r.pot_temperature) {
      put(LogInstrument::pot_thermometer, r.pot_temperature->celsius(), thermometer_K);
    }
    if (r.head_temperature && runs[i]) {
      put(LogInstrument::head_thermometer, r.head_temperature->celsius(), thermometer_K);
    }
    if (r.spout && !standing) {
      if (const std::optional<double> strength = strength_percent(r)) {
        percent = *strength;
        put(LogInstrument::hydrometer, percent,
            r.spout_temperature ? hydrometer_percent : hydrometer_cold_percent);
      } else {
        all.unread.push_back(r);
      }
    }
    if (r.collected) {
      const double litres =
          litres_at_20C(r.collected->litres(), spout_C.value_or(20.0), percent);
      put(LogInstrument::receiver, litres, std::hypot(receiver_L, receiver_share * litres));
    }
    if (r.coolant_out && in_C && flow_L_s && runs[i]) {
      const double W = *flow_L_s * coolant_J_per_L_K * (r.coolant_out->celsius() - *in_C);
      put(LogInstrument::coolant, W, std::hypot(coolant_W, coolant_share * W));
    }
  }
  return all;
}

Moment moment(const Run& run, double t_s) {
  const double first_s = run.first().since_start.seconds();
  const double last_s = run.last().since_start.seconds();
  const double within_s = std::clamp(t_s, first_s, last_s);
  Moment m;
  const std::optional<Point> point = point_at_time(run, units::Duration::seconds(within_s));
  if (point) {
    m.pot_C = point->pot_temperature.celsius();
    m.head_C = point->head_temperature.celsius();
    m.spout_percent = point->spout.percent();
    m.litres = point->collected.litres();
    m.over_L_s = point->flow.litres_per_second();
    if (t_s >= first_s) return m;
  }
  // Before the first drop, or in an interruption.
  const Sight at = sight(run, units::Duration::seconds(t_s));
  if (at.pot) m.pot_C = at.pot->celsius();
  if (t_s < first_s) {
    m.litres = 0.0;
  } else {
    m.litres = at.collected.litres();
    if (at.head) m.head_C = at.head->celsius();
    const auto after = std::upper_bound(
        run.points.begin(), run.points.end(), t_s,
        [](double wanted, const Point& p) { return wanted < p.since_start.seconds(); });
    m.spout_percent = (after - 1)->spout.percent();
  }
  return m;
}

double expected(const Seen& seen, const Moment& moment, const vapour::BoilingCurve& curve) {
  switch (seen.instrument) {
    case LogInstrument::pot_thermometer:
      return moment.pot_C;
    case LogInstrument::head_thermometer:
      return moment.head_C;
    case LogInstrument::hydrometer:
      return moment.spout_percent;
    case LogInstrument::receiver:
      return moment.litres;
    case LogInstrument::coolant:
      return heat_to_remove({units::VolumeFlow::litres_per_second(moment.over_L_s),
                             units::VolumeStrength::percent(moment.spout_percent)},
                            units::Temperature::celsius(std::clamp(seen.spout_C, 0.0, 60.0)),
                            curve)
          .watts();
  }
  return 0.0;
}

}  // namespace lynearm::still
