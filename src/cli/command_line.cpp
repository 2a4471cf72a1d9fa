#include "cli/command_line.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <utility>

#include "base/error.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* no_command = "No command is given; \"lynearm --help\" lists them.";

bool known_by_place(const Option& option) { return !option.name.starts_with('-'); }
bool is_switch(const Option& option) { return option.value_name.empty(); }

// A command, its options and what CLI11 made of them.
struct Bound {
  const Command* command = nullptr;
  CLI::App* app = nullptr;
  std::vector<std::pair<Option, CLI::Option*>> options;
};

void bind(Bound& bound, const Option& option) {
  if (option.name == "--help") return;  // CLI11's own
  CLI::Option* made = nullptr;
  if (is_switch(option)) {
    made = bound.app->add_flag(option.name);
  } else {
    // Texts are taken as they stand: quantities are ours to read, so are the mistakes in them.
    made = bound.app->add_option(option.name);
    made->type_size(1);
    made->expected(1, CLI::detail::expected_max_vector_size);
    made->allow_extra_args(false);
  }
  made->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  bound.options.emplace_back(option, made);
}

[[noreturn]] void refuse_extra(const std::string& word, const Bound& bound) {
  std::vector<std::string> names;
  const Option* first = nullptr;
  for (const auto& [option, made] : bound.options) {
    if (known_by_place(option)) continue;
    names.push_back(option.name);
    if (first == nullptr && !is_switch(option)) first = &option;
  }
  names.emplace_back("--help");
  const std::string& command = bound.command->name;
  if (word.starts_with('-')) {
    const std::string name = word.substr(0, word.find('='));
    const std::string near = base::nearest_name(name, names);
    throw UsageError(
        near.empty()
            ? fmt::format("\"{}\" is no option of \"lynearm {}\"; "
                          "\"lynearm {} --help\" lists them.",
                          name, command, command)
            : fmt::format("\"{}\" is no option of \"lynearm {}\"; did you mean \"{}\"?", name,
                          command, near));
  }
  throw UsageError(fmt::format(
      "\"{}\" stands alone; a value of several words is put in quotes, as in {} \"{}\".", word,
      first == nullptr ? "--option" : first->name,
      first == nullptr ? "VALUE" : first->value_name));
}

[[noreturn]] void refuse_at_top(const std::string& word, const std::vector<Command>& commands) {
  const bool option = word.starts_with('-');
  std::vector<std::string> names{"--help", "--version"};
  if (!option) {
    names.clear();
    for (const Command& command : commands) names.push_back(command.name);
  }
  const std::string near = base::nearest_name(word, names);
  throw UsageError(fmt::format("\"{}\" is no {} of lynearm; {}", word,
                               option ? "option" : "command",
                               near.empty() ? "\"lynearm --help\" lists them."
                                            : fmt::format("did you mean \"{}\"?", near)));
}

}  // namespace

const std::vector<Option>& common_options() {
  static const std::vector<Option> options{
      {"--json", "", "one JSON object instead of text"},
      {"--units", "UNITS", "units of the text: metric (default), us or both"},
      {"--help", "", "this page"},
  };
  return options;
}

CommandLine parse(int argc, const char* const* argv, const std::vector<Command>& commands) {
  CLI::App program;
  program.set_help_flag("--help,-h");
  program.set_version_flag("--version", "");
  program.require_subcommand(0, 1);
  std::vector<Bound> all;
  for (const Command& command : commands) {
    Bound bound{&command, program.add_subcommand(command.name), {}};
    bound.app->set_help_flag("--help,-h");
    for (const Option& option : command.options) bind(bound, option);
    for (const Option& option : common_options()) bind(bound, option);
    all.push_back(std::move(bound));
  }

  CommandLine line;
  const auto chosen = [&]() -> const Bound* {
    for (const Bound& bound : all) {
      if (bound.app->parsed() || bound.app->count_all() > 0) return &bound;
    }
    return nullptr;
  };
  try {
    program.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    line.asked = Asked::help;
    const Bound* bound = chosen();
    line.command = bound == nullptr ? nullptr : bound->command;
    return line;
  } catch (const CLI::CallForVersion&) {
    line.asked = Asked::version;
    return line;
  } catch (const CLI::ExtrasError&) {
    const Bound* bound = chosen();
    if (bound != nullptr && !bound->app->remaining().empty()) {
      refuse_extra(bound->app->remaining().front(), *bound);
    }
    const std::vector<std::string> left = program.remaining(true);
    if (!left.empty() && !left.front().empty()) refuse_at_top(left.front(), commands);
    throw UsageError(no_command);
  } catch (const CLI::ArgumentMismatch& error) {
    // Every option of ours takes one value, so what is missing can only be that.
    const std::string what = error.what();
    throw UsageError(fmt::format("{} has no value after it.", what.substr(0, what.find(':'))));
  } catch (const CLI::ParseError& error) {
    throw UsageError(fmt::format("{}.", error.what()));
  }

  const Bound* bound = chosen();
  if (bound == nullptr) {
    throw UsageError(no_command);
  }
  line.command = bound->command;
  for (const auto& [option, made] : bound->options) {
    if (made->count() > 1 && !option.repeats) {
      throw UsageError(
          fmt::format("{} is given {} times; accepted: once.", option.name, made->count()));
    }
    for (const std::string& text : made->results()) {
      if (is_switch(option) && text != "true") {
        throw UsageError(fmt::format("{} takes no value.", option.name));
      }
      line.arguments.give(option.name, text);
    }
  }
  return line;
}

}  // namespace lynearm::cli
