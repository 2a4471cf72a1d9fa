// Runs by the clock: one after another on one still, and what came over against the heat that
// it takes to drive it over.
#include <fmt/format.h>

#include <algorithm>

#include "journal/asking.hpp"
#include "spirit/strength.hpp"
#include "vapour/pure.hpp"

namespace lynearm::journal {
namespace {

using units::Duration;
using units::Energy;
using units::Power;
using units::Volume;

/// A pot is not emptied and charged, nor boiled, in less. Our choice.
constexpr Duration shortest = Duration::minutes(5.0);
/// Of the least time by the heat that was told, as it may have been more: a preheated charge, a
/// flame read badly. Our choice.
constexpr double surely = 0.5;
/// The least that a charge is warmed by before it boils, and what a litre of any takes for a
/// kelvin: below the 4.0 kJ of a wash and the 3.4 of strong low wines. Our choice; common
/// practice, no source.
constexpr double least_warming_K = 18.0;
constexpr double kJ_per_L_K = 3.2;

// No liquid of a still takes less for a litre than ethanol does.
Energy least_heat(Volume charge, Volume came) {
  constexpr auto boil = units::Temperature::celsius(78.0);
  const double J_per_kg =
      vapour::latent_heat(vapour::Substance::ethanol, boil).joules_per_mole() /
      (spirit::ethanol_molar_mass_g_per_mol * 1e-3);
  return Energy::kilojoules(charge.litres() * kJ_per_L_K * least_warming_K) +
         Energy::joules(spirit::ethanol_in(came).kilograms() * J_per_kg);
}

// The most that was told of this run.
std::optional<Power> most_power(const RunState& run) {
  std::optional<Power> most = run.power;
  for (const RunPoint& point : run.readings) {
    if (point.reading.power) most = std::max(most.value_or(Power{}), *point.reading.power);
  }
  return most;
}

std::string in_minutes(Duration time) {
  if (time < Duration::minutes(1.0)) return fmt::format("{:.0f} s", time.seconds());
  return fmt::format("{:.0f} min", time.minutes());
}

std::string_view name(const RunState& run) {
  return run.kind == RunKind::strip ? "strip" : "spirit run";
}

// Why so much cannot have come over so soon.
std::optional<std::string> too_soon(const RunState& run, Moment by, Volume came) {
  if (!(came > Volume{})) return std::nullopt;
  const Duration time = since(by, run.told.at);
  const std::string much = fmt::format(
      "{:.2f} L are told to have come over {} after the heat "
      "went on",
      came.litres(), in_minutes(time));
  const std::optional<Power> power = most_power(run);
  if (power && *power > Power{}) {
    const auto least =
        Duration::seconds(least_heat(run.charge_volume, came).joules() / power->watts());
    if (time < least * surely) {
      return fmt::format(
          "{}: {:.1f} kW need some {} at the least to warm the charge and drive "
          "that over.",
          much, power->kilowatts(), in_minutes(least));
    }
  }
  if (time < shortest) return much + ": no pot boils so soon.";
  return std::nullopt;
}

// By the run that went before on the same still; a house of several stills upholds it.
void ask_of_the_one_before(const HouseState& house, const RunState& run, Asking& asking) {
  const RunState* before = nullptr;
  for (const auto& [id, batch] : house.batches) {
    for (const RunState& other : batch.runs) {
      if (&other == &run || !(other.told.at < run.told.at)) continue;
      if (before == nullptr || before->told.at < other.told.at) before = &other;
    }
  }
  if (before == nullptr || !before->ended) return;
  const Duration pause = since(run.told.at, before->ended->at);
  if (pause < Duration{}) {
    asking.ask(run.told.entry,
               fmt::format("The heat went on {} before the {} begun earlier is told to have "
                           "ended.",
                           in_minutes(pause * -1.0), name(*before)));
  } else if (pause < shortest) {
    asking.ask(run.told.entry,
               fmt::format("The heat went on {} after the {} before is told to have ended: in "
                           "that time no pot is emptied and charged.",
                           in_minutes(pause), name(*before)));
  }
}

}  // namespace

void ask_of_hours(const HouseState& house, const BatchState& batch, Asking& asking) {
  for (const RunState& run : batch.runs) {
    ask_of_the_one_before(house, run, asking);
    Volume came;
    for (const auto& [number, jar] : run.jars) {
      if (!jar.filled) continue;
      came += jar.as_filled.value_or(Volume{});
      if (const auto why = too_soon(run, jar.filled->at, came)) {
        asking.ask(jar.filled->entry, *why);
        break;
      }
    }
    if (!run.ended || !run.collected_read) continue;
    if (const auto why = too_soon(run, run.ended->at, run.collected_read->volume)) {
      asking.ask(run.ended->entry, *why);
    }
  }
}

}  // namespace lynearm::journal
