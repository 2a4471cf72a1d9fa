#include "journal/glass.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "numeric/normal.hpp"
#include "spirit/gauging.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"

namespace lynearm::journal {
namespace {

using units::VolumeStrength;

// Points of true strength a kelvin, where the glass keeps its figure.
double percent_per_kelvin(VolumeStrength strength) {
  const double shown = std::clamp(strength.percent(), 1.0, 95.0);
  const auto true_at = [&](double celsius) {
    return spirit::volume_strength(
               spirit::true_mass_fraction({shown, spirit::Scale::percent_vol},
                                          units::Temperature::celsius(celsius)))
        .percent();
  };
  return (true_at(21.0) - true_at(19.0)) / 2.0;
}

}  // namespace

Glass glass_of(const plan::Instruments& kit) {
  Glass glass;
  glass.temperature_sd =
      units::TemperatureChange::kelvins(kit.thermometer.kelvins() / numeric::half_of_80);
  const std::string certificate = kit.certificate.empty() ? "" : ", " + kit.certificate;
  if (kit.alcoholmeter_class == plan::AlcoholmeterClass::uncertified) {
    glass.strength_sd =
        VolumeStrength::percent(kit.alcoholmeter.percent() / numeric::half_of_80);
    glass.name = fmt::format("the kit's alcoholmeter{}, within {:.2g} %vol four times in five",
                             certificate, kit.alcoholmeter.percent());
    return glass;
  }
  const spirit::HydrometerClass& of =
      spirit::hydrometer_classes()[static_cast<std::size_t>(kit.alcoholmeter_class)];
  glass.strength_sd = VolumeStrength::percent(
      std::hypot(of.most_error_percent, of.division_percent / 2.0) / std::sqrt(3.0));
  glass.name = fmt::format("the kit's alcoholmeter, {}{}", of.name, certificate);
  return glass;
}

VolumeStrength reading_sd(const Glass& glass, VolumeStrength strength) {
  if (!(glass.temperature_sd > units::TemperatureChange{})) return glass.strength_sd;
  return VolumeStrength::percent(
      std::hypot(glass.strength_sd.percent(),
                 percent_per_kelvin(strength) * glass.temperature_sd.kelvins()));
}

std::string words(const Glass& glass) {
  if (!glass.known()) {
    return fmt::format(
        "an alcoholmeter to {:.1f} %vol, one standard deviation, our estimate: no kit says "
        "which it was",
        glass.strength_sd.percent());
  }
  return fmt::format(
      "{}: to {:.2f} %vol, and its thermometer to {:.2f} °C, one standard "
      "deviation each",
      glass.name, glass.strength_sd.percent(), glass.temperature_sd.kelvins());
}

}  // namespace lynearm::journal
