#include "spirit/weighing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "base/error.hpp"
#include "spirit/density.hpp"

namespace lynearm::spirit {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

std::string grams(units::Mass mass) {
  return mass.kilograms() < 10.0 ? fmt::format("{:.3f} g", mass.grams())
                                 : fmt::format("{:.4f} kg", mass.kilograms());
}

void check_tare(const Weighing& weighing) {
  const double tare_kg = weighing.tare.kilograms();
  if (!(tare_kg >= 0.0 && tare_kg < infinite)) {
    throw base::InputError("weighing.tare", fmt::format("{:.4f} kg", tare_kg), "zero or more");
  }
}

// What the scale shows for the content alone.
units::Mass net(units::Mass shown, const Weighing& weighing) {
  check_tare(weighing);
  if (!(shown >= weighing.tare && shown.kilograms() < infinite)) {
    throw base::InputError("shown", grams(shown),
                           fmt::format("{} (the tare) or more", grams(weighing.tare)));
  }
  return shown - weighing.tare;
}

units::Volume volume_of(const Flask& flask, units::Temperature t) {
  if (!(flask.volume.litres() > 0.0)) {
    throw base::InputError("flask.volume", fmt::format("{:.4f} mL", flask.volume.millilitres()),
                           "above zero");
  }
  return true_volume(flask.volume, t, flask.glass);
}

units::Mass shows(units::Density content, units::Volume volume, const Weighing& weighing) {
  return weighing.tare + weight_in_air(volume, content, weighing.air, weighing.weights);
}

void check_lot(const Lot& lot) {
  if (!(lot.ethanol >= units::Mass{} && lot.water >= units::Mass{} &&
        lot.mass().kilograms() < infinite)) {
    throw base::InputError("lot",
                           fmt::format("{:.4f} kg ethanol, {:.4f} kg water",
                                       lot.ethanol.kilograms(), lot.water.kilograms()),
                           "zero or more of each");
  }
}

}  // namespace

units::Density density_in_flask(units::Mass shown, units::Temperature t, const Flask& flask,
                                const Weighing& weighing) {
  return density_of(net(shown, weighing), volume_of(flask, t), weighing.air, weighing.weights);
}

units::MassFraction mass_fraction_in_flask(units::Mass shown, units::Temperature t,
                                           const Flask& flask, const Weighing& weighing) {
  const units::Mass lightest =
      flask_shows(units::MassFraction::fraction(1.0), t, flask, weighing);
  const units::Mass heaviest = flask_shows(units::MassFraction{}, t, flask, weighing);
  constexpr double rounding = 1e-12;
  if (!(shown >= lightest * (1.0 - rounding) && shown <= heaviest * (1.0 + rounding))) {
    throw base::InputError("shown", grams(shown),
                           fmt::format("{} (pure ethanol) to {} (water) with that flask at "
                                       "{:.1f} °C",
                                       grams(lightest), grams(heaviest), t.celsius()));
  }
  return mass_fraction_at(density_in_flask(shown, t, flask, weighing), t);
}

units::Mass flask_shows(units::MassFraction ethanol, units::Temperature t, const Flask& flask,
                        const Weighing& weighing) {
  check_tare(weighing);
  return shows(density(ethanol, t), volume_of(flask, t), weighing);
}

Flask flask_by_water(units::Mass shown, units::Temperature t, const Vessel& glass,
                     const Weighing& weighing) {
  const units::Density water = density(units::MassFraction{}, t);
  const units::Mass mass = mass_of(net(shown, weighing), water, weighing.air, weighing.weights);
  const units::Volume truth =
      units::Volume::cubic_metres(mass.kilograms() / water.kilograms_per_cubic_metre());
  return {marked_volume(truth, t, glass), glass};
}

units::Mass balance_shows(const Lot& lot, units::Temperature t, const Weighing& weighing) {
  check_lot(lot);
  check_tare(weighing);
  return weighing.tare + weight_in_air(lot.mass(), density(mass_fraction(lot), t), weighing.air,
                                       weighing.weights);
}

Lot lot_weighed(units::Mass shown, units::MassFraction ethanol, units::Temperature t,
                const Weighing& weighing) {
  const units::Mass mass =
      mass_of(net(shown, weighing), density(ethanol, t), weighing.air, weighing.weights);
  return {mass * ethanol.fraction(), mass * (1.0 - ethanol.fraction())};
}

units::Mass water_weighed_in(const Lot& lot, units::Mass shown, units::Temperature t,
                             const Weighing& weighing) {
  const units::Mass before = balance_shows(lot, t, weighing);
  if (!(shown >= before)) {
    throw base::InputError("shown", grams(shown),
                           fmt::format("{} (what it shows already) or more", grams(before)));
  }
  const units::Mass content = net(shown, weighing);
  // mass = net / lightness(density(mass)): the air is some 1e-3 of the weight, so each step
  // gains three digits or more.
  units::Mass water = shown - before;
  double change_kg = 0.0;
  constexpr int steps = 20;
  for (int i = 0; i < steps; ++i) {
    const units::Density mixture = density(mass_fraction(lot + Lot{{}, water}), t);
    const units::Mass wanted =
        mass_of(content, mixture, weighing.air, weighing.weights) - lot.mass();
    // Rounding may leave a hair less than nothing when no water is wanted.
    const units::Mass next = std::max(wanted, units::Mass{});
    change_kg = std::abs((next - water).kilograms());
    water = next;
    if (change_kg <= 1e-15 * content.kilograms()) return water;
  }
  throw base::NotConverged("water weighed in", fmt::format("at {}, still moving by {:.3g} kg",
                                                           grams(water), change_kg));
}

}  // namespace lynearm::spirit
