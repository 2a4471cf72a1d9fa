#include "cli/plan_text_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "spirit/strength.hpp"

namespace lynearm::cli::planned {
namespace {

using units::System;

// A figure of plan/figures.hpp in a system's unit.
struct Told {
  double value = 0.0;
  std::string_view unit;
  int decimals = 0;
};

Told told(const plan::Figure& figure, double value, System system) {
  if (system == System::us) {
    if (figure.unit == "kg") {
      return {units::Mass::kilograms(value).pounds(), "lb", figure.decimals};
    }
    if (figure.unit == "L") {
      return {units::Volume::litres(value).us_gallons(), "gal", figure.decimals + 1};
    }
    if (figure.unit == "°C") {
      return {units::Temperature::celsius(value).fahrenheit(), "°F", figure.decimals};
    }
    if (figure.unit == "%vol") {
      const auto strength = units::VolumeStrength::percent(value);
      return {spirit::proof(spirit::mass_fraction(strength)).degrees(), "proof", 1};
    }
  }
  return {value, figure.unit, figure.decimals};
}

std::string text(const Told& told) {
  const std::string figure = units::fixed(told.value, told.decimals);
  return told.unit.empty() ? figure : fmt::format("{} {}", figure, told.unit);
}

const plan::Figure& figure_of(std::string_view key) {
  const std::vector<plan::Figure>& all = plan::figures();
  const auto at = std::find_if(all.begin(), all.end(),
                               [key](const plan::Figure& figure) { return figure.key == key; });
  base::ensure(at != all.end(), "a principal figure is asked for by its key");
  return *at;
}

}  // namespace

std::string Batch::in_the_glass(units::Volume volume) const {
  const std::string metric = fmt::format("{:.0f} mL", volume.millilitres());
  const std::string us = fmt::format("{:.1f} fl oz", volume.us_fluid_ounces());
  if (look.units == System::metric) return metric;
  return look.units == System::us ? us : fmt::format("{} ({})", metric, us);
}

std::string Batch::in_the_jar(units::Volume volume) const {
  const std::string metric = fmt::format("{:.2f} L", volume.litres());
  const std::string us = fmt::format("{:.3f} gal", volume.us_gallons());
  if (look.units == System::metric) return metric;
  return look.units == System::us ? us : fmt::format("{} ({})", metric, us);
}

std::string Batch::on_the_scale(units::Mass mass) const {
  const std::string metric = fmt::format("{:.0f} g", mass.grams());
  const std::string us = fmt::format("{:.2f} oz", mass.ounces());
  if (look.units == System::metric) return metric;
  return look.units == System::us ? us : fmt::format("{} ({})", metric, us);
}

Line principal(const Batch& batch, std::string_view key, std::string name, std::string remark) {
  const plan::Figure& figure = figure_of(key);
  const double value = figure.of(batch.plan);
  const System system = batch.look.units;
  std::string shown = text(told(figure, value, system));
  if (system == System::both) {
    const std::string us = text(told(figure, value, System::us));
    if (us != shown) shown += fmt::format(" ({})", us);
  }
  const std::string band = band_of(batch, key);
  return {std::move(name), std::move(shown), band.empty() ? band : band.substr(1),
          std::move(remark)};
}

std::string band_of(const Batch& batch, std::string_view key) {
  if (batch.bands == nullptr) return {};
  for (const plan::Banded& banded : batch.bands->figures) {
    if (banded.figure->key != key) continue;
    const Told low = told(*banded.figure, banded.band.low, batch.look.units);
    const Told high = told(*banded.figure, banded.band.high, batch.look.units);
    const std::string from = units::fixed(low.value, low.decimals);
    const std::string to = units::fixed(high.value, high.decimals);
    if (from == to) return {};  // the recipe fixes it
    return fmt::format(" ({} to {})", from, to);
  }
  return {};
}

std::string count_of(int count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

bool something(const spirit::Lot& lot) { return lot.mass() > units::Mass::grams(1.0); }

}  // namespace lynearm::cli::planned
