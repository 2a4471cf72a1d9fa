// lynearm strip: what a wash gives when it is stripped to a strength at the spout. No kit is
// asked for: strengths and volumes of a run do not depend on power, only its time does.
#include <fmt/format.h>

#include "cli/air_pressure.hpp"
#include "cli/commands.hpp"
#include "cli/stated.hpp"
#include "cli/still_options.hpp"
#include "cli/table.hpp"
#include "cli/text_file.hpp"
#include "cli/visible.hpp"
#include "sheet/run_picture.hpp"
#include "still/even_points.hpp"
#include "still/run.hpp"
#include "wire/still.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_wash = "--wash";
constexpr const char* option_stop = "--stop";
constexpr const char* option_reflux = "--head-reflux";
constexpr const char* option_picture = "--picture";
// Points of the curve in a picture.
constexpr int picture_steps = 251;

// The engine's names for what was asked, as the options of this command.
std::string option_of(const std::string& field) {
  if (field.starts_with("run.stop")) return option_stop;
  if (field == "run.head_reflux") return option_reflux;
  if (field.starts_with("charge")) return option_wash;
  return field;
}

still::Run stripped(const Arguments& arguments, const still::Charge& charge,
                    const still::RunSetting& setting, units::Pressure pressure,
                    units::VolumeStrength stop) {
  try {
    still::Stop end;
    end.spout_strength = stop;
    still::Run run = still::distil(charge, setting, vapour::BoilingCurve(pressure), end);
    if (run.ending != still::Ending::spout_strength) {
      // A pot above the azeotrope grows stronger as it boils away.
      throw base::InputError(option_stop, arguments.texts(option_stop).front(),
                             "a strength that the spout falls to before the pot is dry");
    }
    return run;
  } catch (const base::InputError& error) {
    std::vector<base::Fault> faults = error.faults();
    for (base::Fault& fault : faults) {
      fault.field = option_of(fault.field);
      if (arguments.has(fault.field)) fault.value = arguments.texts(fault.field).front();
    }
    throw base::InputError(std::move(faults));
  }
}

std::string text(const still::Run& run, const DaysAir& air, const Look& look) {
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  const auto strength = [&](units::VolumeStrength s) { return shown(s, look.units); };
  const still::Point& end = run.last();
  const auto read = [&](units::Temperature truly) {
    return air.today
               ? fmt::format("the thermometer shows {}", print(air.today->as_shown(truly)))
               : std::string();
  };
  return headline(fmt::format("{} gives low wines of {}, with {} of its alcohol.",
                              shown(run.charge.spirit, look.units),
                              shown(end.distillate, look.units), print(run.recovered())),
                  look) +
         table(
             {{"low wines", print(end.collected), "at " + strength(end.cumulative)},
              {"pure alcohol", print(end.pure_alcohol), "of it"},
              {"left in the pot", print(spirit::volume(run.left())), "at " + strength(end.pot)},
              {"first drop", strength(run.first().spout)},
              {"last drop", strength(end.spout)},
              {"pot at the first", print(run.first().pot_temperature),
               read(run.first().pot_temperature)},
              {"pot at the last", print(end.pot_temperature), read(end.pot_temperature)},
              {"heat", print(end.into_pot), "into the pot once it boils, without losses"},
              {"head reflux", print(*run.setting.head.fixed_reflux), "of the rising vapour"},
              {"air pressure", print(air.pressure)}}) +
         (air.today ? set_in_lines(still::account(*air.today)) : std::string()) +
         caution(wire::still_caution, look);
}

// The curve of the run, as of a spirit run without cuts and congeners.
std::string picture(const still::Run& run, units::Pressure pressure, const Look& look) {
  still::ToldRun told;
  told.pressure = pressure;
  for (const still::Point& point : still::even_points(run, picture_steps)) {
    still::Step& step = told.curve.emplace_back();
    step.point = point;
  }
  told.run = run;
  return sheet::svg_file(sheet::run_picture(
      told, fmt::format("Strip of {}", shown(run.charge.spirit, look.units)), look.units));
}

std::string run(Arguments& arguments, const Look& look) {
  const auto wash = arguments.required<units::StatedLot>(option_wash);
  const auto stop = arguments.required<units::StatedStrength>(option_stop);
  const AskedAir asked = asked_air(arguments);
  std::string picture_path;
  if (arguments.has(option_picture)) {
    picture_path = arguments.required_text(option_picture, "the path of a file to write");
  }
  still::RunSetting setting;
  setting.head.fixed_reflux = head_reflux(arguments).value_or(units::Share{});
  // Any power will do: the time it gives is not shown.
  setting.heating.power = units::Power::kilowatts(1.0);
  check_lot(arguments, option_wash, wash, "a wash");
  if (arguments.has(option_stop) && !arguments.refused(option_stop) &&
      spirit::volume_strength(stop) < units::VolumeStrength::percent(0.1)) {
    arguments.refuse(option_stop, arguments.texts(option_stop).front(),
                     "0.1 %vol or more: to run on below is to boil water");
  }
  arguments.settle();
  const DaysAir air = days_air(asked, arguments);
  still::Charge charge;
  charge.spirit = spirit::lot(wash.volume, spirit::volume_strength(wash.strength));
  const still::Run result =
      stripped(arguments, charge, setting, air.pressure, spirit::volume_strength(stop));
  std::string out = look.json ? wire::stripping_json(result, air.pressure, air.today) + "\n"
                              : text(result, air, look);
  if (!picture_path.empty()) {
    write_file(picture_path, picture(result, air.pressure, look));
    if (!look.json) out += fmt::format("The picture is in {}.\n", visible(picture_path));
  }
  return out;
}

}  // namespace

Command strip_command() {
  return {
      "strip",
      "low wines that a wash gives, stripped in a pot still",
      {{option_wash, "LOT", "volume and strength at 20 °C: \"20 L @ 7.5 %vol\""},
       {option_stop, "STRENGTH", "strength at the spout at which the run ends: \"10 %vol\""},
       {option_reflux, "SHARE",
        "of the vapour, by moles, that the head sends back: 0 (default), 0.05, \"5 %\""},
       {"--pressure", "PRESSURE", "of the air: \"101.325 kPa\" (default) or \"29.8 inHg\""},
       {"--altitude", "HEIGHT", "instead of --pressure: \"350 m\" or \"1200 ft\""},
       boiling_water_option("what the thermometer shows in boiling water today: \"99.2 °C\""),
       {option_picture, "FILE", "writes the run as a picture, as SVG"}},
      {R"(--wash "20 L @ 7.5 %vol" --stop "10 %vol" --head-reflux 0 --pressure "101.325 kPa")",
       "20.0 L at 7.5 %vol gives low wines of 4.66 L at 29.3 %vol, with 91.0 % of its "
       "alcohol."},
      "Batch distillation of ethanol and water, the pot mixed; what runs back in the head is "
      "in\n"
      "equilibrium with the vapour that leaves. A plain pot driven fast has a head reflux of\n"
      "0.02 to 0.05 (our estimate). Solids and sugar in the wash are left out.\n"
      "Caution: never leave a heated still. If the coolant fails: heat off first.\n",
      run};
}

}  // namespace lynearm::cli
