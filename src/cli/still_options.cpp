#include "cli/still_options.hpp"

#include <fmt/format.h>

#include <charconv>

#include "cli/stated.hpp"
#include "mash/heat.hpp"
#include "plan/process.hpp"
#include "plan/still_setting.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_reflux = "--head-reflux";
constexpr double usual_W_per_L = 60.0;
// Copper of a small pot, head included, for a litre of boiler (from memory: 5 to 7 kg on 20 L).
constexpr double usual_copper_kg_per_L = 0.3;
constexpr double head_part_of_copper = 0.25;

constexpr const char* a_border =
    "a strength at the spout such as \"65 %vol\", a temperature at the head such as \"92 °C\", "
    "or a volume such as \"150 mL\"";

}  // namespace

std::optional<units::Share> head_reflux(Arguments& arguments) {
  if (!arguments.has(option_reflux)) return std::nullopt;
  const std::string& text = arguments.texts(option_reflux).front();
  double fraction = -1.0;
  const char* end = text.data() + text.size();
  const std::from_chars_result read = std::from_chars(text.data(), end, fraction);
  const bool bare = read.ec == std::errc{} && read.ptr == end;
  const units::Parsed<units::Share> parsed = units::try_parse<units::Share>(text);
  if (parsed) fraction = parsed.value->fraction();
  if ((!bare && !parsed) || !(fraction >= 0.0 && fraction <= 0.9)) {
    arguments.refuse(option_reflux, text,
                     "a share of the rising vapour from 0 to 0.9, such as \"0.05\" or \"5 %\"");
    return std::nullopt;
  }
  return units::Share::fraction(fraction);
}

void check_lot(Arguments& arguments, const std::string& option, const units::StatedLot& lot,
               const std::string& noun) {
  if (!arguments.has(option) || arguments.refused(option)) return;
  const std::string& text = arguments.texts(option).front();
  if (!(lot.volume >= least_volume && lot.volume <= most_volume)) {
    arguments.refuse(option, text,
                     fmt::format("a volume of {} to {}", units::concise(least_volume),
                                 units::concise(most_volume)));
  } else if (spirit::volume_strength(lot.strength) < units::VolumeStrength::percent(0.1)) {
    arguments.refuse(option, text, fmt::format("{} of 0.1 %vol or more", noun));
  }
}

std::optional<still::Border> border(Arguments& arguments, const std::string& option) {
  if (!arguments.has(option)) return std::nullopt;
  const std::string& text = arguments.texts(option).front();
  if (const auto strength = units::try_parse<units::StatedStrength>(text)) {
    return spirit::volume_strength(*strength.value);
  }
  if (const auto head = units::try_parse<units::Temperature>(text)) return *head.value;
  const auto volume = units::try_parse<units::Volume>(text);
  if (volume && *volume.value >= units::Volume{}) return *volume.value;
  arguments.refuse(option, text, a_border);
  return std::nullopt;
}

still::Stop stop_at(Arguments& arguments, const std::string& option,
                    const std::optional<still::Border>& border) {
  still::Stop stop;
  if (!border) {
    if (!arguments.refused(option)) arguments.refuse(option, "", a_border);
    return stop;
  }
  if (const auto* strength = std::get_if<units::VolumeStrength>(&*border)) {
    if (*strength < units::VolumeStrength::percent(0.1)) {
      arguments.refuse(option, arguments.texts(option).front(),
                       "0.1 %vol or more: to run on below is to boil water");
    }
    stop.spout_strength = *strength;
  } else if (const auto* head = std::get_if<units::Temperature>(&*border)) {
    stop.head_temperature = *head;
  } else {
    stop.collected = std::get<units::Volume>(*border);
    if (!(*stop.collected > units::Volume{})) {
      arguments.refuse(option, arguments.texts(option).front(), "a volume above zero");
    }
  }
  return stop;
}

plan::Kit usual_still(units::Volume charge) {
  plan::Kit kit;
  kit.place.pressure = units::Pressure::atmospheres(1.0);
  kit.place.ambient = units::Temperature::celsius(20.0);
  plan::Boiler& boiler = kit.still.boiler;
  boiler.total = charge / boiler.spirit_fill.fraction();
  boiler.power = units::Power::watts(usual_W_per_L * boiler.total.litres());
  boiler.loss = mash::bare_heat_loss(boiler.total);
  boiler.wall_mass = units::Mass::kilograms(usual_copper_kg_per_L * boiler.total.litres());
  kit.still.head_mass = boiler.wall_mass * head_part_of_copper;
  kit.still.head_loss = plan::estimated_head_loss(boiler.total);
  kit.still.coolant_inlet = units::Temperature::celsius(15.0);
  kit.constants = plan::process_defaults().constants;
  return kit;
}

}  // namespace lynearm::cli
