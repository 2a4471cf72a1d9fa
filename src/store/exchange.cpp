#include "store/exchange.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <optional>
#include <span>
#include <string_view>
#include <system_error>
#include <utility>

#include "store/durable_file.hpp"
#include "store/trouble.hpp"
#include "wire/entry.hpp"

namespace lynearm::store {
namespace {

constexpr std::size_t most_faults = 100;

struct Line {
  int number = 0;
  std::string text;
  bool too_long = false;
};

// The next line, of which no more is held than an entry can have; nothing at the end.
std::optional<Line> next_line(std::streambuf& from, int number) {
  using Traits = std::streambuf::traits_type;
  Line line{number, "", false};
  int c = from.sbumpc();
  if (Traits::eq_int_type(c, Traits::eof())) return std::nullopt;
  for (; !Traits::eq_int_type(c, Traits::eof()) && c != '\n'; c = from.sbumpc()) {
    if (line.text.size() < wire::most_entry_bytes) {
      line.text += Traits::to_char_type(c);
    } else {
      line.too_long = true;
    }
  }
  if (!line.text.empty() && line.text.back() == '\r') line.text.pop_back();
  return line;
}

struct Read {
  std::vector<journal::Entry> entries;
  std::vector<int> lines;  ///< of each entry
  std::vector<base::Fault> faults;
};

Read read_all(std::istream& from, const std::string& file) {
  Read read;
  std::streambuf& buffer = *from.rdbuf();
  for (int number = 1; auto line = next_line(buffer, number); ++number) {
    if (line->text.find_first_not_of(" \t") == std::string::npos) continue;
    std::vector<base::Fault> faults;
    if (line->too_long) {
      faults.push_back({"entry", "a longer line",
                        fmt::format("at most {} bytes", wire::most_entry_bytes), "", 0, 0});
    } else {
      wire::EntryRead one = wire::read_entry(line->text);
      faults = std::move(one.faults);
      if (one.entry) {
        read.entries.push_back(*std::move(one.entry));
        read.lines.push_back(number);
      }
    }
    for (base::Fault& fault : faults) {
      fault.file = file;
      fault.line = number;
      read.faults.push_back(std::move(fault));
    }
  }
  return read;
}

// Which entry a fault of the journal is about: "entries[12].id".
std::size_t place_of(const base::Fault& fault) {
  constexpr std::string_view before = "entries[";
  std::size_t place = 0;
  for (std::size_t i = before.size(); i < fault.field.size() && fault.field[i] != ']'; ++i) {
    place = place * 10 + static_cast<std::size_t>(fault.field[i] - '0');
  }
  return place;
}

// Keeps what the journal takes; what it refuses moves from the entries to the faults.
std::vector<Kept> keep_what_can_be(Journal& journal, Read& read, const std::string& file,
                                   bool keep_good) {
  for (;;) {
    try {
      return journal.keep(read.entries, std::nullopt);
    } catch (const base::InputError& error) {
      std::vector<bool> refused(read.entries.size(), false);
      for (base::Fault fault : error.faults()) {
        const std::size_t place = place_of(fault);
        refused.at(place) = true;
        fault.field = "entry" + fault.field.substr(fault.field.find(']') + 1);
        fault.file = file;
        fault.line = read.lines[place];
        read.faults.push_back(std::move(fault));
      }
      if (!keep_good) return {};
      Read good;
      for (std::size_t i = 0; i < read.entries.size(); ++i) {
        if (refused[i]) continue;
        good.entries.push_back(std::move(read.entries[i]));
        good.lines.push_back(read.lines[i]);
      }
      read.entries = std::move(good.entries);
      read.lines = std::move(good.lines);
    }
  }
}

void by_line(std::vector<base::Fault>& faults) {
  std::stable_sort(faults.begin(), faults.end(),
                   [](const base::Fault& a, const base::Fault& b) { return a.line < b.line; });
  if (faults.size() <= most_faults) return;
  const std::size_t more = faults.size() - most_faults;
  faults.resize(most_faults);
  faults.back().accepted += fmt::format(" (and {} faults more)", more);
}

}  // namespace

std::size_t export_lines(const Journal& journal, std::ostream& to) {
  std::size_t lines = 0;
  journal.each([&](const Numbered& one) {
    to << wire::entry_json(one.entry) << '\n';
    ++lines;
  });
  to.flush();
  if (!to) throw Trouble(Trouble::Kind::failed, "the text of the journal could not be written");
  return lines;
}

std::size_t export_file(const Journal& journal, const std::filesystem::path& file) {
  namespace fs = std::filesystem;
  std::error_code none;
  const auto refuse = [&file](const char* accepted) {
    throw base::InputError("export", file.string(), accepted);
  };
  if (fs::exists(fs::symlink_status(file, none))) {
    refuse("the name of a file that is not there yet");
  }
  if (!fs::is_directory(fs::absolute(file, none).parent_path(), none)) {
    refuse("a file in a folder that is there");
  }
  Draft draft(file);
  std::ofstream to(draft.file(), std::ios::binary);
  const std::size_t lines = export_lines(journal, to);
  to.close();
  if (!to) throw Trouble(Trouble::Kind::failed, "the text of the journal could not be written");
  draft.finish(file);
  return lines;
}

Import import_lines(Journal& journal, std::istream& from, const std::string& file,
                    bool keep_good) {
  Read read = read_all(from, file);
  std::vector<Kept> kept;
  if (read.faults.empty() || keep_good) kept = keep_what_can_be(journal, read, file, keep_good);
  by_line(read.faults);
  if (!read.faults.empty() && !keep_good) throw base::InputError(std::move(read.faults));
  Import import;
  for (const Kept& one : kept) ++(one.now ? import.kept : import.there_already);
  import.faults = std::move(read.faults);
  return import;
}

}  // namespace lynearm::store
