#include "cli/table_ranges.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <utility>

#include "spirit/density.hpp"
#include "spirit/marks.hpp"

namespace lynearm::cli {
namespace {

using spirit::Degree;
using spirit::Scale;
using spirit::Strengths;
using spirit::TableKind;
using spirit::Temperatures;
using units::Temperature;

constexpr double least_step = 1e-6;

constexpr std::string_view scale_phrase =
    R"(a scale: "%vol", "%vol at 15 C", "%vol at 60 F", "%mass", "proof", "kg/m3", "SG" or "SG 60/60")";

const std::string& text_of(Arguments& arguments, const std::string& option) {
  return arguments.texts(option).front();
}

void refuse(Arguments& arguments, const std::string& option, std::string accepted) {
  if (arguments.refused(option)) return;
  arguments.refuse(option, text_of(arguments, option), std::move(accepted));
}

// One strength on a scale; nothing, and a fault, where the text is none.
std::optional<double> figure_on(Arguments& arguments, const std::string& option,
                                const std::string& text, Scale scale) {
  const units::Parsed<spirit::Reading> parsed = units::try_parse<spirit::Reading>(text);
  if (!parsed) {
    arguments.refuse(option, text, parsed.accepted);
    return std::nullopt;
  }
  if (parsed.value->scale != scale) {
    arguments.refuse(option, text, fmt::format("a figure in {}", spirit::unit_of(scale)));
    return std::nullopt;
  }
  return parsed.value->figure;
}

// A step in the unit of a scale: a strength, a density or a gravity of that size. A %vol stands
// for any of the %vol scales.
std::optional<double> step_on(Arguments& arguments, const std::string& option, Scale scale) {
  const std::string& text = text_of(arguments, option);
  std::optional<double> figure;
  if (scale == Scale::density) {
    if (const auto density = units::try_parse<units::Density>(text)) {
      figure = density.value->kilograms_per_cubic_metre();
    }
  } else if (spirit::of_density(scale)) {
    if (const auto gravity = units::try_parse<units::SpecificGravity>(text)) {
      figure = gravity.value->ratio();
    }
  } else if (const auto strength = units::try_parse<units::StatedStrength>(text)) {
    const Scale stated = units::try_parse<spirit::Reading>(text).value->scale;
    const auto by_volume = [](Scale s) {
      return s == Scale::percent_vol || s == Scale::percent_vol_15C ||
             s == Scale::percent_vol_60F;
    };
    if (stated == scale || (stated == Scale::percent_vol && by_volume(scale))) {
      figure = strength.value->value;
    }
  }
  if (!figure) {
    const std::string unit = spirit::unit_of(scale);
    const std::string example = scale == Scale::density ? "5 kg/m3"
                                : spirit::of_density(scale)
                                    ? "0.005"
                                    : "1 " + unit.substr(0, unit.find(' '));
    refuse(arguments, option, fmt::format("a step such as \"{}\"", example));
  } else if (!(*figure >= least_step)) {
    refuse(arguments, option, "a step above zero, 0.000001 or more");
    figure.reset();
  }
  return figure;
}

// The figures of a range; none when it runs backward.
std::vector<double> stepped(Arguments& arguments, const std::string& prefix, const Range& range,
                            const std::string& low, const std::string& high) {
  if (range.to < range.from) {
    if (arguments.has(prefix + "to")) {
      refuse(arguments, prefix + "to", fmt::format("{} or more", low));
    } else {
      refuse(arguments, prefix + "from",
             fmt::format("at most {}, unless {}to is given too", high, prefix));
    }
    return {};
  }
  const double count = (range.to - range.from) / range.step;
  if (!(count < static_cast<double>(spirit::most_cells))) {
    const std::string option = arguments.has(prefix + "step") ? prefix + "step" : prefix + "to";
    refuse(arguments, option, fmt::format("at most {} cells in a table", spirit::most_cells));
    return {};
  }
  return spirit::heads(range.from, range.to, range.step);
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

std::vector<std::string> parted(const std::string& text) {
  std::vector<std::string> parts;
  std::string_view rest = text;
  while (true) {
    const std::size_t comma = rest.find(',');
    parts.emplace_back(trimmed(rest.substr(0, comma)));
    if (comma == std::string_view::npos) return parts;
    rest.remove_prefix(comma + 1);
  }
}

// Whether the figures rise; a fault where they do not.
bool rising(Arguments& arguments, const std::string& option,
            const std::vector<double>& figures) {
  for (std::size_t i = 1; i < figures.size(); ++i) {
    if (figures[i] > figures[i - 1]) continue;
    refuse(arguments, option, "a list in which each is higher than the one before");
    return false;
  }
  return true;
}

bool in_fahrenheit(std::string_view text) {
  text = trimmed(text);
  return text.ends_with('F') || text.ends_with("ahrenheit");
}

double figure_in(Temperature t, bool fahrenheit) {
  return fahrenheit ? t.fahrenheit() : t.celsius();
}

// A temperature within the formula's range, in the unit of the head.
std::optional<double> temperature_in(Arguments& arguments, const std::string& option,
                                     const std::string& text, bool fahrenheit) {
  const units::Parsed<Temperature> parsed = units::try_parse<Temperature>(text);
  if (!parsed) {
    arguments.refuse(option, text, parsed.accepted);
    return std::nullopt;
  }
  if (in_fahrenheit(text) != fahrenheit) {
    arguments.refuse(
        option, text,
        fmt::format("a temperature in {}, as the other columns", fahrenheit ? "°F" : "°C"));
    return std::nullopt;
  }
  std::string accepted = "-20 to 40 °C, the range of the density formula (OIML R 22)";
  if (*parsed.value > spirit::warmest) {
    accepted +=
        "; spirit above 40 °C at the spout means vapour may be escaping: heat off first, "
        "then let the sample cool in a closed jar";
  }
  if (!(*parsed.value >= spirit::coldest && *parsed.value <= spirit::warmest)) {
    arguments.refuse(option, text, accepted);
    return std::nullopt;
  }
  return figure_in(*parsed.value, fahrenheit);
}

}  // namespace

std::optional<Scale> scale_called(std::string_view word) {
  word = trimmed(word);
  if (word.empty()) return std::nullopt;
  // A figure that stands on some scale, whatever the word turns out to mean.
  for (const std::string_view figure : {"50", "900", "0.9"}) {
    const auto parsed = units::try_parse<spirit::Reading>(fmt::format("{} {}", figure, word));
    if (parsed) return parsed.value->scale;
  }
  return std::nullopt;
}

std::optional<Scale> asked_scale(Arguments& arguments, const std::string& option) {
  if (!arguments.has(option)) return std::nullopt;
  const std::optional<Scale> scale = scale_called(text_of(arguments, option));
  if (!scale) refuse(arguments, option, std::string(scale_phrase));
  return scale;
}

Strengths asked_strengths(Arguments& arguments, const std::string& prefix, Scale scale,
                          const Range& otherwise) {
  Range range = otherwise;
  bool good = true;
  const auto take = [&](const std::string& option, double& figure) {
    if (!arguments.has(option)) return;
    const auto read = figure_on(arguments, option, text_of(arguments, option), scale);
    if (read) figure = *read;
    good = good && read.has_value();
  };
  take(prefix + "from", range.from);
  take(prefix + "to", range.to);
  if (arguments.has(prefix + "step")) {
    const auto step = step_on(arguments, prefix + "step", scale);
    if (step) range.step = *step;
    good = good && step.has_value();
  }
  if (!good) return {{}, scale};
  const auto told = [&](double figure) {
    return fmt::format("{:.10g} {}", figure, spirit::unit_of(scale));
  };
  return {stepped(arguments, prefix, range, told(range.from), told(range.to)), scale};
}

Strengths asked_list_of_strengths(Arguments& arguments, const std::string& option,
                                  Scale scale) {
  Strengths list{{}, scale};
  for (const std::string& part : parted(text_of(arguments, option))) {
    const auto figure = figure_on(arguments, option, part, scale);
    if (!figure) return {{}, scale};
    list.figures.push_back(*figure);
  }
  if (!rising(arguments, option, list.figures)) list.figures.clear();
  return list;
}

Temperatures asked_temperatures(Arguments& arguments, bool fahrenheit) {
  Temperatures made;
  if (arguments.has("--columns")) {
    const std::vector<std::string> parts = parted(text_of(arguments, "--columns"));
    fahrenheit = in_fahrenheit(parts.front());
    made.degree = fahrenheit ? Degree::fahrenheit : Degree::celsius;
    for (const std::string& part : parts) {
      const auto figure = temperature_in(arguments, "--columns", part, fahrenheit);
      if (!figure) return {{}, made.degree};
      made.figures.push_back(*figure);
    }
    if (!rising(arguments, "--columns", made.figures)) made.figures.clear();
    return made;
  }
  for (const char* option : {"--columns-to", "--columns-from"}) {
    if (arguments.has(option)) fahrenheit = in_fahrenheit(text_of(arguments, option));
  }
  made.degree = fahrenheit ? Degree::fahrenheit : Degree::celsius;
  Range range = fahrenheit ? Range{48.0, 88.0, 4.0} : Range{10.0, 30.0, 2.0};
  bool good = true;
  const auto take = [&](const std::string& option, double& figure) {
    if (!arguments.has(option)) return;
    const auto read = temperature_in(arguments, option, text_of(arguments, option), fahrenheit);
    if (read) figure = *read;
    good = good && read.has_value();
  };
  take("--columns-from", range.from);
  take("--columns-to", range.to);
  const std::string step_option = "--columns-step";
  if (const auto step = arguments.optional<units::TemperatureChange>(step_option)) {
    range.step = fahrenheit ? step->fahrenheit_degrees() : step->kelvins();
    if (!arguments.refused(step_option) && !(range.step >= least_step)) {
      refuse(arguments, step_option, "a step above zero, 0.000001 or more");
    }
    good = good && !arguments.refused(step_option);
  }
  if (!good) return {{}, made.degree};
  const auto told = [&](double figure) {
    return fmt::format("{:.10g} {}", figure, fahrenheit ? "°F" : "°C");
  };
  made.figures = stepped(arguments, "--columns-", range, told(range.from), told(range.to));
  return made;
}

Range usual_rows(TableKind kind, Scale scale) {
  // Where the scale is one of density, every table is that of the spirits a still gives.
  if (scale == Scale::density) return {800.0, 985.0, 5.0};
  if (spirit::of_density(scale)) return {0.800, 0.985, 0.005};
  const double unit = scale == Scale::us_proof ? 2.0 : 1.0;  // of a percent, in the scale
  switch (kind) {
    case TableKind::correction:
    case TableKind::showing:
      return {20.0 * unit, 95.0 * unit, unit};
    case TableKind::reduction:
      return {50.0 * unit, 96.0 * unit, unit};
    case TableKind::volume:
    case TableKind::density:
      return {0.0, 100.0 * unit, 5.0 * unit};
    case TableKind::mass:
      return {0.0, 100.0 * unit, 2.0 * unit};
  }
  return {};
}

std::vector<double> usual_ends(Scale scale) {
  if (scale == Scale::us_proof) return {80, 86, 90, 92, 100, 110, 120, 125};
  if (scale == Scale::percent_mass) return {33, 35, 38, 40, 42, 47, 52};
  if (scale == Scale::density) return {900, 910, 920, 930, 940, 950};
  if (spirit::of_density(scale)) return {0.90, 0.91, 0.92, 0.93, 0.94, 0.95};
  return {40, 42, 43, 45, 46, 50, 55, 60};
}

}  // namespace lynearm::cli
