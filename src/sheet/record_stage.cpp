// A stage of the record as far as every stage has it: what was noted and put in, and how one
// stands that has not begun.
#include <fmt/format.h>

#include <algorithm>

#include "sheet/batch_parts.hpp"
#include "sheet/record_parts.hpp"

namespace lynearm::sheet {

using journal::Stage;

Html notes_of(const Record& record, Stage stage) {
  Writer out;
  bool any = false;
  const auto samples = all_of<journal::WoodSampled>(record);
  for (const journal::NoteState& note : record.batch.notes) {
    if (note.stage != stage) continue;
    // What was said of a sample stands with the sample.
    const bool of_sample = std::any_of(samples.begin(), samples.end(), [&](const auto& sample) {
      return sample.standing->id == note.told.entry;
    });
    if (of_sample) continue;
    if (!any) out.open("div", {{"class", "notes"}});
    any = true;
    out.open("p");
    out.element("em", {}, told(record, note.told) + ": ");
    out.text(note.text.empty() ? "without words" : note.text);
    if (!note.attachments.empty()) {
      std::vector<std::string> names;
      for (const std::string& name : note.attachments) names.push_back(name.substr(0, 8));
      out.text(fmt::format(" [{}, kept in the house as {}]",
                           count_of(static_cast<int>(names.size()), "photograph or file",
                                    "photographs or files"),
                           fmt::join(names, ", ")));
    }
    out.close();
  }
  if (!any) return {};
  out.close();
  return out.finish();
}

Html additions_of(const Record& record, Stage stage) {
  Table added{.caption = "Put in besides",
              .columns = {{"what", Align::left},
                          {"how much", Align::right},
                          {"when, by whom", Align::left, 40}},
              .rows = {}};
  for (const journal::AddedState& one : record.batch.additions) {
    if (one.stage != stage) continue;
    std::string amount;
    if (one.added.mass) amount = cell(*one.added.mass, record.system);
    if (one.added.volume) {
      amount += (amount.empty() ? "" : ", ") + cell(*one.added.volume, record.system);
    }
    added.rows.push_back({one.added.what, amount, told(record, one.told)});
  }
  return added.rows.empty() ? Html{} : table(added);
}

Html told_besides(const Record& record, Stage stage) {
  return additions_of(record, stage) + notes_of(record, stage);
}

Html ahead(const Record& record, std::initializer_list<Stage> stages,
           Html (*part)(const Batch&), const char* name, const Html& more) {
  Html besides = more;
  for (const Stage stage : stages) besides += told_besides(record, stage);
  Html made;
  if (!record.batch.closed) {
    Writer out;
    out.open("div", {{"class", "plan"}}).html(part(record.planned)).close();
    made += out.finish();
  } else if (!besides.text.empty()) {
    made += heading(name);
  }
  return made + besides;
}

Html record_kit(const Record& record) {
  const Html besides = told_besides(record, Stage::kit);
  return besides.text.empty() ? Html{} : heading("Kit") + besides;
}

}  // namespace lynearm::sheet
