// lynearm backup: a house in one file, also while it is served.
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/house_place.hpp"
#include "store/backup.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_file = "FILE";
constexpr const char* option_replace = "--replace";

std::string run(Arguments& arguments, const Look& look) {
  const std::string file = arguments.required_text(option_file, "the path of a file to write");
  const store::Place place = asked_place(arguments, true);
  arguments.settle();

  return in_house(place, "backup", option_file, [&] {
    store::House house(place);
    const store::Backup made = store::back_up(house, file, arguments.has(option_replace));
    if (look.json) {
      return fmt::format("{{\"entries\":{},\"attachments\":{}}}\n", made.entries,
                         made.attachments);
    }
    return fmt::format("The house in {} is backed up.\n  {}, {}, in {}\n", house.where(),
                       counted(made.entries, "entry", "entries"),
                       counted(made.attachments, "attachment", "attachments"), file);
  });
}

}  // namespace

Command backup_command() {
  return {
      "backup",
      "a house in one file, also while it is served",
      with_place({{option_file, "FILE", "to write; only a new one, unless --replace"},
                  {option_replace, "",
                   "an older backup of that name goes when this one is "
                   "whole"}}),
      {"build/example.backup --data build/example-house --replace",
       "The house in build/example-house is backed up."},
      "The journal as of one moment and every attachment that was there by then, with hashes "
      "over\n"
      "both. Paired phones stay out: whoever finds a backup must not be let into the house by "
      "it.\n"
      "The file is whole and on the disk when it has its name. \"lynearm restore\" makes a "
      "house of\n"
      "it, in a folder or in PostgreSQL, whichever it came from.\n",
      run};
}

}  // namespace lynearm::cli
