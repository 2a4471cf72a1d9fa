#include "cli/gauge_input.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "cli/stated.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"

namespace lynearm::cli {
namespace {

using units::MassConcentration;
using units::TemperatureChange;

// Each tells the strength in its own way; one of them is given.
constexpr std::array<std::string_view, 5> ways{"--reading", "--density", "--flask-weight",
                                               "--index", "--strength"};

// What an instrument may be off where its owner says nothing; common practice, no source.
constexpr auto usual_thermometer = TemperatureChange::kelvins(0.5);
constexpr auto usual_meter = units::Density::kilograms_per_cubic_metre(0.1);
constexpr auto usual_index = units::RefractiveIndex::ratio(0.0002);
constexpr auto usual_flask_weight = units::Mass::grams(0.1);
constexpr auto usual_flask = units::Share::percent(0.1);
constexpr auto usual_volume = units::Share::percent(0.5);
constexpr auto usual_weight = units::Share::percent(0.1);

std::string one_way() { return fmt::format("one of {}", fmt::join(ways, ", ")); }

void refuse(Arguments& arguments, const char* option, std::string accepted) {
  if (arguments.has(option) && !arguments.refused(option)) {
    arguments.refuse(option, arguments.texts(option).front(), std::move(accepted));
  }
}

units::Temperature asked_temperature(Arguments& arguments) {
  const auto at = arguments.required<units::Temperature>("--at");
  std::string accepted = "-20 to 40 °C, the range of the density formula (OIML R 22)";
  if (at > spirit::warmest) {
    accepted +=
        "; spirit above 40 °C at the spout means vapour may be escaping: heat off first, "
        "then let the sample cool in a closed jar";
  }
  if (!(at >= spirit::coldest && at <= spirit::warmest)) refuse(arguments, "--at", accepted);
  return at;
}

// An error in the words of the reading's own scale: "0.5 %vol", "1 proof", "0.5 kg/m3", or a
// bare figure for a specific gravity.
double asked_reading_error(Arguments& arguments, const spirit::Reading& reading) {
  const std::string& text = arguments.texts("--error").front();
  double error = -1.0;
  if (reading.scale == spirit::Scale::density) {
    if (const auto density = units::try_parse<units::Density>(text)) {
      error = density.value->kilograms_per_cubic_metre();
    }
  } else if (reading.scale == spirit::Scale::specific_gravity ||
             reading.scale == spirit::Scale::specific_gravity_60F) {
    if (const auto gravity = units::try_parse<units::SpecificGravity>(text)) {
      error = gravity.value->ratio();
    }
  } else if (const auto stated = units::try_parse<spirit::Reading>(text)) {
    if (stated.value->scale == reading.scale) error = stated.value->figure;
  }
  if (!(error >= 0.0)) {
    refuse(arguments, "--error",
           fmt::format("the most the glass may be off, zero or more, on the scale it is read "
                       "on ({})",
                       spirit::words(reading.scale)));
  }
  return error;
}

// The scale's figure that one % of strength is, near the reading.
double figure_per_percent(const spirit::Reading& reading) {
  switch (reading.scale) {
    case spirit::Scale::us_proof:
      return 2.0;
    case spirit::Scale::density:
      return 1.0;  // a kg/m³: ISO 649-1 series L50 (from memory) promises half of it
    case spirit::Scale::specific_gravity:
    case spirit::Scale::specific_gravity_60F:
      return 0.001;
    default:
      return 1.0;
  }
}

spirit::ByHydrometer asked_reading(Arguments& arguments, AskedGauging& asked) {
  spirit::ByHydrometer by;
  by.reading = arguments.required<spirit::Reading>("--reading");
  by.hydrometer = asked_hydrometer(arguments);
  const double per_percent = figure_per_percent(by.reading);
  const std::string id =
      arguments.has("--class") ? arguments.texts("--class").front() : "house";
  try {
    const spirit::HydrometerClass& promised = spirit::hydrometer_class(id);
    by.most_error = promised.most_error_percent * per_percent;
    by.read_to = promised.division_percent * per_percent;
    asked.limits.emplace_back(promised.name);
  } catch (const base::InputError& error) {
    refuse(arguments, "--class", error.faults().front().accepted);
  }
  if (arguments.has("--error")) {
    by.most_error = asked_reading_error(arguments, by.reading);
    by.read_to = by.most_error;
    asked.limits.back() = "a glass good to " + arguments.texts("--error").front();
  }
  return by;
}

template <class Q>
Q asked_error(Arguments& arguments, Q usual, AskedGauging& asked, std::string_view noun) {
  const Q error = arguments.optional<Q>("--error").value_or(usual);
  if (!(error >= Q{})) refuse(arguments, "--error", "zero or more");
  if (!arguments.refused("--error")) {
    asked.limits.push_back(fmt::format("{} good to {}", noun, units::print(error)));
  }
  return error;
}

spirit::ByFlask asked_flask(Arguments& arguments, AskedGauging& asked) {
  spirit::ByFlask by;
  by.shown = arguments.required<units::Mass>("--flask-weight");
  by.flask.volume = arguments.required<units::Volume>("--flask");
  arguments.keep_within("--flask", by.flask.volume, units::Volume::millilitres(1.0),
                        units::Volume::litres(20.0));
  by.weighing.tare = arguments.optional<units::Mass>("--tare").value_or(units::Mass{});
  by.most_error = asked_error(arguments, usual_flask_weight, asked, "a balance");
  by.flask_error = by.flask.volume * usual_flask.fraction();
  asked.limits.push_back(fmt::format("a flask good to {}", units::concise(by.flask_error)));
  return by;
}

std::optional<spirit::Side> asked_side(Arguments& arguments) {
  if (!arguments.has("--side")) return std::nullopt;
  const std::string& side = arguments.texts("--side").front();
  if (side == "weak") return spirit::Side::weak;
  if (side == "strong") return spirit::Side::strong;
  arguments.refuse("--side", side, "weak or strong: which of the two strengths it is");
  return std::nullopt;
}

spirit::Observation asked_observation(Arguments& arguments, AskedGauging& asked) {
  const auto given = std::count_if(ways.begin(), ways.end(), [&](std::string_view way) {
    return arguments.has(std::string(way));
  });
  if (given == 0)
    arguments.refuse(
        "--reading", "",
        units::try_parse<spirit::Reading>("").accepted + "; or " +
            std::string("another of --density, --flask-weight, --index, --strength"));
  if (given > 1) {
    for (const std::string_view way : ways) {
      refuse(arguments, std::string(way).c_str(), "the only one of its kind: " + one_way());
    }
  }
  if (arguments.has("--density")) {
    const auto density = arguments.required<units::Density>("--density");
    return spirit::ByDensity{density,
                             asked_error(arguments, usual_meter, asked, "a density meter")};
  }
  if (arguments.has("--flask-weight")) return asked_flask(arguments, asked);
  if (arguments.has("--index")) {
    spirit::ByRefraction by;
    by.index = arguments.required<units::RefractiveIndex>("--index");
    by.side = asked_side(arguments);
    by.most_error = asked_error(arguments, usual_index, asked, "a refractometer");
    return by;
  }
  if (arguments.has("--strength")) {
    const auto stated = arguments.required<units::StatedStrength>("--strength");
    return spirit::KnownStrength{spirit::volume_strength(stated)};
  }
  if (arguments.has("--reading")) return asked_reading(arguments, asked);
  return spirit::ByHydrometer{};
}

template <class Q>
Q amount_error(Arguments& arguments, Q amount, Q usual, AskedGauging& asked,
               std::string_view noun) {
  Q error = usual;
  if (arguments.has("--amount-error")) {
    const std::string& text = arguments.texts("--amount-error").front();
    if (const auto share = units::try_parse<units::Share>(text)) {
      error = amount * share.value->fraction();
    } else {
      error = arguments.required<Q>("--amount-error");
    }
    if (!(error >= Q{} && error <= amount)) {
      refuse(arguments, "--amount-error",
             "a share or an amount, zero or more and at most the whole");
    }
  }
  if (!arguments.refused("--amount-error")) {
    asked.limits.push_back(fmt::format("{} good to {}", noun, units::print(error)));
  }
  return error;
}

struct AskedVessel {
  spirit::Vessel walls;
  const spirit::VolumeMeasure* measure = nullptr;  ///< with its class error, when one was named
};

// A measure ("cask"), or what a vessel is made of ("copper").
AskedVessel asked_vessel(Arguments& arguments) {
  if (!arguments.has("--vessel")) return {};
  if (!arguments.has("--volume")) refuse(arguments, "--vessel", "only beside --volume");
  const std::string& id = arguments.texts("--vessel").front();
  std::vector<std::string> known;
  for (const spirit::VolumeMeasure& each : spirit::volume_measures()) {
    if (each.id == id) return {spirit::vessel_of(spirit::material(each.material)), &each};
    known.emplace_back(each.id);
  }
  for (const spirit::Material& each : spirit::materials()) {
    if (each.id == id) return {spirit::vessel_of(each), nullptr};
    known.emplace_back(each.id);
  }
  const std::string nearest = base::nearest_name(id, known);
  // Glassware comes in many sizes; one of each is enough to know them by.
  std::erase_if(known, [](const std::string& name) {
    return (name.starts_with("flask") || name.starts_with("cylinder")) &&
           !name.ends_with("-500");
  });
  refuse(arguments, "--vessel",
         fmt::format("one of {}, and glassware of other sizes{}", fmt::join(known, ", "),
                     nearest.empty() ? "" : fmt::format(" (\"{}\" is the nearest)", nearest)));
  return {};
}

std::optional<spirit::AmountRead> asked_amount(Arguments& arguments, AskedGauging& asked) {
  const AskedVessel vessel = asked_vessel(arguments);
  if (arguments.has("--volume") && arguments.has("--weight")) {
    refuse(arguments, "--weight", "either --volume or --weight");
  }
  if (arguments.has("--volume")) {
    const auto marked = arguments.required<units::Volume>("--volume");
    arguments.keep_within("--volume", marked, least_volume, most_volume);
    const units::Volume usual = vessel.measure != nullptr
                                    ? spirit::most_error(*vessel.measure, marked)
                                    : marked * usual_volume.fraction();
    return spirit::VolumeRead{marked, vessel.walls,
                              amount_error(arguments, marked, usual, asked, "a volume")};
  }
  if (arguments.has("--weight")) {
    spirit::WeightRead read;
    read.shown = arguments.required<units::Mass>("--weight");
    arguments.keep_within("--weight", read.shown, units::Mass::grams(1.0),
                          units::Mass::kilograms(1e5));
    // The tare of a flask is not that of the whole lot's vessel.
    if (!arguments.has("--flask-weight")) {
      read.weighing.tare = arguments.optional<units::Mass>("--tare").value_or(units::Mass{});
    }
    read.most_error = amount_error(arguments, read.shown, read.shown * usual_weight.fraction(),
                                   asked, "a weight");
    return read;
  }
  return std::nullopt;
}

}  // namespace

std::vector<Option> gauging_options() {
  return {
      {"--reading", "READING",
       "what a hydrometer shows: \"62.4 %vol\", \"125 proof\", \"54.5 %mass\", \"0.9126 SG\""},
      {"--density", "DENSITY", "what a density meter shows at --at: \"0.90431 g/mL\""},
      {"--flask-weight", "MASS", "what the scale shows for a flask filled to its mark"},
      {"--flask", "VOLUME", "the volume of that flask at 20 °C: \"100 mL\""},
      {"--index", "INDEX", "what a refractometer shows: \"1.3612\""},
      {"--side", "weak|strong", "which of the two strengths that share an index"},
      {"--strength", "STRENGTH", "a strength known already, to reckon volumes with"},
      {"--at", "TEMPERATURE", "the spirit's temperature: \"27.5 C\" or \"81 F\""},
      {"--volume", "VOLUME", "what stands at the mark, at that temperature: \"4.2 L\""},
      {"--vessel", "KIND",
       "which vessel or of what, for its walls and class: cask, stainless-304"},
      {"--weight", "MASS", "instead of a volume, what the scale shows: \"7.4 kg\""},
      {"--tare", "MASS", "what the scale shows for the empty vessel"},
      {"--residue", "CONCENTRATION", "what evaporating leaves of a wooded spirit: \"1.5 g/L\""},
      {"--glass-true-at", "TEMPERATURE",
       "where the hydrometer is true, if not as its scale is"},
      {"--class", "CLASS",
       "of the hydrometer: class-1, class-2, class-3 or house (the default)"},
      {"--error", "FIGURE", "the most the instrument may be off: \"0.2 %vol\""},
      {"--thermometer-error", "CHANGE", "the most the thermometer may be off (0.5 K)"},
      {"--amount-error", "FIGURE",
       "the most the volume or weight may be off: \"10 mL\", \"0.5 %\""},
  };
}

spirit::Hydrometer asked_hydrometer(Arguments& arguments) {
  spirit::Hydrometer hydrometer;
  hydrometer.reference = arguments.optional<units::Temperature>("--glass-true-at");
  if (hydrometer.reference &&
      !(*hydrometer.reference >= spirit::coldest && *hydrometer.reference <= spirit::warmest)) {
    refuse(arguments, "--glass-true-at", "-20 to 40 °C");
  }
  return hydrometer;
}

AskedGauging asked_gauging(Arguments& arguments) {
  AskedGauging asked;
  asked.input.observation = asked_observation(arguments, asked);
  asked.input.at = asked_temperature(arguments);
  asked.input.thermometer_error =
      arguments.optional<TemperatureChange>("--thermometer-error").value_or(usual_thermometer);
  arguments.keep_within("--thermometer-error", asked.input.thermometer_error,
                        TemperatureChange{}, TemperatureChange::kelvins(10.0));
  if (!arguments.refused("--thermometer-error")) {
    asked.limits.push_back("a thermometer good to " +
                           units::concise(asked.input.thermometer_error));
  }
  asked.input.amount = asked_amount(arguments, asked);
  asked.input.residue =
      arguments.optional<MassConcentration>("--residue").value_or(MassConcentration{});
  arguments.keep_within("--residue", asked.input.residue, MassConcentration{},
                        spirit::most_residue);
  asked.input.residue_error = asked.input.residue * 0.05;
  arguments.settle();
  return asked;
}

}  // namespace lynearm::cli
