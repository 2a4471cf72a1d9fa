#include "still/run_time.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"

namespace lynearm::still {
namespace {

void check_steps(const std::vector<PowerStep>& steps) {
  for (std::size_t i = 1; i < steps.size(); ++i) {
    if (steps[i].from_collected > steps[i - 1].from_collected) continue;
    throw base::InputError(
        "run.power_steps",
        fmt::format("{:.3g} L after {:.3g} L", steps[i].from_collected.litres(),
                    steps[i - 1].from_collected.litres()),
        "volumes that rise from step to step");
  }
}

double net_W(const Heating& heating, units::Power power, units::Temperature pot) {
  Heating now = heating;
  now.power = power;
  const double net = net_power(now, pot).watts();
  if (net > 0.0) return net;
  throw base::InputError("run.heating.power", fmt::format("{:.0f} W", power.watts()),
                         fmt::format("enough to keep the pot boiling at {:.1f} °C: more than "
                                     "{:.0f} W",
                                     pot.celsius(),
                                     (power.watts() * heating.efficiency.fraction() - net) /
                                         std::max(heating.efficiency.fraction(), 1e-3)));
}

}  // namespace

void add_time(Run& run) {
  const std::vector<PowerStep>& steps = run.setting.power_steps;
  check_steps(steps);
  const Heating& heating = run.setting.heating;
  units::Power power = heating.power;
  std::size_t next_step = 0;
  double seconds = 0.0;
  double drawn_J = 0.0;
  for (std::size_t i = 1; i < run.points.size(); ++i) {
    const Point& from = run.points[i - 1];
    Point& to = run.points[i];
    const double heat_J = (to.into_pot - from.into_pot).joules();
    const double litres = (to.collected - from.collected).litres();
    double done = 0.0;
    const auto spend = [&](double until) {
      const double inverse_W = 0.5 * (1.0 / net_W(heating, power, from.pot_temperature) +
                                      1.0 / net_W(heating, power, to.pot_temperature));
      const double part_s = (until - done) * heat_J * inverse_W;
      seconds += part_s;
      drawn_J += part_s * power.watts();
      done = until;
    };
    while (next_step < steps.size() && steps[next_step].from_collected < to.collected) {
      const double reached =
          litres > 0.0 ? (steps[next_step].from_collected - from.collected).litres() / litres
                       : 0.0;
      spend(std::clamp(reached, done, 1.0));
      power = steps[next_step++].power;
    }
    spend(1.0);
    to.since_boiling = units::Duration::seconds(seconds);
    to.drawn = units::Energy::joules(drawn_J);
  }
}

}  // namespace lynearm::still
