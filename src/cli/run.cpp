#include "cli/run.hpp"

#include <csignal>
#include <optional>
#include <string>

#include "cli/command_line.hpp"
#include "cli/commands.hpp"
#include "cli/help.hpp"
#include "cli/report.hpp"

namespace lynearm::cli {
namespace {

Look look_asked(Arguments& arguments) {
  Look look;
  look.colour = colour_wanted();
  look.json = arguments.has("--json");
  if (arguments.has("--units")) {
    const std::string& units = arguments.texts("--units").front();
    if (units == "us") {
      look.units = units::System::us;
    } else if (units == "both") {
      look.units = units::System::both;
    } else if (units != "metric") {
      arguments.refuse("--units", units, "metric, us or both");
    }
  }
  return look;
}

int answer(const Command& command, Arguments& arguments) {
  const Look look = look_asked(arguments);
  try {
    if (command.stream != nullptr) {
      if (const std::optional<int> status = command.stream(arguments, look)) return *status;
    }
    return put(command.run(arguments, look));
  } catch (const base::InputError& error) {
    throw as_options(error, command, arguments);
  }
}

}  // namespace

int run(int argc, const char* const* argv) {
  // A reader that goes away is then an error of the write, which put() tells from others.
  std::signal(SIGPIPE, SIG_IGN);
  try {
    const std::vector<Command> all = commands();
    CommandLine line = parse(argc, argv, all);
    if (line.asked == Asked::version) return put(version());
    if (line.asked == Asked::help) {
      return put(line.command == nullptr ? program_help(all) : command_help(*line.command));
    }
    return answer(*line.command, line.arguments);
  } catch (...) {
    return report(std::current_exception());
  }
}

}  // namespace lynearm::cli
