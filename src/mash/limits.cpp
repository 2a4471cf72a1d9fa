#include "mash/limits.hpp"

#include <fmt/format.h>

#include "base/error.hpp"

namespace lynearm::mash {

void within(const char* field, double value, double low, double high, const char* unit) {
  // Written so that NaN is refused too.
  if (value >= low && value <= high) return;
  const char* gap = *unit == '\0' ? "" : " ";
  throw base::InputError(field, fmt::format("{:.6g}{}{}", value, gap, unit),
                         fmt::format("{:g} to {:g}{}{}", low, high, gap, unit));
}

void within_liquid(const char* field, units::Temperature t) {
  // A temperature that went through kelvins may stand a rounding error above the boil.
  if (t.celsius() > 100.0 && t.celsius() < 100.0 + 1e-9) return;
  within(field, t.celsius(), 0.0, 100.0, "°C");
}

}  // namespace lynearm::mash
