// The spirit run on paper: what is charged, the curve, and the cues at each border.
#include <fmt/format.h>

#include <algorithm>

#include "sheet/batch_parts.hpp"
#include "sheet/batch_pictures.hpp"
#include "spirit/lot.hpp"

namespace lynearm::sheet {
namespace {

bool something(const spirit::Lot& lot) { return lot.mass() > units::Mass::grams(1.0); }

PlannedRow lot_row(const Batch& batch, std::string name, const spirit::Lot& lot) {
  return row(batch, std::move(name), spirit::volume(lot),
             fmt::format("at {}", cell(spirit::strength(lot), batch.system)));
}

Html charge_table(const Batch& batch) {
  const plan::SpiritPlan& spirit = batch.plan.spirit;
  const double runs = std::max(1, spirit.runs);
  std::vector<PlannedRow> rows = {
      lot_row(batch, "Low wines in", spirit.low_wines_in * (1.0 / runs))};
  if (something(spirit.feints_in)) {
    rows.push_back(lot_row(batch, "Feints in", spirit.feints_in * (1.0 / runs)));
  }
  if (spirit.water > units::Mass::grams(1.0)) {
    rows.push_back(row(batch, "Water in", spirit.water / runs));
  }
  rows.push_back(row(
      batch, "Charge", spirit.one.charge_volume,
      fmt::format("at 20 °C; the boiler takes {}", cell(spirit.fill_limit, batch.system)), 1));
  rows.push_back(row(
      batch, "Strength of the charge", spirit.one.charge_strength,
      fmt::format("at most {}", cell(batch.recipe.spirit_run.charge_at_most, batch.system))));
  if (something(spirit.low_wines_kept)) {
    rows.push_back(lot_row(batch, "Low wines kept", spirit.low_wines_kept));
  }
  return table(PlannedTable{spirit.runs > 1
                                ? fmt::format("The charge of each of {} runs", spirit.runs)
                                : std::string("The charge"),
                            std::move(rows)});
}

Html run_rows(const Batch& batch) {
  const plan::SpiritPlan& spirit = batch.plan.spirit;
  const plan::RunPlan& one = spirit.one;
  const units::System system = batch.system;
  std::vector<PlannedRow> rows = {
      row(batch, "Boils at", one.heat_up.boiling),
      row(batch, "First drop after", one.run.first().since_start,
          fmt::format("at {}", cell(batch.kit.still.boiler.power, system))),
      row(batch, "Then runs at", one.power,
          fmt::format("for {}",
                      cell(one.run.last().since_start - one.run.first().since_start, system))),
      row(batch, "Coolant", one.coolant.flow,
          fmt::format("at least {}; leaving at {}",
                      cell(one.coolant.cooling.least_flow, system),
                      cell(one.coolant.leaving, system))),
      row(batch, "Hearts", spirit::volume(spirit.hearts_all), "at 20 °C, of all runs", 2),
      row(batch, "their strength", spirit::strength(spirit.hearts_all)),
      row(batch, "Pure alcohol in them", spirit::pure_alcohol(spirit.hearts_all), "", 2,
          false)};
  if (something(spirit.feints_kept)) {
    rows.push_back(
        row(batch, "Feints kept for the next batch", spirit::volume(spirit.feints_kept),
            fmt::format(
                "at {}{}", cell(spirit::strength(spirit.feints_kept), system),
                batch.recipe.spirit_run.keep_heads ? ", heads among them" : ", tails alone"),
            2));
  }
  return table(PlannedTable{"The run", std::move(rows)});
}

// The pace that the maker can time: seconds for a small glass.
std::string pace_at(const still::Run& run, const still::Point& at, units::System system) {
  const units::Volume glass = system == units::System::us ? units::Volume::us_fluid_ounces(4.0)
                                                          : units::Volume::millilitres(100.0);
  const units::Volume last = run.last().collected;
  const units::Volume from = std::min(at.collected, last - std::min(glass, last));
  const units::Volume to = std::min(from + glass, last);
  if (to <= from) return {};
  const units::Duration taken = still::point_at_volume(run, to).since_boiling -
                                still::point_at_volume(run, from).since_boiling;
  return fmt::format("{:.0f}\u00a0s", taken.seconds() * (glass / (to - from)));
}

Html cue_table(const Batch& batch) {
  const plan::SpiritPlan& spirit = batch.plan.spirit;
  const units::System system = batch.system;
  Table cues{.caption = "Cues at the borders",
             .columns = {{"", Align::left},
                         {"collected", Align::right},
                         {"h:min", Align::right},
                         {"spout", Align::right},
                         {"head", Align::right},
                         {tight(system == units::System::us ? "4 fl oz" : "100 mL") + " in",
                          Align::right},
                         {"collected", Align::left, 12},
                         {"spout", Align::left, 10},
                         {"head", Align::left, 10}},
             .rows = {}};
  const units::Volume all = spirit.one.run.last().collected;
  const auto cue = [&](const char* name, const still::Point& at) {
    cues.rows.push_back({tight(name), in_one_unit(at.collected, all, system),
                         hours_and_minutes(at.since_boiling), cell(at.spout, system),
                         cell(at.head_temperature, system), pace_at(spirit.one.run, at, system),
                         "", "", ""});
  };
  cue("first drop", spirit.foreshots.from);
  cue("foreshots end", spirit.foreshots.to);
  cue("hearts begin", spirit.hearts.from);
  cue("hearts end", spirit.hearts.to);
  cue("tails end", spirit.tails.to);
  return table(cues) +
         small_print(
             "Strengths and volumes at 20 °C: bring the spout's reading to 20 °C before "
             "you compare. The last three columns are for what you read. Nose and "
             "palate decide the borders; these say when to begin.");
}

}  // namespace

Html spirit_part(const Batch& batch) {
  Html part = heading("Spirit run");
  part += beside(framed(cautions::fire),
                 framed(cautions::foreshots) + framed(cautions::blue_or_green));
  part += small_print(
      "As at the strips: never leave the heat, outlet open, heat off first if "
      "the coolant fails, no charge into a hot pot, watch the spout's "
      "temperature.");
  part += charge_table(batch) + run_rows(batch);
  if (batch.plan.spirit.one.run.points.size() > 1) {
    part += figure(spirit_picture(batch.plan.spirit, batch.system),
                   batch.plan.spirit.runs > 1 ? "Each run, planned." : "The run, planned.");
  }
  return part + cue_table(batch);
}

}  // namespace lynearm::sheet
