#include "cli/help.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/command_line.hpp"
#include "cli/table.hpp"

namespace lynearm::cli {
namespace {

// Two columns, the first as wide as its widest entry.
std::string listed(const std::vector<std::pair<std::string, std::string>>& entries) {
  std::size_t width = 0;
  for (const auto& entry : entries) width = std::max(width, columns(entry.first));
  std::string text;
  for (const auto& entry : entries) {
    text += fmt::format("  {}{}  {}\n", entry.first,
                        std::string(width - columns(entry.first), ' '), entry.second);
  }
  return text;
}

std::string shown(const Option& option) {
  if (!option.name.starts_with('-') || option.value_name.empty()) return option.name;
  return option.name + " " + option.value_name;
}

}  // namespace

std::string version() { return "lynearm " LYNEARM_VERSION "\n"; }

std::string program_help(const std::vector<Command>& commands) {
  std::vector<std::pair<std::string, std::string>> entries;
  for (const Command& command : commands) entries.emplace_back(command.name, command.summary);
  return "Lynearm plans a batch of grain spirit from mash bill to bottle, and gauges what "
         "comes.\n"
         "\n"
         "The law: distilling without a licence is unlawful in many countries, even for own "
         "use.\n"
         "Find out what holds where you are, and hold what it asks for, before you light a "
         "still.\n"
         "\n"
         "Usage: lynearm COMMAND [OPTION ...]\n"
         "\n"
         "Commands\n" +
         listed(entries) +
         "\n"
         "lynearm COMMAND --help shows its options and a worked line.\n"
         "lynearm --version shows the version.\n"
         "\n"
         "Figures come with their unit, in quotes: \"4 L\", \"1 gal\", \"27.5 C\", \"80 F\",\n"
         "\"62.4 %vol\", \"125 proof\". Exit status: 0 well; 1 no answer was found, or the\n"
         "output could not be written; 2 something in the command line; 3 some rows of a "
         "table\n"
         "failed; 70 our own fault.\n";
}

std::string command_help(const Command& command) {
  std::vector<std::pair<std::string, std::string>> entries;
  std::string places;
  for (const std::vector<Option>* options : {&command.options, &common_options()}) {
    for (const Option& option : *options) {
      entries.emplace_back(shown(option), option.help);
      if (!option.name.starts_with('-')) places += " " + option.name;
    }
  }
  std::string text =
      fmt::format("lynearm {}: {}.\n\nUsage: lynearm {}{} OPTION ...\n\nOptions\n{}",
                  command.name, command.summary, command.name, places, listed(entries));
  if (!command.note.empty()) text += "\n" + command.note;
  text += fmt::format("\nExample\n  lynearm {} {}\n  {}\n", command.name,
                      command.example.arguments, command.example.result);
  return text;
}

}  // namespace lynearm::cli
