#include "still/run.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "still/course.hpp"

namespace lynearm::still {

std::string_view words(Ending ending) {
  switch (ending) {
    case Ending::spout_strength:
      return "the spout fell to its strength";
    case Ending::head_temperature:
      return "the head rose to its temperature";
    case Ending::collected:
      return "the volume was collected";
    case Ending::least_in_pot:
      return "the pot fell to its least volume";
    case Ending::time:
      return "the time was up";
    case Ending::pot_dry:
      return "the pot boiled dry";
  }
  return "";
}

CongenerAmounts Run::congeners_collected(std::size_t i) const {
  base::ensure(charge.congeners.has_value() && i < congeners_in_pot.size(),
               "congeners are asked of a run that has them");
  CongenerAmounts collected = *charge.congeners;
  for (std::size_t k = 0; k < collected.grams.size(); ++k) {
    collected.grams[k] -= congeners_in_pot[i].grams[k] + congeners_held[i].grams[k];
  }
  return collected;
}

Run distil(const Charge& charge, const RunSetting& setting, const vapour::BoilingCurve& curve,
           const Stop& stop, const vapour::CongenerCurve* volatility) {
  check(charge, setting, stop);
  const units::Temperature boiling = boiling_temperature(charge, curve);
  if (!(charge.temperature.celsius() >= 0.0 && charge.temperature <= boiling)) {
    throw base::InputError("charge.temperature",
                           fmt::format("{:.1f} °C", charge.temperature.celsius()),
                           fmt::format("0 °C to the boil at {:.1f} °C", boiling.celsius()));
  }
  base::ensure(
      !charge.congeners || volatility == nullptr || volatility->pressure() == curve.pressure(),
      "congeners and boiling line are of one pressure");
  return Course(charge, setting, curve, stop, volatility).go();
}

}  // namespace lynearm::still
