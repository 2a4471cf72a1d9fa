#include "cli/program.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>
#include <stdexcept>

#include "places.hpp"

namespace lynearm::cli {
namespace {

struct Pipe {
  int read_end = -1;
  int write_end = -1;
};

Pipe make_pipe() {
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  return {ends[0], ends[1]};
}

Pipe make_terminal() {
  const int master = posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
  if (master < 0 || grantpt(master) != 0 || unlockpt(master) != 0) {
    throw std::runtime_error("no terminal");
  }
  return {master, open(ptsname(master), O_RDWR | O_NOCTTY | O_CLOEXEC)};
}

Pipe output_for(Out out) {
  switch (out) {
    case Out::closed:
      return {};
    case Out::full_device:
      return {-1, open("/dev/full", O_WRONLY | O_CLOEXEC)};
    case Out::terminal:
      return make_terminal();
    case Out::pipe:
      return make_pipe();
    case Out::gone_reader:
      break;
  }
  Pipe made = make_pipe();
  close(made.read_end);
  return {-1, made.write_end};
}

// Both are read as they come, so that neither fills up while the other is waited for.
void drain(int out, int err, Ran& ran) {
  std::array<pollfd, 2> watched{{{out, POLLIN, 0}, {err, POLLIN, 0}}};
  const std::array<std::string*, 2> texts{&ran.out, &ran.err};
  while (watched[0].fd >= 0 || watched[1].fd >= 0) {
    if (poll(watched.data(), watched.size(), -1) < 0) return;
    for (std::size_t i = 0; i < watched.size(); ++i) {
      if (watched[i].fd < 0 || watched[i].revents == 0) continue;
      std::array<char, 4096> buffer{};
      const ssize_t got = read(watched[i].fd, buffer.data(), buffer.size());
      // A terminal ends with an error instead of nothing.
      if (got <= 0) {
        watched[i].fd = -1;
      } else {
        texts[i]->append(buffer.data(), static_cast<std::size_t>(got));
      }
    }
  }
}

Ran run(const std::string& program, const std::vector<std::string>& arguments, Out out,
        const std::vector<std::string>& environment) {
  std::vector<std::string> words{program};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<std::string> settings{"TERM=xterm", "PATH=" LYNEARM_BUILD_DIR ":/usr/bin:/bin"};
  settings.insert(settings.end(), environment.begin(), environment.end());
  const auto pointers = [](std::vector<std::string>& texts) {
    std::vector<char*> made;
    for (std::string& text : texts) made.push_back(text.data());
    made.push_back(nullptr);
    return made;
  };
  const std::vector<char*> argv = pointers(words);
  const std::vector<char*> envp = pointers(settings);

  const Pipe standard = output_for(out);
  const Pipe error = make_pipe();
  const pid_t child = fork();
  if (child < 0) throw std::runtime_error("no process");
  if (child == 0) {
    std::signal(SIGPIPE, SIG_DFL);
    if (standard.write_end >= 0) {
      dup2(standard.write_end, STDOUT_FILENO);
    } else {
      close(STDOUT_FILENO);
    }
    dup2(error.write_end, STDERR_FILENO);
    execve(program.c_str(), argv.data(), envp.data());
    _exit(127);
  }
  if (standard.write_end >= 0) close(standard.write_end);
  close(error.write_end);
  Ran ran;
  drain(standard.read_end, error.read_end, ran);
  if (standard.read_end >= 0) close(standard.read_end);
  close(error.read_end);
  int status = 0;
  waitpid(child, &status, 0);
  ran.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  return ran;
}

}  // namespace

Ran lynearm(const std::vector<std::string>& arguments, Out out,
            const std::vector<std::string>& environment) {
  return run(LYNEARM_BUILD_DIR "/lynearm", arguments, out, environment);
}

Ran shell(const std::string& line) { return run("/bin/sh", {"-c", line}, Out::pipe, {}); }

}  // namespace lynearm::cli
