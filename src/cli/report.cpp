#include "cli/report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>
#include <vector>

#include "cli/command_line.hpp"
#include "cli/text_file.hpp"
#include "cli/visible.hpp"
#include "store/trouble.hpp"

namespace lynearm::cli {
namespace {

void tell(const std::string& line) {
  // Where standard error is closed too, the exit status still says it.
  static_cast<void>(std::fwrite(line.data(), 1, line.size(), stderr));
  static_cast<void>(std::fputc('\n', stderr));
}

// What was typed, fit for one line of a terminal: nothing that acts on it, not endless.
std::string presentable(const std::string& text) {
  constexpr std::size_t most = 120;
  std::string out = visible(text);
  if (out.size() <= most) return out;
  std::size_t end = most;
  while (end < out.size() && (out[end] & 0xC0) == 0x80) ++end;
  return end < out.size() ? out.substr(0, end) + "..." : out;
}

}  // namespace

int report(const std::exception_ptr& error) {
  try {
    std::rethrow_exception(error);
  } catch (const base::InputError& fault) {
    for (base::Fault one : fault.faults()) {
      one.value = presentable(one.value);
      one.field = presentable(one.field);
      one.file = visible(one.file);
      one.accepted = visible(one.accepted);
      tell(base::sentence(one));
    }
    return Status::bad_input;
  } catch (const UsageError& fault) {
    tell(presentable(fault.what()));
    return Status::bad_input;
  } catch (const base::NotConverged& fault) {
    tell(fmt::format("No answer was found: {}.", fault.what()));
    return Status::no_answer;
  } catch (const store::Trouble& trouble) {
    std::string sentence = visible(trouble.what());
    if (!sentence.empty())
      sentence[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(sentence[0])));
    tell(sentence + ".");
    return Status::no_answer;
  } catch (const NotWritten& fault) {
    tell(visible(fault.what()));
    return Status::no_answer;
  } catch (const std::exception& fault) {
    tell(
        fmt::format("This is our fault, not yours: {}. Please report it with the command line.",
                    fault.what()));
    return Status::our_fault;
  }
}

base::InputError as_options(const base::InputError& error, const Command& command,
                            const Arguments& arguments) {
  std::vector<base::Fault> faults = error.faults();
  for (base::Fault& fault : faults) {
    std::string name = "--" + fault.field;
    std::replace(name.begin(), name.end(), '_', '-');
    const auto ours = std::find_if(command.options.begin(), command.options.end(),
                                   [&](const Option& o) { return o.name == name; });
    if (!fault.file.empty() || ours == command.options.end()) continue;
    fault.field = name;
    if (ours->value_name.empty()) {
      fault.value = fault.value.empty() ? "given" : "given for " + fault.value;
    } else if (arguments.texts(name).size() == 1) {
      fault.value = arguments.texts(name).front();
    }
  }
  return base::InputError(std::move(faults));
}

int put(std::string_view text) {
  errno = 0;
  const bool taken = std::fwrite(text.data(), 1, text.size(), stdout) == text.size() &&
                     std::fflush(stdout) == 0;
  if (taken) return Status::well;
  if (errno != EPIPE && errno != EBADF) {
    tell(fmt::format("The output could not be written: {}.", std::strerror(errno)));
  }
  return Status::no_answer;
}

}  // namespace lynearm::cli
