#include "cli/still_run.hpp"

#include "cli/still_options.hpp"
#include "cli/text_file.hpp"
#include "numeric/normal.hpp"
#include "plan/still_setting.hpp"
#include "recipe/read_kit.hpp"
#include "spirit/lot.hpp"
#include "spirit/stated.hpp"
#include "still/congeners_of_run.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_charge = "--charge";
constexpr const char* option_stop = "--stop";
constexpr const char* option_kit = "--kit";
constexpr const char* option_power = "--power";
constexpr const char* option_reflux = "--head-reflux";
constexpr const char* option_loss = "--head-loss";
constexpr const char* option_plates = "--plates";
constexpr const char* option_parrot = "--parrot";

void ask_for_head(Arguments& arguments, AskedStill& asked) {
  asked.reflux = head_reflux(arguments);
  asked.loss = arguments.optional<units::HeatLoss>(option_loss);
  if (asked.loss) {
    arguments.keep_within(option_loss, *asked.loss, units::HeatLoss{},
                          units::HeatLoss::watts_per_kelvin(500.0));
  }
  if (arguments.has(option_reflux) && arguments.has(option_loss)) {
    arguments.refuse(option_loss, arguments.texts(option_loss).front(),
                     "either --head-reflux or --head-loss, not both");
  }
  if (arguments.has(option_plates)) {
    asked.plates = arguments.whole_number(option_plates, 0, 12, 0);
  }
}

// The still as asked for, over what the kit or the usual still has.
still::RunSetting setting_of(const AskedStill& asked, const plan::Kit& kit) {
  still::RunSetting setting =
      plan::run_setting(kit, asked.power.value_or(plan::running_power(kit, true)), true);
  if (asked.kit_path.empty()) setting.to_the_boil = setting.heating.power;
  if (asked.reflux) setting.head.fixed_reflux = asked.reflux;
  if (asked.loss) {
    setting.head.fixed_reflux = std::nullopt;
    setting.head.loss = *asked.loss;
  }
  if (asked.plates) setting.head.plates = *asked.plates;
  if (asked.parrot) setting.hold_up.parrot = *asked.parrot;
  return setting;
}

}  // namespace

std::vector<Option> still_run_options() {
  return {
      {option_charge, "LOT", "volume and strength at 20 °C: \"15 L @ 28 %vol\""},
      {option_stop, "BORDER",
       "ends the run: strength at the spout \"10 %vol\", head \"97 °C\", or volume \"5 L\""},
      {option_kit, "FILE", "path of a kit file; a usual bare pot still when left out"},
      {option_power, "POWER", "drawn while spirit runs: \"1.2 kW\""},
      {option_reflux, "SHARE",
       "of the vapour, by moles, that the head sends back: 0.05, \"5 %\""},
      {option_loss, "LOSS", "instead: heat the head loses to the room, \"1.5 W/K\""},
      {option_plates, "NUMBER", "above the pot, 0 to 12"},
      {option_parrot, "VOLUME", "of spirit in the glass with the hydrometer: \"120 mL\""},
      {"--pressure", "PRESSURE", "of the air: \"101.325 kPa\"; the kit's, or this, by default"},
      {"--altitude", "HEIGHT", "instead of --pressure: \"350 m\" or \"1200 ft\""},
      boiling_water_option("what the thermometer shows in boiling water today: \"99.2 °C\"")};
}

AskedStill asked_still(Arguments& arguments) {
  AskedStill asked;
  asked.charge = arguments.required<units::StatedLot>(option_charge);
  check_lot(arguments, option_charge, asked.charge, "a charge");
  asked.stop = stop_at(arguments, option_stop, border(arguments, option_stop));
  asked.power = arguments.optional<units::Power>(option_power);
  if (asked.power) {
    arguments.keep_within(option_power, *asked.power, units::Power::watts(50.0),
                          units::Power::kilowatts(500.0));
  }
  ask_for_head(arguments, asked);
  asked.parrot = arguments.optional<units::Volume>(option_parrot);
  if (asked.parrot) {
    arguments.keep_within(option_parrot, *asked.parrot, units::Volume{},
                          units::Volume::litres(20.0));
  }
  asked.air = asked_air(arguments);
  if (arguments.has(option_kit)) {
    asked.kit_path = arguments.required_text(option_kit, "the path of a kit file");
    if (!asked.kit_path.empty()) {
      asked.kit_text = read_file(arguments, option_kit, asked.kit_path, "a kit file");
    }
  }
  return asked;
}

StillRun run_still(const AskedStill& asked, const Arguments& arguments) {
  plan::Kit kit = asked.kit_path.empty() ? usual_still(asked.charge.volume)
                                         : recipe::read_kit(asked.kit_text, asked.kit_path);
  const DaysAir air = days_air(asked.air, arguments, kit.place.pressure,
                               kit.instruments.thermometer / numeric::half_of_80);
  vapour::BoilingCurve curve(air.pressure);
  const vapour::CongenerCurve volatility(curve);
  still::Charge charge;
  charge.spirit =
      spirit::lot(asked.charge.volume, spirit::volume_strength(asked.charge.strength));
  charge.congeners = still::usual_amounts(spirit::pure_alcohol(charge.spirit));
  still::Run run = as_asked(arguments, still_run_names(), [&] {
    still::Run made =
        still::distil(charge, setting_of(asked, kit), curve, asked.stop, &volatility);
    if (made.ending == still::Ending::pot_dry) {
      // A pot above the azeotrope grows stronger as it boils away.
      throw base::InputError(option_stop, arguments.texts(option_stop).front(),
                             "an end that comes before the pot is dry");
    }
    return made;
  });
  return {std::move(kit), std::move(curve), air.today, std::move(run)};
}

const std::vector<std::pair<std::string, std::string>>& still_run_names() {
  static const std::vector<std::pair<std::string, std::string>> all = {
      {"cuts.foreshots_end", "--foreshots"},
      {"cuts.hearts_begin", "--hearts-begin"},
      {"cuts.hearts_end", "--hearts-end"},
      {"jar", "--jar"},
      {"run.stop", option_stop},
      {"run.head_reflux", option_reflux},
      {"head.loss", option_loss},
      {"head.plates", option_plates},
      {"run.hold_up", option_parrot},
      {"run.heating.power", option_power},
      {"condenser.coolant_inlet", "--coolant-in"},
      {"coolant.inlet", "--coolant-in"},
      {"coolant.flow", "--coolant"},
      {"charge", option_charge}};
  return all;
}

}  // namespace lynearm::cli
