// lynearm restore: a house from its backup, or whether that could be done.
#include <fmt/format.h>

#include <filesystem>
#include <system_error>

#include "cli/commands.hpp"
#include "cli/house_place.hpp"
#include "store/backup.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_file = "FILE";
constexpr const char* option_check = "--check";

std::string told(const std::string& sentence, const store::Backup& backup, const Look& look) {
  if (look.json) {
    return fmt::format("{{\"entries\":{},\"attachments\":{}}}\n", backup.entries,
                       backup.attachments);
  }
  return fmt::format("{}\n  {}, {}\n", sentence, counted(backup.entries, "entry", "entries"),
                     counted(backup.attachments, "attachment", "attachments"));
}

std::string run(Arguments& arguments, const Look& look) {
  const std::string file = arguments.required_text(option_file, "the path of a backup");
  const store::Place place = asked_place(arguments, false);
  arguments.settle();

  return in_house(place, "backup", option_file, [&] {
    std::error_code none;
    const bool new_folder =
        place.database.empty() && !std::filesystem::exists(place.folder, none);
    if (arguments.has(option_check) || new_folder) {
      // A new folder is made only for a backup that is whole.
      const store::Backup whole = store::check_backup(file);
      if (arguments.has(option_check)) {
        return told(fmt::format("{} is whole.", file), whole, look);
      }
    }
    store::House house(place);
    const store::Backup restored = store::restore(file, house);
    return told(
        fmt::format("The house is restored in {}. Phones are paired anew.", house.where()),
        restored, look);
  });
}

}  // namespace

Command restore_command() {
  return {
      "restore",
      "a house made again from its backup",
      with_place({{option_file, "FILE", "the backup"},
                  {option_check, "",
                   "reads all of it and says whether it is whole; makes "
                   "nothing"}}),
      {"build/example.backup --check", "build/example.backup is whole."},
      "Into a new house, or one without entries: what a house holds is never written over. "
      "With a\n"
      "damaged backup, or one that a newer Lynearm made, nothing is restored. A backup of a "
      "folder\n"
      "goes into PostgreSQL as well, and the other way round.\n",
      run};
}

}  // namespace lynearm::cli
