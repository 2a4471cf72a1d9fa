// lynearm sheet: a batch of a house on paper, also while the house is served: the record of one
// that has begun, the plan to write on of one that has not.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "cli/commands.hpp"
#include "cli/house_place.hpp"
#include "cli/text_file.hpp"
#include "cli/threads.hpp"
#include "cli/visible.hpp"
#include "journal/fold.hpp"
#include "plan/plan.hpp"
#include "recipe/read_pair.hpp"
#include "sheet/batch_sheet.hpp"
#include "sheet/record_sheet.hpp"
#include "station/station.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_batch = "--batch";
constexpr const char* option_file = "FILE";
constexpr const char* option_paper = "--paper";
constexpr const char* option_clock = "--minutes-east";
constexpr const char* option_replace = "--replace";

struct Asked {
  std::string batch, file;
  sheet::Paper paper = sheet::Paper::a4;
  int minutes_east = 0;
  bool replace = false;
};

sheet::Paper paper_asked(Arguments& arguments) {
  if (!arguments.has(option_paper)) return sheet::Paper::a4;
  const std::string& paper = arguments.texts(option_paper).front();
  if (paper == "Letter" || paper == "letter") return sheet::Paper::letter;
  if (paper != "A4" && paper != "a4") arguments.refuse(option_paper, paper, "A4 or Letter");
  return sheet::Paper::a4;
}

int clock_asked(Arguments& arguments) {
  constexpr int most = 14 * 60;
  if (!arguments.has(option_clock)) return 0;
  const std::string& text = arguments.texts(option_clock).front();
  int minutes = 0;
  const char* const end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, minutes);
  if (read.ec != std::errc{} || read.ptr != end || minutes < -most || minutes > most) {
    arguments.refuse(option_clock, text, fmt::format("a whole number from -{0} to {0}", most));
    return 0;
  }
  return minutes;
}

// What stands in the head of a sheet; so much is read before one is written over.
constexpr std::string_view ours = R"(name="generator" content="Lynearm")";
constexpr std::size_t head_bytes = 512;

bool is_sheet(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::string head(head_bytes, '\0');
  file.read(head.data(), static_cast<std::streamsize>(head.size()));
  return head.find(ours) != std::string::npos;
}

void check_file(Arguments& arguments, const Asked& asked) {
  if (asked.file.empty()) return;
  std::error_code ignored;
  const std::filesystem::path folder = std::filesystem::path(asked.file).parent_path();
  if (!folder.empty() && !std::filesystem::is_directory(folder, ignored)) {
    arguments.refuse(option_file, asked.file, "a file in a folder that is there");
  } else if (std::filesystem::exists(asked.file, ignored)) {
    if (!asked.replace) {
      arguments.refuse(option_file, asked.file,
                       "a file that is not there yet, or with --replace an older sheet");
    } else if (!is_sheet(asked.file)) {
      arguments.refuse(option_file, asked.file, "a sheet to replace, or a new file");
    }
  }
}

std::string in_small(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

// The name that is most like it, capitals aside; empty when none is near.
std::string nearest_to(const std::string& asked, const std::vector<std::string>& names) {
  std::vector<std::string> small;
  for (const std::string& name : names) small.push_back(in_small(name));
  const std::string near = base::nearest_name(in_small(asked), small);
  const auto at = std::find(small.begin(), small.end(), near);
  return near.empty() ? near : names[static_cast<std::size_t>(at - small.begin())];
}

// By its name, or by its id where several have the name.
const journal::BatchState& batch_asked(const journal::HouseState& house,
                                       const std::string& asked) {
  std::vector<const journal::BatchState*> named;
  std::vector<std::string> names;
  for (const auto& [id, batch] : house.batches) {
    if (journal::print(id) == asked) return batch;
    if (batch.name == asked) named.push_back(&batch);
    names.push_back(batch.name);
  }
  if (named.size() == 1) return *named.front();
  if (named.size() > 1) {
    std::vector<std::string> ids;
    for (const journal::BatchState* one : named) ids.push_back(journal::print(one->id));
    throw base::InputError(option_batch, asked,
                           fmt::format("the id of one of the {} batches of that name: {}",
                                       named.size(), fmt::join(ids, ", ")));
  }
  if (names.empty()) {
    throw base::InputError(option_batch, asked, "a batch; this house has none yet");
  }
  std::string accepted = "the name of a batch of this house";
  const std::string near = nearest_to(asked, names);
  if (!near.empty()) {
    accepted += fmt::format(" (\"{}\" is the nearest)", near);
  } else {
    constexpr std::size_t most = 12;
    const std::size_t told = std::min(names.size(), most);
    accepted += fmt::format(
        ": {}{}",
        fmt::join(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(told), ", "),
        told < names.size() ? fmt::format(" and {} more", names.size() - told) : std::string{});
  }
  throw base::InputError(option_batch, asked, accepted);
}

struct Sheet {
  std::string text;
  std::string name;
  journal::Id batch;
  bool record = false;
};

Sheet sheet_of(store::House& house, const Asked& asked, units::System system) {
  std::vector<journal::Entry> entries;
  house.journal().each([&](const store::Numbered& one) { entries.push_back(one.entry); });
  const journal::HouseState state = journal::fold(entries);
  const journal::BatchState& batch = batch_asked(state, asked.batch);
  if (!batch.plan) {
    throw base::InputError(option_batch, asked.batch, "a batch that was planned");
  }
  const recipe::NamedText recipe{batch.plan->recipe, "the recipe of " + batch.name};
  const recipe::NamedText kit{batch.plan->kit, "the kit of " + batch.name};
  const recipe::Pair pair = recipe::read_pair(recipe, kit);
  const auto plan = [&] {
    try {
      return plan::make(pair.recipe, pair.kit);
    } catch (const base::InputError& error) {
      throw base::InputError(recipe::placed(error.faults(), recipe, kit));
    }
  }();
  Sheet made{{}, batch.name, batch.id, sheet::has_begun(batch)};
  if (made.record) {
    std::erase_if(entries, [&](const journal::Entry& one) { return one.batch != batch.id; });
    // Nothing is told by a clock here: what is followed is what the journal has.
    station::Station station(house, on_threads(all_cores()), [] { return journal::Moment{}; });
    made.text = sheet::record_sheet({pair.recipe,
                                     pair.kit,
                                     plan,
                                     state,
                                     batch,
                                     entries,
                                     system,
                                     asked.minutes_east,
                                     {},
                                     station.readings_followed(batch)},
                                    asked.paper);
  } else {
    made.text = sheet::batch_sheet(pair.recipe, pair.kit, plan, nullptr, system, asked.paper);
  }
  return made;
}

std::string run(Arguments& arguments, const Look& look) {
  Asked asked;
  asked.batch = arguments.required_text(option_batch, "the name of a batch: \"Tern 7\"");
  asked.file = arguments.required_text(option_file, "the path of a file to write");
  asked.paper = paper_asked(arguments);
  asked.minutes_east = clock_asked(arguments);
  asked.replace = arguments.has(option_replace);
  const store::Place place = asked_place(arguments, true);
  check_file(arguments, asked);
  arguments.settle();

  return in_house(place, "sheet", option_file, [&] {
    store::House house(place);
    const Sheet made = sheet_of(house, asked, look.units);
    write_file(asked.file, made.text);
    if (look.json) {
      return fmt::format("{{\"batch\":\"{}\",\"sheet\":\"{}\"}}\n", journal::print(made.batch),
                         made.record ? "record" : "plan");
    }
    return fmt::format("{} of {} is in {}.\n", made.record ? "The record" : "The batch sheet",
                       visible(made.name), visible(asked.file));
  });
}

}  // namespace

Command sheet_command() {
  return {"sheet",
          "the record of a batch on paper, as HTML, also while the house is served",
          with_place({{option_file, "FILE", "to write; only a new one, unless --replace"},
                      {option_batch, "NAME", "the batch, by its name or its id"},
                      {option_paper, "PAPER", "A4 (default) or Letter"},
                      {option_clock, "MINUTES",
                       "the clock of its times: minutes east of UTC, 0 (default)"},
                      {option_replace, "", "an older sheet of that name goes"}}),
          {"build/tern-7.html --batch \"Tern 7\" --data build/example-house --replace",
           "The record of Tern 7 is in build/tern-7.html."},
          "What was planned beside what was measured, when and by whom, stage by stage, with "
          "what was\n"
          "corrected; what has not begun stands as planned, with blanks to write on. Of a "
          "batch that is\n"
          "only planned, the batch sheet. One file that needs nothing else: any browser prints "
          "it.\n",
          run};
}

}  // namespace lynearm::cli
