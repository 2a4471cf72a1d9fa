#include "sheet/batch_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "spirit/strength.hpp"

namespace lynearm::sheet {

using units::System;

namespace {

constexpr std::string_view hard_space = "\u00a0";

double proof_of(units::VolumeStrength strength) {
  return spirit::proof(spirit::mass_fraction(strength)).degrees();
}

// How a unit of plan/figures.hpp is told in US customary measure.
struct Told {
  std::string_view unit;
  double value = 0.0;
  int decimals = 0;
};

Told told_in_us(const plan::Figure& figure, double value) {
  if (figure.unit == "kg")
    return {"lb", units::Mass::kilograms(value).pounds(), figure.decimals};
  if (figure.unit == "L") {
    return {"gal", units::Volume::litres(value).us_gallons(), figure.decimals + 1};
  }
  if (figure.unit == "°C") {
    return {"°F", units::Temperature::celsius(value).fahrenheit(), figure.decimals};
  }
  if (figure.unit == "%vol") {
    return {"proof", proof_of(units::VolumeStrength::percent(value)), 1};
  }
  return {figure.unit, value, figure.decimals};
}

Told told(const plan::Figure& figure, double value, System system) {
  if (system == System::us) return told_in_us(figure, value);
  return {figure.unit, value, figure.decimals};
}

std::string with_unit(const Told& told) {
  const std::string figure = units::fixed(told.value, told.decimals);
  return told.unit.empty() ? figure : tight(fmt::format("{} {}", figure, told.unit));
}

}  // namespace

std::string tight(std::string_view with_hyphens) {
  const std::string text = with_minus(with_hyphens);
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool opens = i + 1 < text.size() && text[i + 1] == '(';
    if (text[i] == ' ' && !opens) {
      out += hard_space;
    } else {
      out += text[i];
    }
  }
  return out;
}

std::string cell(units::VolumeStrength strength, System system, int decimals) {
  return tight(units::print(strength, proof_of(strength), system, decimals));
}

std::string cell(units::Duration duration, System /*one for both*/) {
  return tight(units::print(duration));
}

std::string in_one_unit(units::Volume volume, units::Volume largest, System system) {
  const std::string metric = largest >= units::Volume::litres(1.0)
                                 ? fmt::format("{} L", units::fixed(volume.litres(), 2))
                                 : fmt::format("{} mL", units::fixed(volume.millilitres(), 0));
  const std::string us =
      largest >= units::Volume::us_quarts(1.0)
          ? fmt::format("{} qt", units::fixed(volume.us_quarts(), 2))
          : fmt::format("{} fl oz", units::fixed(volume.us_fluid_ounces(), 1));
  if (system == System::metric) return tight(metric);
  if (system == System::us) return tight(us);
  return tight(fmt::format("{} ({})", metric, us));
}

std::string hours_and_minutes(units::Duration duration) {
  const auto minutes = std::llround(duration.minutes());
  return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

std::string glass_unit(System system) { return system == System::us ? "fl oz" : "mL"; }
std::string volume_unit(System system) { return system == System::us ? "gal" : "L"; }
std::string strength_unit(System system) { return system == System::us ? "proof" : "%vol"; }
std::string temperature_unit(System system) { return system == System::us ? "°F" : "°C"; }

FigureAndUnit apart(std::string_view printed) {
  const std::size_t space = printed.find(' ');
  if (space == std::string_view::npos) return {std::string(printed), {}};
  std::string unit = tight(printed.substr(space + 1));
  // On paper a square is a square; "cm2" is what a keyboard has.
  for (const std::string_view square : {"cm2", "in2"}) {
    if (unit.starts_with(square)) unit.replace(2, 1, "²");
  }
  return {std::string(printed.substr(0, space)), std::move(unit)};
}

PlannedRow row_of(std::string name, const std::string& printed, const std::string& us,
                  std::string note, bool measured) {
  const FigureAndUnit parts = apart(with_minus(printed));
  if (!us.empty() && us != printed) {
    note = note.empty() ? tight(us) : fmt::format("{}; {}", tight(us), note);
  }
  return {std::move(name), parts.figure, parts.unit, measured, std::move(note)};
}

PlannedRow row(const Batch& batch, std::string name, units::VolumeStrength strength,
               std::string note, int decimals, bool measured) {
  const bool both = batch.system == System::both;
  const double proof = proof_of(strength);
  return row_of(std::move(name),
                units::print(strength, proof, both ? System::metric : batch.system, decimals),
                both ? units::print(strength, proof, System::us, decimals) : std::string{},
                std::move(note), measured);
}

PlannedRow row(const Batch& /*one for both*/, std::string name, units::Duration duration,
               std::string note, bool measured) {
  return {std::move(name), tight(units::print(duration)), {}, measured, std::move(note)};
}

std::string principal(const plan::Figure& figure, double value, System system) {
  const std::string first = with_unit(told(figure, value, system));
  if (system != System::both) return first;
  const std::string second = with_unit(told_in_us(figure, value));
  return first == second ? first : fmt::format("{} ({})", first, second);
}

double as_printed(double value, int decimals) {
  return std::strtod(units::fixed(value, decimals).c_str(), nullptr);
}

std::string less_or_more(double by, int decimals) {
  const std::string figure = units::fixed(by, decimals);
  const bool plus = by > 0.0 && figure != units::fixed(0.0, decimals);
  return fmt::format("{}{}", plus ? "+" : "", with_minus(figure));
}

double principal_as_printed(const plan::Figure& figure, double value, System system) {
  const Told first = told(figure, value, system);
  return as_printed(first.value, first.decimals);
}

std::string principal_band(const plan::Figure& figure, const numeric::Band& band,
                           System system) {
  const Told low = told(figure, band.low, system);
  const Told high = told(figure, band.high, system);
  return fmt::format("{}\u2060–\u2060{}", with_minus(units::fixed(low.value, low.decimals)),
                     with_minus(units::fixed(high.value, high.decimals)));
}

Html framed(const Caution& it) { return caution(it.word, it.text); }

std::string count_of(int count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace lynearm::sheet
