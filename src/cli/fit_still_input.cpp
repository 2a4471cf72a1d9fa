#include "cli/fit_still_input.hpp"

#include <fmt/format.h>

#include <filesystem>

#include "cli/air_pressure.hpp"
#include "cli/still_options.hpp"
#include "cli/text_file.hpp"
#include "plan/still_setting.hpp"
#include "recipe/read_kit.hpp"
#include "record/run_csv.hpp"
#include "spirit/stated.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_kit = "--kit";
constexpr const char* option_run = "--run";
constexpr const char* option_charge = "--charge";
constexpr const char* option_charged_at = "--charge-temperature";
constexpr const char* option_write = "--write";
constexpr const char* option_report = "--report";
constexpr const char* option_paper = "--paper";

// Of a charge whose temperature was not stated but taken as the room's, K; our estimate.
constexpr double unstated_temperature_spread_K = 3.0;
// Of an estimated head loss: a factor of e; our estimate.
constexpr double unstated_head_loss_spread = 1.0;

void require_pairs(Arguments& arguments) {
  const std::size_t runs = arguments.texts(option_run).size();
  const std::size_t charges = arguments.texts(option_charge).size();
  if (runs == 0 || charges == 0 || runs == charges) return;
  arguments.refuse(option_charge, charges < runs ? "" : arguments.texts(option_charge).back(),
                   fmt::format("one --charge for each --run, in their order: {} {} and {} {} "
                               "are given",
                               runs, runs == 1 ? "run" : "runs", charges,
                               charges == 1 ? "charge" : "charges"));
}

// The temperatures of the charges: one for each, one for all, or none.
std::vector<units::Temperature> charged_at(Arguments& arguments, std::size_t charges) {
  if (!arguments.has(option_charged_at)) return {};
  auto all = arguments.each<units::Temperature>(option_charged_at);
  if (all.size() != 1 && all.size() != charges) {
    arguments.refuse(option_charged_at, arguments.texts(option_charged_at).back(),
                     "one temperature for all charges, or one for each");
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!arguments.refused(option_charged_at) &&
        !(all[i] >= units::Temperature{units::Temperature::celsius(0.0)} &&
          all[i] <= units::Temperature::celsius(75.0))) {
      arguments.refuse(option_charged_at, arguments.texts(option_charged_at)[i],
                       "0 °C to 75 °C");
    }
  }
  all.resize(charges, all.front());
  return all;
}

still::Record record_of(const std::string& path, const std::string& text,
                        std::vector<base::Fault>& faults) {
  record::RunRead read =
      record::read_run_csv(text, std::filesystem::path(path).filename().string());
  faults.insert(faults.end(), read.faults.begin(), read.faults.end());
  return std::move(read.record);
}

}  // namespace

std::vector<Option> fit_still_options() {
  return {
      {option_kit, "KIT", "the kit as it is stated so far"},
      {option_run, "FILE", "a logged run, as comma-separated text; may be given again", true},
      {option_charge, "LOT",
       "what went into the pot: \"20 L @ 27 %vol\" at 20 °C; one for each run", true},
      {option_charged_at, "TEMPERATURE", "of the charge when the heat went on; the room's",
       true},
      {"--pressure", "PRESSURE", "of the air on the day; that of the kit's place"},
      {"--altitude", "HEIGHT", "instead of --pressure: \"350 m\" or \"1200 ft\""},
      {option_write, "FILE", "writes the kit with its still renewed, all else as it was"},
      {option_report, "FILE", "writes a report with pictures, as HTML"},
      {option_paper, "PAPER", "of the report: A4 (default) or Letter"},
      {"--why", "", "adds the model and what was believed before"},
  };
}

AskedFit asked_fit(Arguments& arguments) {
  AskedFit asked;
  asked.kit_path =
      arguments.required_text(option_kit, "the path of a kit file, such as kit.toml");
  if (!arguments.has(option_run)) {
    arguments.refuse(option_run, "", "the path of a logged run, such as spirit_run.csv");
  }
  asked.run_paths = arguments.texts(option_run);
  const auto charges = arguments.each<units::StatedLot>(option_charge);
  for (std::size_t i = 0; i < charges.size() && !arguments.refused(option_charge); ++i) {
    check_lot(arguments, option_charge, charges[i], "a charge");
  }
  require_pairs(arguments);
  const auto temperatures = charged_at(arguments, charges.size());
  std::optional<units::Pressure> pressure;
  if (arguments.has("--pressure") || arguments.has("--altitude")) {
    pressure = air_pressure(arguments);
  }
  for (const auto& [option, path] :
       {std::pair{option_write, &asked.write_path}, {option_report, &asked.report_path}}) {
    if (arguments.has(option)) {
      *path = arguments.required_text(option, "the path of a file to write");
    }
  }
  if (arguments.has(option_paper)) {
    const std::string& paper = arguments.texts(option_paper).front();
    if (paper == "Letter" || paper == "letter") {
      asked.paper = sheet::Paper::letter;
    } else if (paper != "A4" && paper != "a4") {
      arguments.refuse(option_paper, paper, "A4 or Letter");
    } else if (asked.report_path.empty()) {
      arguments.refuse(option_paper, paper, "the paper of a report: give --report as well");
    }
  }
  if (!asked.kit_path.empty()) {
    asked.kit_text = read_file(arguments, option_kit, asked.kit_path, "a kit file");
  }
  std::vector<std::string> texts;
  for (const std::string& path : asked.run_paths) {
    texts.push_back(read_file(arguments, option_run, path, "a logged run"));
  }
  arguments.settle();

  asked.kit = recipe::read_kit(asked.kit_text,
                               std::filesystem::path(asked.kit_path).filename().string());
  const plan::Kit& kit = asked.kit;
  std::vector<base::Fault> faults;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    still::RecordedRun run;
    run.name = std::filesystem::path(asked.run_paths[i]).filename().string();
    run.record = record_of(asked.run_paths[i], texts[i], faults);
    run.charge.spirit =
        spirit::lot(charges[i].volume, spirit::volume_strength(charges[i].strength));
    run.charge.temperature = temperatures.empty() ? kit.place.ambient : temperatures[i];
    run.setting = plan::run_setting(kit, plan::running_power(kit, true), true);
    run.pressure = pressure.value_or(kit.place.pressure);
    if (temperatures.empty()) {
      asked.choices.beliefs.push_back({still::StillConstant::charge_temperature, 0.0,
                                       unstated_temperature_spread_K, static_cast<int>(i)});
    }
    asked.runs.push_back(std::move(run));
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  if (!kit.still.head_loss) {
    asked.choices.beliefs.push_back(
        {still::StillConstant::head_loss,
         plan::estimated_head_loss(kit.still.boiler.total).median.watts_per_kelvin(),
         unstated_head_loss_spread});
  }
  return asked;
}

recipe::StillKeys keys_of(const still::StillFit& fit, const plan::Kit& kit) {
  using still::StillConstant;
  recipe::StillKeys keys;
  // The kit's own factor comes on top of what its tables state.
  const double factor = kit.constants.heat_loss_factor.median.fraction();
  const auto loss = [factor](double W_per_K) {
    return units::HeatLoss::watts_per_kelvin(W_per_K / factor);
  };
  const still::FittedConstant& head = fit.of(StillConstant::head_loss);
  const still::FittedConstant& pot = fit.of(StillConstant::pot_loss);
  const still::FittedConstant& efficiency = fit.of(StillConstant::heating_efficiency);
  const still::FittedConstant& held = fit.of(StillConstant::hold_up);
  if (head.told) {
    keys.head_loss =
        units::Spread<units::HeatLoss>{loss(head.value), loss(0.5 * (head.high - head.low))};
  }
  if (pot.told) keys.pot_loss = loss(pot.value);
  if (efficiency.told) keys.heat_efficiency = units::Share::fraction(efficiency.value);
  if (held.told) {
    const units::Volume stated = kit.still.coil_holds + kit.still.parrot_holds;
    const double in_coil = stated > units::Volume{} ? kit.still.coil_holds / stated : 0.0;
    const auto all = units::Volume::litres(held.value);
    if (in_coil > 0.0) keys.coil = all * in_coil;
    keys.parrot = all * (1.0 - in_coil);
  }
  return keys;
}

}  // namespace lynearm::cli
