// The ferment as it was: the pitch, the readings on the planned curve, the wash.
#include <fmt/format.h>

#include "ferment/yeast.hpp"
#include "sheet/record_parts.hpp"
#include "sheet/record_pictures.hpp"
#include "sheet/record_thin.hpp"

namespace lynearm::sheet {
namespace {

using journal::Stage;

// A gravity, and whether it is believed.
std::string marked(const Record& record, const journal::FermentPoint& point) {
  const std::string doubt = not_believed(record, point.told.entry);
  return gravity_cell(*point.gravity) + (doubt.empty() ? "" : fmt::format(" ({})", doubt));
}

Html pitch_and_wash(const Record& record) {
  const plan::FermentPlan& planned = record.planned.plan.ferment;
  const plan::WortPlan& wort = record.planned.plan.mash.wort;
  const journal::FermentState& read = record.batch.ferment;
  const units::System system = record.system;
  const std::string open = open_cell(record);
  std::vector<Met> rows = {{"Wort pitched, at 20 °C", cell(wort.volume, system), open},
                           {"Original gravity", gravity_cell(planned.original_gravity), open},
                           {"Yeast", cell(planned.yeast, system), open}};
  // Readings are told of a ferment whose pitch nobody told.
  if (read.pitch) {
    const journal::PitchState& pitch = *read.pitch;
    rows[0].measured = cell(pitch.volume, system);
    rows[1].measured = gravity_cell(pitch.gravity);
    if (!pitch.yeast.empty()) {
      rows[2].name = fmt::format("Yeast, {}", ferment::yeast_name(pitch.yeast));
    }
    rows[2].measured = cell(pitch.mass, system);
    for (Met& row : rows) row.when = told(record, pitch.told);
  }
  Met last{"Final gravity", gravity_cell(planned.final_gravity), open};
  for (const journal::FermentPoint& point : read.points) {
    if (!point.gravity) continue;
    last.measured = marked(record, point);
    last.when = told(record, point.told);
    // What the wash is reckoned by: one told after it cannot be a wash's.
    if (read.wash && read.wash->told.entry == point.told.entry) break;
  }
  rows.push_back(last);
  rows.push_back({"Wash, by its gravities", cell(planned.strength, system, 2),
                  read.wash ? cell(read.wash->strength, system, 2) : open, last.when});
  rows.push_back({"Racked to the still, at 20 °C", cell(planned.racked_volume, system),
                  read.racked ? cell(read.racked->clear, system) : open,
                  read.racked ? told(record, read.racked->told) : std::string(no_figure)});
  if (read.racked && read.racked->lees) {
    rows.push_back({"Lees", std::string(no_figure), cell(*read.racked->lees, system),
                    told(record, read.racked->told)});
  }
  Html table = met_table("", rows);
  if (read.wash && read.wash->unread) {
    table += small_print(fmt::format(
        "Racked {:.1f} days after the last gravity that can be of this wash, which had not "
        "come "
        "to stand by then: it may have fermented on, and held at least the alcohol told here.",
        read.wash->unread->days()));
  }
  return table;
}

Html readings(const Record& record) {
  Table read{.caption = "Readings; gravity as at 20 °C",
             .columns = {{"When", Align::left, 27},
                         {"day", Align::right},
                         {"gravity", Align::right},
                         {temperature_unit(record.system), Align::right},
                         {"by", Align::left, 28}},
             .rows = {}};
  const journal::FermentState& ferment = record.batch.ferment;
  const std::string none(no_figure);
  const Thinned thin = thinned(ferment.points);
  for (const std::size_t i : thin.kept) {
    const journal::FermentPoint& point = ferment.points[i];
    std::string gravity = point.gravity ? marked(record, point) : none;
    if (point.told.corrections > 0) gravity += " (corrected)";
    std::string days = none;
    if (ferment.pitch) {
      days = units::fixed(journal::since(point.told.at, ferment.pitch->told.at).days(), 1);
    }
    read.rows.push_back(
        {when(record, point.told.at), std::move(days), std::move(gravity),
         point.temperature
             ? apart(with_minus(units::print(*point.temperature, record.system))).figure
             : none,
         point.told.who.empty() ? none : point.told.who});
  }
  const std::string not_all = thin_words(thin);
  return in_halves(std::move(read), 6) + (not_all.empty() ? Html{} : small_print(not_all));
}

}  // namespace

Html record_ferment(const Record& record) {
  const journal::FermentState& read = record.batch.ferment;
  Html part = heading("Ferment") + cautions_box({cautions::carbon_dioxide});
  part += pitch_and_wash(record);
  if (read.pitch && record.planned.plan.ferment.pace.course.size() > 1) {
    part += figure(ferment_record(record.planned.plan.ferment, read, record.system),
                   "Lines: planned. Rings: gravity read, as at 20 °C; crosses: temperature "
                   "read.");
  }
  return part + readings(record) + told_besides(record, Stage::ferment);
}

}  // namespace lynearm::sheet
