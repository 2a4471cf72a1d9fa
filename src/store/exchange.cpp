#include "store/exchange.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <map>
#include <optional>
#include <span>
#include <string_view>
#include <system_error>
#include <utility>

#include "store/durable_file.hpp"
#include "store/row.hpp"
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

// What the journal itself would refuse of an entry, whatever the house holds: so that it is
// told before a house is made for it.
//
// places     of the ids before; null where the good lines are kept: which of two that is, the
//            journal says, which may hold one of them
std::vector<base::Fault> refusals(const journal::Entry& entry, const Lines& before,
                                  std::map<journal::Id, std::size_t>* places) {
  try {
    static_cast<void>(row_of(entry, std::nullopt, "entry"));
  } catch (const base::InputError& error) {
    return error.faults();
  }
  if (places == nullptr) return {};
  const auto [there, first] = places->emplace(entry.id, before.entries.size());
  if (first || same(before.entries[there->second], entry)) return {};
  return {{"entry.id", print(entry.id),
           fmt::format("an id of its own: line {} tells something else under this one",
                       before.numbers[there->second]),
           "", 0, 0}};
}

Lines read_all(std::istream& from, const std::string& file, bool keep_good) {
  Lines read;
  std::map<journal::Id, std::size_t> places;
  read.file = file;
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
      if (one.entry) faults = refusals(*one.entry, read, keep_good ? nullptr : &places);
      if (one.entry && faults.empty()) {
        read.entries.push_back(*std::move(one.entry));
        read.numbers.push_back(number);
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
std::vector<Kept> keep_what_can_be(Journal& journal, Lines& read, bool keep_good) {
  for (;;) {
    try {
      return journal.keep(read.entries, std::nullopt);
    } catch (const base::InputError& error) {
      std::vector<bool> refused(read.entries.size(), false);
      for (base::Fault fault : error.faults()) {
        const std::size_t place = place_of(fault);
        refused.at(place) = true;
        fault.field = "entry" + fault.field.substr(fault.field.find(']') + 1);
        fault.file = read.file;
        fault.line = read.numbers[place];
        read.faults.push_back(std::move(fault));
      }
      if (!keep_good) return {};
      Lines good;
      for (std::size_t i = 0; i < read.entries.size(); ++i) {
        if (refused[i]) continue;
        good.entries.push_back(std::move(read.entries[i]));
        good.numbers.push_back(read.numbers[i]);
      }
      read.entries = std::move(good.entries);
      read.numbers = std::move(good.numbers);
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
  errno = 0;
  // At once, while the system's reason is known.
  const auto require = [&to] {
    if (to) return;
    const int error = errno;
    throw Trouble(
        error == ENOSPC || error == EDQUOT ? Trouble::Kind::full : Trouble::Kind::failed,
        "the text of the journal could not be written", std::strerror(error));
  };
  journal.each([&](const Numbered& one) {
    const std::string line = wire::entry_json(one.entry) + '\n';
    errno = 0;
    to << line;
    require();
    ++lines;
  });
  to.flush();
  require();
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
  std::size_t lines = 0;
  try {
    lines = export_lines(journal, to);
  } catch (const Trouble& trouble) {
    if (to) throw;  // the journal's, not the file's
    if (trouble.kind() == Trouble::Kind::full) throw disk_full(file, trouble.detail());
    throw Trouble(Trouble::Kind::failed,
                  fmt::format("{} cannot be written: {}", file.string(), trouble.detail()));
  }
  to.close();  // flushed already
  draft.finish(file);
  return lines;
}

Lines read_lines(std::istream& from, const std::string& file, bool keep_good) {
  Lines read = read_all(from, file, keep_good);
  if (!read.faults.empty() && (!keep_good || read.entries.empty())) {
    by_line(read.faults);
    throw base::InputError(std::move(read.faults));
  }
  return read;
}

Import import_lines(Journal& journal, Lines read, bool keep_good) {
  const std::vector<Kept> kept = keep_what_can_be(journal, read, keep_good);
  by_line(read.faults);
  if (!read.faults.empty() && !keep_good) throw base::InputError(std::move(read.faults));
  Import import;
  for (const Kept& one : kept) ++(one.now ? import.kept : import.there_already);
  import.faults = std::move(read.faults);
  return import;
}

Import import_lines(Journal& journal, std::istream& from, const std::string& file,
                    bool keep_good) {
  return import_lines(journal, read_lines(from, file, keep_good), keep_good);
}

}  // namespace lynearm::store
