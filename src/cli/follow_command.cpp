// lynearm follow: a run followed while it happens, reading by reading, or a logged one
// replayed.
#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <limits>

#include "cli/air_pressure.hpp"
#include "cli/commands.hpp"
#include "cli/follow_progress.hpp"
#include "cli/follow_readings.hpp"
#include "cli/follow_text.hpp"
#include "cli/gauge_batch.hpp"
#include "cli/report.hpp"
#include "cli/stated.hpp"
#include "cli/still_options.hpp"
#include "cli/text_file.hpp"
#include "cli/threads.hpp"
#include "numeric/normal.hpp"
#include "plan/still_prior.hpp"
#include "recipe/read_kit.hpp"
#include "sheet/follow_picture.hpp"
#include "spirit/strength.hpp"
#include "still/todays_air.hpp"
#include "wire/follow.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_kit = "--kit";
constexpr const char* option_charge = "--charge";
constexpr const char* option_power = "--power";
constexpr const char* option_loss = "--head-loss";
constexpr const char* option_begin = "--hearts-begin";
constexpr const char* option_tails = "--tails-near";
constexpr const char* option_end = "--hearts-end";
constexpr const char* option_stop = "--stop";
constexpr const char* option_replay = "--replay";
constexpr const char* option_picture = "--picture";
constexpr int default_members = 1000;

struct Asked {
  std::string kit_path, kit_text;
  units::StatedLot charge;
  std::optional<units::Power> power;
  std::optional<units::HeatLoss> loss;
  still::CutRules rules;
  AskedAir air;
  std::string replay, picture;
  std::uint64_t seed = 1;
  std::size_t members = default_members;
  int threads = 1;
};

const char* border_option(std::string_view field) {
  if (field == "rules.heads_end") return option_begin;
  return field == "rules.hearts_end" ? option_end : option_stop;
}

Asked read(Arguments& arguments) {
  Asked asked;
  asked.kit_path =
      arguments.required_text(option_kit, "the path of a kit file, such as kit.toml");
  if (!asked.kit_path.empty()) {
    asked.kit_text = read_file(arguments, option_kit, asked.kit_path, "a kit file");
  }
  asked.charge = arguments.required<units::StatedLot>(option_charge);
  check_lot(arguments, option_charge, asked.charge, "a charge");
  asked.power = arguments.optional<units::Power>(option_power);
  if (asked.power) {
    arguments.keep_within(option_power, *asked.power, units::Power::watts(50.0),
                          units::Power::kilowatts(500.0));
  }
  asked.loss = arguments.optional<units::HeatLoss>(option_loss);
  if (asked.loss) {
    arguments.keep_within(option_loss, *asked.loss, units::HeatLoss{},
                          units::HeatLoss::watts_per_kelvin(500.0));
  }
  asked.rules.heads_end = border(arguments, option_begin);
  asked.rules.hearts_end = border(arguments, option_end);
  asked.rules.stop = border(arguments, option_stop);
  if (const auto tails = arguments.optional<units::Temperature>(option_tails)) {
    arguments.keep_within(option_tails, *tails, units::Temperature::celsius(60.0),
                          units::Temperature::celsius(105.0));
    asked.rules.tails_near = *tails;
  }
  for (const base::Fault& fault : still::faults_of(asked.rules)) {
    const std::string option = border_option(fault.field);
    arguments.refuse(option, arguments.texts(option).front(), fault.accepted);
  }
  asked.air = asked_air(arguments);
  if (arguments.has(option_replay)) {
    asked.replay = arguments.required_text(option_replay, "the path of a logged run");
  }
  if (arguments.has(option_picture)) {
    asked.picture = arguments.required_text(option_picture, "the path of a file to write");
    if (asked.replay.empty()) {
      arguments.refuse(option_picture, asked.picture,
                       "the picture of a replayed run: give --replay as well");
    }
  }
  asked.members = static_cast<std::size_t>(
      arguments.whole_number("--members", 100, 20000, default_members));
  asked.seed = static_cast<std::uint64_t>(
      arguments.whole_number("--seed", 0, std::numeric_limits<int>::max(), 1));
  asked.threads = arguments.whole_number("--threads", 1, 1024, all_cores());
  return asked;
}

still::StillPrior prior_of(const Asked& asked, const plan::Kit& kit) {
  return plan::still_prior(
      kit, {spirit::lot(asked.charge.volume, spirit::volume_strength(asked.charge.strength)),
            true, asked.power, asked.loss});
}

const std::vector<std::pair<std::string, std::string>>& names() {
  static const std::vector<std::pair<std::string, std::string>> all = {
      {"run.heating.power", option_power},
      {"run.power", option_power},
      {"head.loss", option_loss},
      {"run.stop", option_charge},
      {"rules.heads_end", option_begin},
      {"rules.hearts_end", option_end},
      {"rules.stop", option_stop},
      {"members", "--members"},
      {"charge", option_charge}};
  return all;
}

// What a look into boiling water leaves open. The head's readings are corrected by the offset
// it told; left is how far the cue at 65 %vol may be off, pressure and offset together, which
// is less than either alone. The pot's thermometer is another one: to it the pressure is open.
void know_air(still::StillSpread& sd, const still::TodaysAir& air) {
  constexpr double least_K = 0.05;
  const units::MoleFraction vapour =
      spirit::mole_fraction(spirit::mass_fraction(units::VolumeStrength::percent(65.0)));
  still::TodaysAir pressure_alone = air;
  pressure_alone.offset_sd = {};
  sd.head_thermometer_K = std::max(still::dew_cue(air, vapour).sd.kelvins(), least_K);
  sd.pot_thermometer_K =
      std::hypot(sd.pot_thermometer_K, still::dew_cue(pressure_alone, vapour).sd.kelvins());
}

struct Followed {
  still::Follower follower;
  units::TemperatureChange head_off;  // of the head's thermometer, by boiling water

  still::Update take(still::Reading reading, const numeric::Executor& executor) {
    if (reading.head_temperature)
      reading.head_temperature = *reading.head_temperature - head_off;
    return follower.take(reading, executor);
  }
};

Followed follower_of(const Asked& asked, const Arguments& arguments,
                     const numeric::Executor& executor) {
  const plan::Kit kit = recipe::read_kit(asked.kit_text, asked.kit_path);
  const DaysAir air = days_air(asked.air, arguments, kit.place.pressure,
                               kit.instruments.thermometer / numeric::half_of_80);
  return as_asked(arguments, names(), [&] {
    still::StillPrior prior = prior_of(asked, kit);
    if (air.today) know_air(prior.spread, *air.today);
    return Followed{
        still::Follower(std::move(prior), asked.rules, vapour::BoilingCurve(air.pressure),
                        asked.seed, asked.members, executor),
        air.today ? air.today->thermometer_offset : units::TemperatureChange{}};
  });
}

void tell(const std::vector<base::Fault>& faults) {
  for (const base::Fault& fault : faults) {
    static_cast<void>(report(std::make_exception_ptr(base::InputError({fault}))));
  }
}

int ended(const RowsTaken& rows, const std::string& source) {
  if (rows.taken == 0) {
    throw base::InputError(source, rows.failed > 0 ? "no row without a fault" : "",
                           "readings of a run, CSV or JSON lines");
  }
  if (rows.failed == 0) return Status::well;
  const std::string count =
      fmt::format("{} of {} rows failed.\n", rows.failed, rows.failed + rows.taken);
  static_cast<void>(std::fputs(count.c_str(), stderr));
  return some_rows_failed;
}

int follow_live(const Asked& asked, const Arguments& arguments) {
  const numeric::Executor executor = on_threads(asked.threads, stills_on_terminal());
  Followed followed = follower_of(asked, arguments, executor);
  const still::Follower& follower = followed.follower;
  int status = Status::well;
  const RowsTaken rows = read_readings(
      "-", "standard input",
      [&](const still::Reading& reading) {
        if (status != Status::well) return;
        const still::Update update = followed.take(reading, executor);
        status = put(wire::follow_json(reading, update, follower.forecast(executor)) + "\n");
      },
      tell);
  return status != Status::well ? status : ended(rows, "standard input");
}

// A slip of the hand must not put a page over what the maker wrote.
void keep_apart(const Asked& asked) {
  for (const std::string& input : {asked.kit_path, asked.replay}) {
    std::error_code ignored;
    if (!asked.picture.empty() && std::filesystem::equivalent(asked.picture, input, ignored)) {
      throw base::InputError(option_picture, asked.picture,
                             "a file that is neither the kit nor the log");
    }
  }
}

int replay(const Asked& asked, const Arguments& arguments, const Look& look) {
  keep_apart(asked);
  const numeric::Executor executor = on_threads(asked.threads, stills_on_terminal());
  Followed followed = follower_of(asked, arguments, executor);
  const still::Follower& follower = followed.follower;
  std::vector<Replayed> replayed;
  const RowsTaken rows = read_readings(
      asked.replay, option_replay,
      [&](const still::Reading& reading) {
        still::Update update = followed.take(reading, executor);
        still::Forecast forecast = follower.forecast(executor);
        replayed.push_back({reading, std::move(update), std::move(forecast)});
      },
      tell);
  if (replayed.empty()) return ended(rows, option_replay);
  std::string text;
  if (look.json) {
    for (const Replayed& row : replayed) {
      text += wire::follow_json(row.reading, row.update, row.forecast) + "\n";
    }
  } else {
    text = follow_text(replayed, look);
    if (arguments.has("--why")) text += follow_why(follower);
  }
  if (!asked.picture.empty()) {
    write_file(asked.picture,
               sheet::follow_page(
                   follower, replayed.back().forecast,
                   fmt::format("Run of {}", shown(follower.prior().charge.spirit, look.units)),
                   look.units));
    if (!look.json) text += fmt::format("\nThe picture is in {}.\n", asked.picture);
  }
  const int status = put(text);
  return status != Status::well ? status : ended(rows, option_replay);
}

std::optional<int> stream(Arguments& arguments, const Look& look) {
  const Asked asked = read(arguments);
  if (arguments.has("--why") && (look.json || asked.replay.empty())) {
    arguments.refuse("--why", "", "--why with the text of --replay only");
  }
  arguments.settle();
  return asked.replay.empty() ? follow_live(asked, arguments) : replay(asked, arguments, look);
}

}  // namespace

Command follow_command() {
  return {
      "follow",
      "a run followed live: the still now, and the time to the next decisions",
      {{option_kit, "FILE", "path of the kit file"},
       {option_charge, "LOT", "volume and strength at 20 °C: \"20 L @ 27 %vol\""},
       {option_power, "POWER", "planned while spirit runs: \"1.5 kW\"; what is logged counts"},
       {option_loss, "LOSS", "heat the head loses to the room, over what the kit says"},
       {option_begin, "BORDER", "heads end: volume \"300 mL\", strength \"74 %vol\" or head"},
       {option_tails, "TEMPERATURE", "of the head, when tails are near: \"90 °C\" (default)"},
       {option_end, "BORDER", "hearts end: strength \"60 %vol\", head \"92 °C\" or volume"},
       {option_stop, "BORDER", "the run ends, as for --hearts-end"},
       {option_replay, "FILE", "follows a logged run and prints a table; else standard input"},
       {option_picture, "FILE", "of a replay: writes a page with curve, band, readings; HTML"},
       {"--pressure", "PRESSURE", "of the air: the kit's (default) or \"29.8 inHg\""},
       {"--altitude", "HEIGHT", "instead of --pressure: \"350 m\" or \"1200 ft\""},
       boiling_water_option(
           "shown by the head's thermometer today, \"99.2 °C\": its readings are corrected"),
       {"--members", "NUMBER", "possible stills: 1000 (default), 100 to 20000"},
       {"--seed", "NUMBER", "of their draw: 1 (default)"},
       {"--threads", "NUMBER", "to reckon on; all cores by default, the result is the same"},
       {"--why", "", "with --replay: models and what is left out"}},
      {R"(--kit examples/tern-8/kit.toml --charge "30 L @ 27 %vol" --head-loss "4.5 W/K" --hearts-end "60 %vol" --replay examples/tern-8/spirit_run.csv)",
       "25 readings to 258 min: hearts end passed at 173 min, 9.06 L collected."},
      "Readings come in one at a time on standard input, as CSV with a head line or as JSON\n"
      "lines, of any instrument, late or out of order; for each a line of JSON goes out. A\n"
      "reading that does not fit is kept, not believed, and told with what was expected. A\n"
      "power, and \"stopped\" or \"resumed\", are taken as said. Exit 3: some rows were bad.\n"
      "Caution: never leave a heated still. If the coolant fails: heat off first. Spirit "
      "above\n"
      "40 °C at the spout: heat off first. Nothing here says that a spirit is safe.\n",
      nullptr,
      stream};
}

}  // namespace lynearm::cli
