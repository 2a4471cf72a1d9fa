// The strips on paper: one set of planned figures, and a row to fill in for each run.
#include <fmt/format.h>

#include "sheet/batch_parts.hpp"
#include "sheet/batch_pictures.hpp"
#include "spirit/lot.hpp"

namespace lynearm::sheet {
namespace {

Html each_strip(const Batch& batch) {
  const plan::StripPlan& strip = batch.plan.strip;
  const plan::RunPlan& one = strip.one;
  const units::System system = batch.system;
  std::vector<PlannedRow> rows = {
      row(batch, "Charge", one.charge_volume,
          fmt::format("at 20 °C; the boiler takes {} of this wash",
                      cell(strip.fill_limit, system)),
          1),
      row(batch, "Strength of the charge", one.charge_strength, "", 2, false),
      row(batch, "Boils at", one.heat_up.boiling,
          fmt::format("and then fills {}", cell(one.volume_at_boil, system))),
      row(batch, "First drop after", one.run.first().since_start,
          fmt::format("at {}", cell(batch.kit.still.boiler.power, system))),
      row(batch, "Runs for", one.run.last().since_start - one.run.first().since_start,
          fmt::format("at {}", cell(one.power, system))),
      row(batch, "Stop, at the spout", batch.recipe.strip.stop,
          fmt::format("head at {}", cell(one.run.last().head_temperature, system))),
      row(batch, "Low wines of one run", spirit::volume(one.collected), "at 20 °C"),
      row(batch, "Coolant", one.coolant.flow,
          fmt::format("at least {}; leaving at {}; {} a run",
                      cell(one.coolant.cooling.least_flow, system),
                      cell(one.coolant.leaving, system), cell(one.coolant.water, system))),
      row(batch, "Left in the pot, hot", one.left_in_pot)};
  return table(PlannedTable{strip.runs == 1
                                ? std::string("The strip")
                                : fmt::format("Each of {} equal strips", strip.runs),
                            std::move(rows)});
}

Html all_strips(const Batch& batch) {
  const plan::StripPlan& strip = batch.plan.strip;
  std::vector<PlannedRow> rows = {
      row(batch, "Low wines", strip.low_wines_volume, "at 20 °C, of all strips", 1),
      row(batch, "their strength", strip.low_wines_strength)};
  if (strip.left_over_volume > units::Volume::millilitres(5.0)) {
    rows.push_back(row(batch, "Wash left over", strip.left_over_volume));
  }
  return table(PlannedTable{"", std::move(rows)});
}

Html run_table(const Batch& batch) {
  const plan::StripPlan& strip = batch.plan.strip;
  const units::System system = batch.system;
  Table runs{.caption = "Each strip",
             .columns = {{"Run", Align::left},
                         {"charge", Align::left, 12},
                         {"heat on", Align::left, 11},
                         {"first drop", Align::left, 12},
                         {"stop", Align::left, 11},
                         {"volume", Align::left, 13},
                         {"strength", Align::left, 13},
                         {"read at", Align::left, 11}},
             .rows = {},
             .room_to_write = true};
  runs.rows.push_back({"planned", cell(strip.one.charge_volume, system), "0:00",
                       hours_and_minutes(strip.one.heat_up.duration),
                       hours_and_minutes(strip.one.length),
                       cell(spirit::volume(strip.one.collected), system),
                       cell(spirit::strength(strip.one.collected), system), "20 °C"});
  for (int i = 1; i <= strip.runs; ++i) {
    runs.rows.push_back({fmt::format("{}", i), "", "", "", "", "", "", ""});
  }
  return table(runs);
}

}  // namespace

Html strip_part(const Batch& batch) {
  Html part = heading("Strip");
  part += beside(framed(cautions::heat) + framed(cautions::vapour),
                 framed(cautions::outlet) + framed(cautions::hot_pot));
  std::vector<std::string> before = {"Wash degassed: shaken or stirred until it is still",
                                     "Outlet looked through, open, clear of the jar's bottom",
                                     "Coolant runs before the heat goes on"};
  if (batch.plan.strip.foams)
    before.emplace_back("This wash foams: the first quarter hour gently");
  part += checklist(before) + each_strip(batch);
  if (batch.plan.strip.one.run.points.size() > 1) {
    part += figure(strip_picture(batch.plan.strip, batch.system), "One strip, planned.");
  }
  return part + run_table(batch) + all_strips(batch);
}

}  // namespace lynearm::sheet
