// lynearm import: lines of JSON, as export writes them, taken into a journal.
#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <optional>
#include <system_error>
#include <utility>

#include "cli/commands.hpp"
#include "cli/gauge_batch.hpp"
#include "cli/house_place.hpp"
#include "cli/report.hpp"
#include "store/exchange.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_file = "FILE";
constexpr const char* option_keep_good = "--keep-good";

// The file opened, or a fault.
std::ifstream opened(Arguments& arguments, const std::string& file) {
  std::ifstream from;
  if (file.empty() || file == "-") return from;
  std::error_code none;
  errno = 0;
  if (std::filesystem::is_directory(file, none)) {
    errno = EISDIR;
  } else {
    from.open(file, std::ios::binary);
  }
  if (errno != 0 || !from.is_open()) {
    arguments.refuse(option_file, file,
                     fmt::format("a journal that can be read ({})", std::strerror(errno)));
  }
  return from;
}

std::string told(const store::Import& import, const std::string& where, const Look& look) {
  if (look.json) {
    return fmt::format("{{\"kept\":{},\"there_already\":{},\"faults\":{}}}\n", import.kept,
                       import.there_already, import.faults.size());
  }
  return fmt::format("{} of the file's entries are kept in {}.\n  {} new, {} there already\n",
                     import.faults.empty() ? "All" : "Only the good ones", where, import.kept,
                     import.there_already);
}

std::optional<int> stream(Arguments& arguments, const Look& look) {
  const std::string file =
      arguments.required_text(option_file, "the path of a journal; - is standard input");
  std::ifstream from = opened(arguments, file);
  const store::Place place = asked_place(arguments, false);
  arguments.settle();

  return in_house(place, "import", option_file, [&] {
    const bool standard_input = file == "-";
    const bool keep_good = arguments.has(option_keep_good);
    // First, so that no house is made for what is refused.
    store::Lines read = store::read_lines(standard_input ? std::cin : from,
                                          standard_input ? "standard input" : file, keep_good);
    store::House house(place);
    const store::Import import =
        store::import_lines(house.journal(), std::move(read), keep_good);
    const int status = put(told(import, house.where(), look));
    if (import.faults.empty()) return status;
    static_cast<void>(report(std::make_exception_ptr(base::InputError(import.faults))));
    return status == Status::well ? some_rows_failed : status;
  });
}

}  // namespace

Command import_command() {
  return {
      "import",
      "such lines taken into a journal",
      with_place({{option_file, "FILE", "the lines; - is standard input"},
                  {option_keep_good, "", "keeps the lines without fault, tells the others"}}),
      {"examples/house/journal.jsonl --data build/example-house",
       "All of the file's entries are kept in build/example-house."},
      "All or nothing: with a fault in any line every fault is told with its line, and nothing "
      "is\n"
      "kept, unless --keep-good is given. An entry that is there already is left as it is, so "
      "that\n"
      "importing again is harmless and two journals can be poured together. A house in a "
      "folder\n"
      "must not be in use meanwhile; to a running one, post the file to /api/v1/journal.\n",
      nullptr,
      stream};
}

}  // namespace lynearm::cli
