#include "mash/dough_in.hpp"

#include <fmt/format.h>

#include <array>

#include "base/error.hpp"
#include "mash/limits.hpp"

namespace lynearm::mash {
namespace {

Contents as_contents(const Grist& grist) {
  within("grist.mass", grist.mass.kilograms(), 0.0, 1e4, "kg");
  within("grist.temperature", grist.temperature.celsius(), -20.0, 60.0, "°C");
  Contents contents;
  contents.grain = grist.mass;
  contents.moisture = grist.moisture;
  contents.temperature = grist.temperature;
  return contents;
}

}  // namespace

Contents dough_in(const Contents& liquor, const Grist& grist, const MashVessel& vessel) {
  const Contents dry = as_contents(grist);
  Contents mix = together(liquor, dry);
  const std::array<Body, 3> bodies{
      {{heat_capacity(liquor), liquor.temperature},
       {heat_capacity(dry), grist.temperature},
       {vessel.wall, vessel.warm ? liquor.temperature : vessel.wall_temperature}}};
  mix.temperature =
      mixing_temperature(bodies, hydration_heat(grist.mass, grist.moisture) - vessel.lost);
  return mix;
}

units::Temperature dough_in_temperature(const Contents& liquor, const Grist& grist,
                                        const MashVessel& vessel, units::Temperature rest) {
  within("mash.rest_temperature", rest.celsius(), 30.0, 80.0, "°C");
  const double grist_J = heat_capacity(as_contents(grist)).joules_per_kelvin() *
                         (rest - grist.temperature).kelvins();
  const double cold_wall_J = vessel.warm ? 0.0
                                         : vessel.wall.joules_per_kelvin() *
                                               (rest - vessel.wall_temperature).kelvins();
  const double wanted_J = grist_J + cold_wall_J + vessel.lost.joules() -
                          hydration_heat(grist.mass, grist.moisture).joules();
  const double giving_J_per_K =
      (heat_capacity(liquor) + (vessel.warm ? vessel.wall : units::HeatCapacity()))
          .joules_per_kelvin();
  if (!(giving_J_per_K > 0.0)) throw base::InputError("mash.water", "0 L", "above 0 L");
  const units::Temperature t =
      rest + units::TemperatureChange::kelvins(wanted_J / giving_J_per_K);
  if (t > units::Temperature::celsius(100.0)) {
    throw base::InputError(
        "mash.water", fmt::format("{:.1f} kg of liquor", liquor.mass().kilograms()),
        fmt::format("more liquor: it would have to be at {:.0f} °C", t.celsius()));
  }
  return t;
}

}  // namespace lynearm::mash
