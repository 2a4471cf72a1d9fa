#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"

namespace lynearm::units {
namespace {

// The largest unit shown in the system that is not above the value, else the smallest shown.
const Unit& chosen(double base, const Kind& kind, Shown system) {
  const Unit* largest = nullptr;
  const Unit* smallest = nullptr;
  for (const Unit& unit : kind.units) {
    if (unit.shown != system && unit.shown != Shown::always) continue;
    if (smallest == nullptr || unit.factor < smallest->factor) smallest = &unit;
    if (unit.factor > std::abs(base)) continue;
    if (largest == nullptr || unit.factor > largest->factor) largest = &unit;
  }
  base::ensure(smallest != nullptr, "each kind has a unit to be printed in");
  // Nothing is nothing in the unit one would use for something.
  if (base == 0.0) {
    for (const Unit& unit : kind.units) {
      if (unit.shown == system || unit.shown == Shown::always) return unit;
    }
  }
  return largest != nullptr ? *largest : *smallest;
}

std::string with_unit(std::string figure, const Unit& unit) {
  if (unit.name().empty()) return figure;
  return fmt::format("{} {}", figure, unit.name());
}

std::string in_system(double base, const Kind& kind, Shown system,
                      std::optional<int> decimals) {
  const Unit& unit = chosen(base, kind, system);
  const double figure = unit.from_base(base);
  int places = unit.decimals;
  if (unit.fewer_above && std::abs(figure) >= 10.0) --places;
  if (unit.fewer_above && std::abs(figure) >= 1000.0) --places;
  return with_unit(fixed(figure, decimals.value_or(std::max(places, 0))), unit);
}

std::string both(const std::string& metric, const std::string& us) {
  return metric == us ? metric : fmt::format("{} ({})", metric, us);
}

// `seconds` in two neighbouring units, rounded to the smaller one.
std::string in_two(double seconds, double large, std::string_view large_name, double small,
                   std::string_view small_name) {
  const auto rounded = std::llround(seconds / small);
  const auto per_large = std::llround(large / small);
  const auto whole = rounded / per_large;
  const auto rest = rounded % per_large;
  if (whole == 0) return fmt::format("{} {}", rest, small_name);
  if (rest == 0) return fmt::format("{} {}", whole, large_name);
  return fmt::format("{} {} {} {}", whole, large_name, rest, small_name);
}

}  // namespace

std::string fixed(double value, int decimals) {
  base::ensure(std::isfinite(value), "a printed figure is finite");
  std::string text = fmt::format("{:.{}f}", value, std::clamp(decimals, 0, 17));
  if (text.starts_with('-') && text.find_first_of("123456789") == std::string::npos) {
    text.erase(0, 1);
  }
  return text;
}

std::string print_base_value(double base, const Kind& kind, System system,
                             std::optional<int> decimals) {
  if (system == System::metric) return in_system(base, kind, Shown::metric, decimals);
  if (system == System::us) return in_system(base, kind, Shown::us, decimals);
  return both(in_system(base, kind, Shown::metric, decimals),
              in_system(base, kind, Shown::us, decimals));
}

std::string concise_base_value(double base, const Kind& kind) {
  base::ensure(std::isfinite(base), "a printed figure is finite");
  const Unit& unit = chosen(base, kind, Shown::metric);
  double figure = unit.from_base(base);
  if (std::abs(figure) < 1e-9) figure = 0.0;  // what is left of 273.15 - 273.15
  // No exponent that a person would have to read: "100000000 L", not "1e+08 L".
  constexpr double six_digits = 1e6;
  constexpr double whole_to = 1e15;  // beyond, its digits are no longer known
  const double size = std::abs(figure);
  if (size >= six_digits && size < whole_to) return with_unit(fixed(figure, 0), unit);
  return with_unit(fmt::format("{:.6g}", figure), unit);
}

std::string exact_base_value(double base, const Kind& kind) {
  base::ensure(std::isfinite(base), "a stored figure is finite");
  for (const Unit& unit : kind.units) {
    if (unit.factor == 1.0 && unit.point == 0.0)
      return with_unit(fmt::format("{}", base), unit);
  }
  // Kinds written in percent: enough digits that the product rounds back.
  const Unit& unit = kind.units.front();
  double figure = unit.from_base(base);
  for (int i = 0; i < 4 && unit.to_base(figure) != base; ++i) {
    figure = std::nextafter(figure, unit.to_base(figure) < base ? HUGE_VAL : -HUGE_VAL);
  }
  return with_unit(fmt::format("{}", figure), unit);
}

std::string print(Duration duration, System /*one for both*/) {
  const double seconds = duration.seconds();
  base::ensure(std::isfinite(seconds), "a printed figure is finite");
  if (seconds < 0.0) {
    const std::string positive = print(-duration);
    return positive == "0 s" ? positive : "-" + positive;
  }
  constexpr double minute = 60.0, hour = 3600.0, day = 86400.0;
  // Each limit is where the finer form would round up to the coarser one.
  if (seconds < 9.995 * minute) return in_two(seconds, minute, "min", 1.0, "s");
  if (seconds < day - 30.0) return in_two(seconds, hour, "h", minute, "min");
  if (seconds < 14.0 * day) return in_two(seconds, day, "d", hour, "h");
  if (seconds < 90.0 * day) return fmt::format("{} d", std::llround(seconds / day));
  if (duration.years() < 2.0) return fixed(duration.months(), 1) + " months";
  return fixed(duration.years(), 1) + " years";
}

std::string print(VolumeStrength strength, double proof_degrees, System system, int decimals) {
  const std::string metric = print(strength, System::metric, decimals);
  if (system == System::metric) return metric;
  const std::string us = fixed(proof_degrees, decimals) + " proof";
  return system == System::us ? us : both(metric, us);
}

std::string print(const StatedStrength& strength, int decimals) {
  const std::string figure = fixed(strength.value, decimals);
  switch (strength.scale) {
    case StrengthScale::percent_by_volume:
      return figure + " %vol";
    case StrengthScale::percent_by_volume_15C:
      return figure + " %vol at 15 °C";
    case StrengthScale::percent_by_volume_60F:
      return figure + " %vol at 60 °F";
    case StrengthScale::percent_by_mass:
      return figure + " %mass";
    case StrengthScale::us_proof:
      return figure + " proof";
  }
  return figure;
}

std::string print(const Price& price, int decimals) {
  const std::string amount = fixed(price.amount, decimals);
  switch (price.by) {
    case PricedBy::kilogram:
      return amount + " / kg";
    case PricedBy::litre:
      return amount + " / L";
    case PricedBy::kilowatt_hour:
      return amount + " / kWh";
    case PricedBy::piece:
      return amount + " each";
  }
  return amount;
}

}  // namespace lynearm::units
