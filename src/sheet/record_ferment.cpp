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

// Of an hour; in cubic feet a gallon's reader counts air too.
std::string air_cell(units::VolumeFlow fresh, units::System system) {
  constexpr double cubic_feet_per_m3 = 1.0 / 0.028316846592;  // exact: 0.3048 m cubed
  const double m3 = fresh.litres_per_hour() / 1000.0;
  const std::string metric = fmt::format("{:.0f} m³", m3);
  const std::string us = fmt::format("{:.0f} ft³", m3 * cubic_feet_per_m3);
  switch (system) {
    case units::System::metric:
      return metric;
    case units::System::us:
      return us;
    case units::System::both:
      return fmt::format("{} ({})", metric, us);
  }
  return metric;
}

// In the room it stands in: of what was pitched as soon as that is told, before it as planned.
Html gas_of(const Record& record) {
  const units::System system = record.system;
  const plan::FermentPlan& planned = record.planned.plan.ferment;
  const auto an_hour = [&](units::VolumeFlow rate) {
    return cell(units::Volume::litres(rate.litres_per_hour()), system);
  };
  const auto air = [&](units::VolumeFlow fresh, const std::optional<units::Share>& room) {
    std::string words =
        fmt::format(" It asks for {} of fresh air an hour", air_cell(fresh, system));
    if (room) {
      words += fmt::format(
          "; in its closed room the air would come to {:.1f} % of the gas, and the limit for a "
          "working day is 0.5 %",
          room->percent());
    }
    return words + ".";
  };
  const bool known = record.from.followed && record.from.followed->gas;
  // Where nobody reckoned the pitch, figures that are not its own would mislead.
  if (!known && record.batch.ferment.pitch) return {};
  if (!known) {
    return paragraph(fmt::format(
        "By the plan it gives off {} of carbon dioxide, at most {} of gas an hour.{}",
        cell(planned.fermented.carbon_dioxide, system), an_hour(planned.peak_carbon_dioxide),
        air(planned.fresh_air, planned.room_at_peak)));
  }
  const plan::GasPitched& gas = *record.from.followed->gas;
  if (gas.standing == plan::GasStanding::stands) {
    return paragraph(
        "Racked, and by its readings it had come to stand: hardly any gas comes of it unless "
        "it "
        "goes on. What came lies over the wash and in the emptied fermenter still.");
  }
  std::string words =
      fmt::format("As pitched{} it gives off {} of carbon dioxide (planned {})",
                  gas.fed > units::Mass{} ? " and fed" : "", cell(gas.gas.mass, system),
                  cell(planned.fermented.carbon_dioxide, system));
  if (gas.gas.peak) {
    words += fmt::format(", at most {} of gas an hour (planned {}).{}",
                         an_hour(gas.gas.peak->rate), an_hour(planned.peak_carbon_dioxide),
                         air(gas.gas.peak->fresh_air, gas.gas.peak->room));
  } else {
    words += fmt::format("; how fast is not reckoned ({}).", gas.no_pace);
  }
  if (gas.fed > units::Mass{}) {
    words += fmt::format(" The {} put in since are taken for sugar, all of it.",
                         cell(gas.fed, system));
  }
  if (gas.standing == plan::GasStanding::racked) {
    words +=
        " It was racked, and no reading that is believed tells that it had come to stand: it "
        "may give off gas "
        "yet.";
  }
  return paragraph(words);
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
  part += gas_of(record) + pitch_and_wash(record);
  if (read.pitch && record.planned.plan.ferment.pace.course.size() > 1) {
    part += figure(ferment_record(record.planned.plan.ferment, read, record.system),
                   "Lines: planned. Rings: gravity read, as at 20 °C; crosses: temperature "
                   "read.");
  }
  return part + readings(record) + told_besides(record, Stage::ferment);
}

}  // namespace lynearm::sheet
