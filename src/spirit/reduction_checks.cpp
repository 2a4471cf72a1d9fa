#include "spirit/reduction_checks.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>

#include "base/error.hpp"

namespace lynearm::spirit {

void check_amount(units::Mass mass, std::string_view field) {
  const double kg = mass.kilograms();
  if (!(kg >= 0.0 && std::isfinite(kg))) {
    throw base::InputError(std::string(field), fmt::format("{:.4f} kg", kg),
                           "a mass, zero or more");
  }
}

void check_amount(const Lot& lot, std::string_view field) {
  check_amount(lot.ethanol, field);
  check_amount(lot.water, field);
}

void check_wanted(units::Volume volume, std::string_view field) {
  const double litres = volume.litres();
  if (!(litres > 0.0 && std::isfinite(litres))) {
    throw base::InputError(std::string(field), fmt::format("{:.4f} L", litres),
                           "a volume above zero");
  }
}

void check_wanted(units::VolumeStrength strength, std::string_view field) {
  if (!(strength.fraction() > 0.0 && strength.fraction() <= 1.0)) {
    throw base::InputError(std::string(field), fmt::format("{:.2f} %vol", strength.percent()),
                           "above 0 and at most 100 %vol");
  }
}

double rounded_down(double limit, int decimals) {
  const double scale = std::pow(10.0, decimals);
  constexpr double last_bits = 1e-9;
  return std::floor(limit * scale + last_bits) / scale;
}

double rounded_up(double limit, int decimals) { return -rounded_down(-limit, decimals); }

}  // namespace lynearm::spirit
