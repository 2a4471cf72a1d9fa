// The ferment on paper: what goes in, the curve to hold readings against, what comes out.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ferment/yeast.hpp"
#include "sheet/batch_parts.hpp"
#include "sheet/batch_pictures.hpp"

namespace lynearm::sheet {
namespace {

constexpr int greatest_count_of_readings = 10;

Html ferment_tables(const Batch& batch) {
  const plan::FermentPlan& ferment = batch.plan.ferment;
  const units::System system = batch.system;
  std::vector<PlannedRow> rows = {
      row(batch, "Yeast, dry", ferment.yeast,
          std::string(ferment::yeast(batch.recipe.ferment.yeast).name)),
      row(batch, "Pitched at", batch.plan.mash.wort.top_up.temperature)};
  if (ferment.nutrition.diammonium_phosphate > units::Mass{}) {
    rows.push_back(row(batch, "Di-ammonium phosphate", ferment.nutrition.diammonium_phosphate,
                       "makes up the nitrogen the wort is short of"));
  }
  rows.push_back(
      row(batch, "Warmest", ferment.pace.warmest,
          batch.recipe.ferment.held ? "held at the pitching temperature" : "without cooling"));
  Html tables = table(PlannedTable{"Into it", std::move(rows)});
  rows = {};
  rows.push_back(row(batch, "Dry after", ferment.dry_after, "read it as plus or minus 40 %"));
  rows.push_back(row(batch, "To the still after", ferment.ready_after, "with its rest"));
  rows.push_back(row(batch, "Final gravity", ferment.final_gravity, "", 4));
  rows.push_back(row(batch, "Strength of the wash", ferment.strength, "", 2, false));
  rows.push_back(row(batch, "Racked to the still", ferment.racked_volume, "at 20 °C", 1));
  std::string air = fmt::format(
      "at its peak {} an hour",
      cell(units::Volume::litres(ferment.peak_carbon_dioxide.litres_per_hour()), system));
  if (ferment.room_at_peak) {
    air += fmt::format(", then {:.1f} % of the room's air", ferment.room_at_peak->percent());
  }
  rows.push_back(row(batch, "Carbon dioxide", ferment.carbon_dioxide, air, 0, false));
  return tables + table(PlannedTable{"Out of it", std::move(rows)});
}

struct Expected {
  units::SpecificGravity gravity;
  units::Temperature temperature;
};

// Between points of the course by a straight line; after its end it stays.
Expected expected_at(const std::vector<ferment::PacePoint>& course, units::Duration at) {
  const auto after = std::find_if(course.begin(), course.end(),
                                  [at](const auto& point) { return point.at >= at; });
  if (after == course.end()) return {course.back().gravity, course.back().temperature};
  if (after == course.begin()) return {after->gravity, after->temperature};
  const auto before = after - 1;
  const units::Duration step = after->at - before->at;
  const double share = step > units::Duration{} ? (at - before->at) / step : 1.0;
  return {before->gravity + (after->gravity - before->gravity) * share,
          before->temperature + (after->temperature - before->temperature) * share};
}

Html readings(const Batch& batch) {
  const plan::FermentPlan& ferment = batch.plan.ferment;
  if (ferment.pace.course.empty()) return {};
  const double days = std::max(1.0, std::ceil(ferment.ready_after.days()));
  const double step = std::max(0.5, std::ceil(2.0 * days / greatest_count_of_readings) / 2.0);
  Table table_of{.caption = "Readings",
                 .columns = {{"Day", Align::right},
                             {"gravity, planned", Align::right},
                             {"temperature, planned", Align::right},
                             {"date and hour", Align::left, 17},
                             {"gravity read", Align::left, 13},
                             {"at", Align::left, 9},
                             {"look, smell", Align::left, 24}},
                 .rows = {},
                 .room_to_write = true};
  for (double day = 0.0; day <= days + 1e-9; day += step) {
    const Expected then = expected_at(ferment.pace.course, units::Duration::days(day));
    table_of.rows.push_back({units::fixed(day, step < 1.0 ? 1 : 0), units::print(then.gravity),
                             cell(then.temperature, batch.system), "", "", "", ""});
  }
  return table(table_of) +
         small_print(
             "Gravity as a hydrometer at 20 °C shows in the degassed wash. Two equal "
             "readings a day apart end the ferment, not the calendar.");
}

}  // namespace

Html ferment_part(const Batch& batch) {
  Html part = heading("Ferment") + framed(cautions::carbon_dioxide) + ferment_tables(batch);
  if (batch.plan.ferment.pace.course.size() > 1) {
    part += figure(ferment_picture(batch.plan.ferment, batch.system),
                   "Planned course; draw your readings in.");
  }
  return part + readings(batch);
}

}  // namespace lynearm::sheet
