// The jars as they were filled, gauged and nosed, where each went, and what the cut made of
// them.
#include <fmt/format.h>

#include "sheet/record_parts.hpp"

namespace lynearm::sheet {
namespace {

using journal::JarState;
using journal::LotKind;
using journal::RunState;

std::string nosed(const JarState& jar) {
  std::string text;
  for (const journal::JarNote& note : jar.notes) {
    std::string one = fmt::format("{}", fmt::join(note.words, ", "));
    if (!note.text.empty()) one += (one.empty() ? "" : ": ") + note.text;
    if (note.fault) {
      one += fmt::format("{}fault {:.0f}", one.empty() ? "" : "; ", *note.fault);
    }
    if (note.told.corrections > 0) one += " (corrected)";
    text += (text.empty() ? "" : " | ") + one;
  }
  return text;
}

std::string went_to(const JarState& jar, units::System system) {
  if (!jar.poured) return {};
  const std::vector<std::pair<const char*, units::Volume>> shares = {
      {"foreshots", jar.poured->foreshots},
      {"hearts", jar.poured->hearts},
      {"feints", jar.poured->feints},
      {"apart", jar.poured->apart}};
  std::string text;
  std::size_t vessels = 0;
  for (const auto& [name, volume] : shares) vessels += volume > units::Volume{} ? 1 : 0;
  for (const auto& [name, volume] : shares) {
    if (volume <= units::Volume{}) continue;
    text += text.empty() ? "" : ", ";
    // All of one jar in one vessel needs no figure.
    text += vessels == 1 ? std::string(name)
                         : fmt::format("{} {}", name, in_the_glass(volume, system));
  }
  return text.empty() ? "left standing" : text;
}

// As it was filled, and whether that is believed of all that had come by then.
std::string by_mark(const Record& record, const JarState& jar) {
  const std::string doubt = jar.filled ? not_believed(record, jar.filled->entry) : "";
  return in_the_glass(*jar.as_filled, record.system) + (doubt.empty() ? "" : " (not believed)");
}

Html shelf(const Record& record, const RunState& run) {
  const units::System system = record.system;
  const std::string open = open_cell(record);
  Table jars{.caption = "",
             .columns = {{"Jar", Align::right},
                         {"filled", Align::left},
                         {"by mark", Align::right},
                         {"gauged, 20 °C", Align::right},
                         {"strength", Align::right},
                         {"nose and palate", Align::left, 32},
                         {"went to", Align::left, 20}},
             .rows = {}};
  std::vector<const journal::Told*> gaugers;
  std::vector<const journal::Told*> nosers;
  for (const auto& [number, jar] : run.jars) {
    const std::string nose = nosed(jar);
    const std::string to = went_to(jar, system);
    jars.rows.push_back(
        {fmt::format("{}", number), jar.filled ? hour(record, jar.filled->at) : open,
         jar.as_filled ? by_mark(record, jar) : open,
         jar.lot ? in_the_glass(spirit::volume(*jar.lot), system) : open,
         jar.lot ? cell(spirit::strength(*jar.lot), system) : open,
         // Once the cut is made no word is owed any more.
         nose.empty() ? (run.allotted ? std::string("–") : open) : nose,
         to.empty() ? (run.allotted ? std::string("left standing") : open) : to});
    if (jar.gauged) gaugers.push_back(&*jar.gauged);
    for (const journal::JarNote& note : jar.notes) nosers.push_back(&note.told);
  }
  std::string small = "Gauged after airing; strengths true, volumes at 20 °C.";
  if (!gaugers.empty()) {
    small +=
        fmt::format(" Gauged {} by {}.", when(record, gaugers.front()->at), by_whom(gaugers));
  }
  if (!nosers.empty()) {
    small += fmt::format(" Nosed {} by {}; fault: 0 nothing found, 10 spoiled.",
                         when(record, nosers.front()->at), by_whom(nosers));
  }
  return table(jars) + small_print(small);
}

Html cut(const Record& record) {
  const plan::SpiritPlan& planned = record.planned.plan.spirit;
  const units::System system = record.system;
  std::string made_when(no_figure);
  for (const RunState& run : record.batch.runs) {
    if (run.allotted) made_when = told(record, *run.allotted);
  }
  std::vector<Met> rows;
  const auto put = [&](const char* name, const spirit::Lot& of_plan, LotKind kind) {
    const spirit::Lot made = sum_made(lots_of(record, kind));
    if (of_plan.mass() <= units::Mass::grams(1.0) && made.mass() <= units::Mass{}) return;
    rows.push_back({name,
                    of_plan.mass() > units::Mass::grams(1.0) ? lot_words(of_plan, system)
                                                             : std::string(no_figure),
                    lot_words(made, system), made_when});
  };
  put("Foreshots", planned.foreshots_away, LotKind::foreshots);
  put("Hearts", planned.hearts_all, LotKind::hearts);
  put("Feints", planned.feints_kept, LotKind::feints);
  put("Set apart", {}, LotKind::apart);
  return subheading("The cut") + met_table("", rows);
}

}  // namespace

Html record_jars(const Record& record) {
  Html part;
  bool allotted = false;
  int spirit_runs = 0;
  for (const RunState& run : record.batch.runs) {
    if (run.kind != journal::RunKind::spirit) continue;
    ++spirit_runs;
    allotted = allotted || run.allotted.has_value();
    if (run.jars.empty()) continue;
    if (spirit_runs > 1) part += subheading(fmt::format("Of run {}", spirit_runs));
    part += shelf(record, run);
  }
  if (allotted) part += cut(record);
  return heading("Jars") +
         cautions_box({cautions::tasting, cautions::foreshots, cautions::blue_or_green}) +
         part + told_besides(record, journal::Stage::jars);
}

}  // namespace lynearm::sheet
