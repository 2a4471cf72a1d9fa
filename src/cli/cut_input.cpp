#include "cli/cut_input.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "cli/cut_jars.hpp"
#include "cli/stated.hpp"
#include "cli/text_file.hpp"
#include "units/unit_in_name.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_weights = "--weights";
constexpr std::string_view weights_accepted =
    R"(weights such as "volume 1, strength 0.2, early 0.3, late 2, fault 1", each once)";

std::string_view trimmed(std::string_view text) {
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  return text;
}

double* weight_of(still::Weights& weights, std::string_view name) {
  if (name == "volume") return &weights.volume;
  if (name == "strength") return &weights.strength;
  if (name == "early") return &weights.early;
  if (name == "late") return &weights.late;
  if (name == "fault") return &weights.fault;
  return nullptr;
}

// "late 2, early 0.5": what is not named keeps the purpose's weight.
bool read_weights(std::string_view text, still::Weights& weights) {
  std::vector<const double*> named;
  while (!text.empty()) {
    const std::size_t comma = std::min(text.find(','), text.size());
    const std::string_view part = trimmed(text.substr(0, comma));
    text.remove_prefix(std::min(comma + 1, text.size()));
    const std::size_t space = part.find(' ');
    if (space == std::string_view::npos) return false;
    double* const weight = weight_of(weights, part.substr(0, space));
    const auto figure = units::bare_number(part.substr(space));
    if (weight == nullptr || !figure) return false;
    if (std::find(named.begin(), named.end(), weight) != named.end()) return false;
    named.push_back(weight);
    *weight = *figure.value;
  }
  return true;
}

std::optional<units::VolumeStrength> strength(Arguments& arguments, const char* option) {
  const auto stated = arguments.optional<units::StatedStrength>(option);
  if (!stated || arguments.refused(option)) return std::nullopt;
  return spirit::volume_strength(*stated);
}

std::optional<units::Volume> volume(Arguments& arguments, const char* option) {
  const auto stated = arguments.optional<units::Volume>(option);
  if (stated) arguments.keep_within(option, *stated, least_volume, most_volume);
  return stated;
}

}  // namespace

std::vector<Option> cut_wishes_options() {
  return {
      {"--purpose", "PURPOSE", "clean, for quick ageing (default), or fuller, for long ageing"},
      {option_weights, "WEIGHTS",
       "your own, over the purpose's: \"late 2, early 0.3\"; also volume, strength, fault"},
      {"--hearts", "VOLUME", "the volume of hearts wanted, at 20 °C before reducing: \"4 L\""},
      {"--pure-alcohol", "VOLUME", "the pure alcohol wanted in them instead: \"2.6 L\""},
      {"--hearts-at-least", "STRENGTH", "the least strength of the hearts together"},
      {"--hearts-at-most", "STRENGTH", "the greatest strength of the hearts together"},
      {"--jars-at-least", "STRENGTH", "no jar weaker than this in the hearts: \"56 %vol\""},
      {"--foreshots", "VOLUME",
       "jars begun before so much had run are foreshots, the first in any case; one that takes "
       "the last quarter of them or less is for the feints"},
  };
}

AskedCut asked_cut(Arguments& arguments) {
  AskedCut asked;
  asked.purpose = arguments.has("--purpose") ? arguments.texts("--purpose").front() : "clean";
  try {
    asked.wishes.weights = still::purpose(asked.purpose).weights;
  } catch (const base::InputError& error) {
    arguments.refuse("--purpose", asked.purpose, error.faults().front().accepted);
  }
  if (arguments.has(option_weights)) {
    asked.purpose = "own";
    const std::string& text = arguments.texts(option_weights).front();
    if (!read_weights(text, asked.wishes.weights) || trimmed(text).empty())
      arguments.refuse(option_weights, text, std::string(weights_accepted));
  }
  asked.wishes.hearts = volume(arguments, "--hearts");
  asked.wishes.pure_alcohol = volume(arguments, "--pure-alcohol");
  if (asked.wishes.hearts && asked.wishes.pure_alcohol &&
      !arguments.refused("--pure-alcohol")) {
    arguments.refuse("--pure-alcohol", arguments.texts("--pure-alcohol").front(),
                     "either --hearts or --pure-alcohol, not both");
  }
  asked.wishes.hearts_at_least = strength(arguments, "--hearts-at-least");
  asked.wishes.hearts_at_most = strength(arguments, "--hearts-at-most");
  asked.wishes.jars_at_least = strength(arguments, "--jars-at-least");
  asked.wishes.foreshots = volume(arguments, "--foreshots");
  return asked;
}

std::vector<still::Jar> asked_jars(Arguments& arguments) {
  const std::string path = arguments.required_text(
      "--jars", "a file of comma-separated text, or - for standard input");
  const bool standard_input = path == "-";
  std::string text;
  if (!path.empty()) {
    text = read_file(arguments, "--jars", standard_input ? "/dev/stdin" : path,
                     "a file of comma-separated text");
  }
  arguments.settle();
  return jars_of(text, standard_input ? "standard input" : path);
}

}  // namespace lynearm::cli
