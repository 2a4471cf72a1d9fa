// lynearm spirit: one spirit run from a charge, in a kit or in a usual still: its curve, cuts,
// jars and congeners.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "cli/commands.hpp"
#include "cli/feints_text.hpp"
#include "cli/spirit_text.hpp"
#include "cli/stated.hpp"
#include "cli/still_options.hpp"
#include "cli/still_run.hpp"
#include "cli/text_file.hpp"
#include "cli/visible.hpp"
#include "sheet/run_picture.hpp"
#include "still/feints.hpp"
#include "wire/feints.hpp"
#include "wire/still.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_coolant = "--coolant";
constexpr const char* option_coolant_in = "--coolant-in";
constexpr const char* option_foreshots = "--foreshots";
constexpr const char* option_begin = "--hearts-begin";
constexpr const char* option_end = "--hearts-end";
constexpr const char* option_jar = "--jar";
constexpr const char* option_picture = "--picture";
constexpr const char* option_generations = "--generations";

// Common practice, no source: half as much coolant again as the least, and a hundredth of the
// charge as foreshots where none are asked for.
constexpr double coolant_margin = 1.5;
constexpr double usual_foreshots = 0.01;
// A charge stronger than this flashes and parts badly; common practice, no source.
constexpr units::VolumeStrength strong_charge = units::VolumeStrength::percent(40.0);
// The power of the usual still is that of a gentle fire under 10 to 500 L.
constexpr units::Power most_usual_power = units::Power::kilowatts(45.0);
// Below this plates add less than a point or two; our estimate.
constexpr units::Share little_reflux = units::Share::fraction(0.2);
// Of a charge made up with feints; and how far oils may grow before feints are bled off. Both
// common practice, no source.
constexpr units::VolumeStrength usual_charge_at_most = units::VolumeStrength::percent(30.0);
constexpr double oils_put_up_with = 1.5;

struct AskedSpirit {
  AskedStill still;
  std::optional<units::VolumeFlow> coolant;
  std::optional<units::Temperature> coolant_in;
  std::optional<still::Border> foreshots, begin, end;
  std::optional<units::Volume> jar;
  std::optional<int> generations;
  std::string picture;
};

void ask_for_coolant(Arguments& arguments, AskedSpirit& asked) {
  asked.coolant = arguments.optional<units::VolumeFlow>(option_coolant);
  if (asked.coolant) {
    arguments.keep_within(option_coolant, *asked.coolant, units::VolumeFlow{},
                          units::VolumeFlow::litres_per_minute(1000.0));
  }
  asked.coolant_in = arguments.optional<units::Temperature>(option_coolant_in);
  if (asked.coolant_in) {
    arguments.keep_within(option_coolant_in, *asked.coolant_in,
                          units::Temperature::celsius(0.0), units::Temperature::celsius(60.0));
  }
}

void ask_for_cuts(Arguments& arguments, AskedSpirit& asked) {
  asked.foreshots = border(arguments, option_foreshots);
  asked.begin = border(arguments, option_begin);
  asked.end = border(arguments, option_end);
  const bool cuts = arguments.has(option_foreshots) || arguments.has(option_begin) ||
                    arguments.has(option_end);
  for (const char* option : {option_begin, option_end}) {
    if (cuts && !arguments.has(option)) {
      arguments.refuse(option, "", "a border of the hearts beside the other cuts");
    }
  }
  asked.jar = arguments.optional<units::Volume>(option_jar);
}

// Generations take the place of the one run: what shows the one run is not asked beside them.
void ask_for_generations(Arguments& arguments, AskedSpirit& asked) {
  if (!arguments.has(option_generations)) return;
  asked.generations = arguments.whole_number(option_generations, 1, still::most_generations, 1);
  for (const char* option : {option_begin, option_end}) {
    if (!arguments.has(option)) {
      arguments.refuse(option, "", "a border of the hearts beside --generations");
    }
  }
  for (const std::string option : {option_jar, option_picture, "--congeners", "--why"}) {
    if (arguments.has(option)) {
      const bool has_value = option == option_jar || option == option_picture;
      arguments.refuse(option, has_value ? arguments.texts(option).front() : "given",
                       fmt::format("no {} beside --generations", option));
    }
  }
}

AskedSpirit read(Arguments& arguments) {
  AskedSpirit asked;
  asked.still = asked_still(arguments);
  ask_for_coolant(arguments, asked);
  ask_for_cuts(arguments, asked);
  ask_for_generations(arguments, asked);
  if (arguments.has(option_picture)) {
    asked.picture = arguments.required_text(option_picture, "the path of a file to write");
  }
  return asked;
}

// Coil and coolant: the coil of a condenser that keeps its approaches at the boiler's full
// power, the coolant as asked or with a margin.
void set_condenser(const AskedSpirit& asked, const plan::Kit& kit, const still::Run& run,
                   const vapour::BoilingCurve& curve, still::Asked& wanted) {
  still::Condenser condenser;
  condenser.coolant_inlet = asked.coolant_in.value_or(kit.still.coolant_inlet);
  const still::Point& first = run.first();
  const still::VapourFlow running{first.over_mol_per_s, first.leaving_ethanol};
  const double full = std::max(1.0, kit.still.boiler.power / run.setting.heating.power);
  wanted.conductance =
      still::conductance({running.mol_per_s * full, running.ethanol}, condenser, curve);
  wanted.coolant = still::coolant_at_approaches(running, condenser, curve);
  wanted.coolant.flow = wanted.coolant.flow * coolant_margin;
  const units::VolumeFlow greatest = kit.still.greatest_coolant_flow;
  if (greatest > units::VolumeFlow{}) {
    wanted.coolant.flow = std::min(wanted.coolant.flow, greatest);
  }
  if (asked.coolant) wanted.coolant.flow = *asked.coolant;
}

std::vector<std::string> findings_of(const still::ToldRun& told, const AskedSpirit& asked,
                                     const plan::Kit& kit, const Look& look) {
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  std::vector<std::string> all;
  const still::Run& run = told.run;
  const plan::Boiler& boiler = kit.still.boiler;
  if (still::most_escaping(told) > units::Share{}) {
    all.push_back(
        fmt::format("with {} of coolant up to {} of the vapour escapes the condenser "
                    "and can catch fire. Less heat, or more or colder coolant.",
                    print(told.coolant.flow), print(still::most_escaping(told))));
  } else if (still::warmest_spirit(told) > units::Temperature::celsius(40.0)) {
    all.push_back(
        fmt::format("the spirit runs at up to {}: vapour may be escaping. Less heat, "
                    "or more or colder coolant.",
                    print(still::warmest_spirit(told))));
  }
  if (!asked.still.kit_path.empty()) {
    const units::Volume boiling = still::volume(
        run.charge,
        still::boiling_temperature(run.charge, vapour::BoilingCurve(told.pressure)));
    const units::Volume left = still::hot_volume(run.left(), run.last().pot_temperature);
    if (boiling > boiler.total) {
      const auto [swells, brim] = units::print_apart(boiling, boiler.total, look.units);
      all.push_back(
          fmt::format("the charge swells to {} at the boil, over the boiler's {}. "
                      "Charge less.",
                      swells, brim));
    }
    if (left < boiler.element_covered_above) {
      const auto [stays, needs] =
          units::print_apart(left, boiler.element_covered_above, look.units);
      all.push_back(
          fmt::format("{} is left in the boiler at the end; the element needs {} "
                      "over it and burns dry. Charge more, or stop earlier.",
                      stays, needs));
    }
  }
  if (asked.still.kit_path.empty() && !asked.still.power && boiler.power > most_usual_power) {
    all.push_back(
        fmt::format("no power is stated: {} is reckoned for a boiler of {}, far more than a "
                    "small still draws. Times and the head's share are a guess; state --power "
                    "or --kit.",
                    print(boiler.power), print(boiler.total)));
  }
  if (run.setting.head.plates > 0 && run.first().back < little_reflux) {
    all.push_back(fmt::format(
        "plates work with what runs back to them, and only {} of the vapour does at "
        "first: without a cooled head they do little.",
        print(run.first().back)));
  }
  if (spirit::strength(run.charge.spirit) > strong_charge) {
    all.emplace_back(
        "a charge over 40 %vol burns, and parts badly: water brings it down to 25 to "
        "35 %vol (common practice, no source).");
  }
  return all;
}

// "in a bare pot still of 21.4 L", when no kit was given.
std::string usual_still_words(const still::Run& run, const plan::Kit& kit, const Look& look) {
  const int plates = run.setting.head.plates;
  const std::string size = units::print(kit.still.boiler.total, look.units);
  if (plates == 0) return fmt::format("in a bare pot still of {}", size);
  return fmt::format("in a pot still of {} with {} {}", size, plates,
                     plates == 1 ? "plate" : "plates");
}

// The same charge of low wines again and again, each time with the feints of the run before.
std::string recycled(const AskedSpirit& asked, const Arguments& arguments, const Look& look) {
  const StillRun made = run_still(asked.still, arguments);
  const still::ToldFeints told = as_asked(arguments, still_run_names(), [&] {
    still::Recycling recycling;
    recycling.low_wines = {made.run.charge.spirit, made.run.charge.congeners.value()};
    recycling.charge_at_most = usual_charge_at_most;
    recycling.charge_temperature = made.run.charge.temperature;
    recycling.setting = made.run.setting;
    recycling.stop = asked.still.stop;
    recycling.borders = {asked.foreshots.value_or(asked.still.charge.volume * usual_foreshots),
                         *asked.begin, *asked.end};
    still::FeintsLimit limit{oils_put_up_with, std::nullopt};
    if (!asked.still.kit_path.empty()) {
      const plan::Boiler& boiler = made.kit.still.boiler;
      limit.greatest_charge = boiler.total * boiler.spirit_fill.fraction();
    }
    return still::tell_feints(recycling, *asked.generations, limit, made.curve,
                              vapour::CongenerCurve(made.curve));
  });
  return look.json ? wire::feints_json(told) + "\n" : feints_text(told, true, look);
}

std::string output(const AskedSpirit& asked, const Arguments& arguments, const Look& look) {
  if (asked.generations) return recycled(asked, arguments, look);
  StillRun made = run_still(asked.still, arguments);
  const plan::Kit& kit = made.kit;
  const std::string& kit_path = asked.still.kit_path;
  const still::ToldRun told = as_asked(arguments, still_run_names(), [&] {
    still::Asked wanted;
    if (asked.begin && asked.end) {
      wanted.borders =
          still::Borders{asked.foreshots.value_or(asked.still.charge.volume * usual_foreshots),
                         *asked.begin, *asked.end};
    }
    wanted.jar = asked.jar;
    wanted.amount_factor = usual_amount_factor;
    set_condenser(asked, kit, made.run, made.curve, wanted);
    return still::tell(std::move(made.run), wanted, made.curve);
  });

  SpiritWords words;
  words.congeners = arguments.has("--congeners");
  words.foreshots_usual = told.cuts.has_value() && !asked.foreshots;
  words.still = kit_path.empty() ? usual_still_words(told.run, kit, look)
                                 : fmt::format("in {}", kit.name);
  words.findings = findings_of(told, asked, kit, look);
  words.today = made.today;
  std::string text = look.json ? wire::spirit_json(told, words.today, words.findings) + "\n"
                               : spirit_text(told, words, look);
  if (arguments.has("--why") && !look.json) text += spirit_why(told, words, look);
  if (!asked.picture.empty()) {
    // A slip of the hand must not put a picture over what the maker wrote.
    std::error_code ignored;
    if (!kit_path.empty() && std::filesystem::equivalent(asked.picture, kit_path, ignored)) {
      throw base::InputError(option_picture, asked.picture, "a file that is not the kit");
    }
    const std::string title =
        fmt::format("Spirit run of {}", shown(told.run.charge.spirit, look.units));
    write_file(asked.picture, sheet::svg_file(sheet::run_picture(told, title, look.units)));
    if (!look.json) text += fmt::format("\nThe picture is in {}.\n", visible(asked.picture));
  }
  return text;
}

std::string run(Arguments& arguments, const Look& look) {
  const AskedSpirit asked = read(arguments);
  arguments.settle();
  return output(asked, arguments, look);
}

std::vector<Option> options() {
  std::vector<Option> all = still_run_options();
  for (Option option : std::vector<Option>{
           {option_coolant, "FLOW", "through the condenser: \"1.5 L/min\""},
           {option_coolant_in, "TEMPERATURE", "of the coolant coming in: \"15 °C\""},
           {option_foreshots, "BORDER", "end of the foreshots, as for --stop: \"150 mL\""},
           {option_begin, "BORDER", "begin of the hearts, as for --stop: \"73 %vol\""},
           {option_end, "BORDER", "end of the hearts, as for --stop: \"62 %vol\""},
           {option_jar, "VOLUME", "shows the run in jars of this: \"250 mL\""},
           {"--congeners", "", "shows all sixteen congeners, by fraction"},
           {option_generations, "NUMBER",
            "of the same charge, each with the feints of the run before"},
           {option_picture, "FILE", "writes the run as a picture, as SVG"},
           {"--why", "", "adds models and sources"}}) {
    all.push_back(std::move(option));
  }
  return all;
}

}  // namespace

Command spirit_command() {
  return {
      "spirit",
      "a spirit run from a charge: its curve, cuts, jars and congeners",
      options(),
      {R"(--charge "15 L @ 28 %vol" --stop "10 %vol" --hearts-begin "74 %vol" --hearts-end "62 %vol")",
       "15.0 L at 28.0 %vol gives hearts of 2.47 L at 69.1 %vol, with 40.6 % of its alcohol."},
      "Batch distillation in time, with heat balances of pot, head and condenser; congeners "
      "as\n"
      "traces, in the amounts of a usual charge (from memory). A head that loses heat sends\n"
      "more back at a gentler fire. Estimates all: nose and palate decide the cuts.\n"
      "Caution: never leave a heated still. If the coolant fails: heat off first. Foreshots\n"
      "are set aside, and nothing here says that a spirit is safe.\n",
      run};
}

}  // namespace lynearm::cli
