#include "store/postgresql/listener.hpp"

#include <fcntl.h>
#include <poll.h>
#include <unistd.h>

#include <utility>

#include "base/error.hpp"
#include "store/postgresql/connection.hpp"

namespace lynearm::store::postgresql {
namespace {

constexpr int between_tries_ms = 300;
constexpr int longest_wait_ms = 60'000;

}  // namespace

Listener::Listener(std::string uri, std::string channel,
                   std::function<void(const std::string&)> heard, std::function<void()> again)
    : uri_(std::move(uri)),
      channel_(std::move(channel)),
      heard_(std::move(heard)),
      again_(std::move(again)) {
  if (::pipe2(stop_, O_CLOEXEC) != 0) {
    throw Trouble(Trouble::Kind::failed, "the system gives no more files to open");
  }
  thread_ = std::thread([this] { work(); });
}

Listener::~Listener() {
  ::close(stop_[1]);
  thread_.join();
  ::close(stop_[0]);
}

bool Listener::wait(int socket, int milliseconds) const {
  pollfd both[2] = {{stop_[0], POLLIN, 0}, {socket, POLLIN, 0}};
  ::poll(both, socket < 0 ? 1 : 2, milliseconds);
  return both[0].revents == 0;
}

void Listener::work() {
  do {
    try {
      hear();
      return;
    } catch (const Trouble&) {
      // The server is away: tried again until it is back.
    } catch (const base::InputError&) {
      // Or it came back with other settings; the writer tells.
    }
  } while (wait(-1, between_tries_ms));
}

void Listener::hear() {
  Connection connection(uri_);
  connection.run("LISTEN " + channel_);
  again_();
  while (wait(PQsocket(connection.handle()), longest_wait_ms)) {
    if (PQconsumeInput(connection.handle()) == 0) connection.fail(nullptr);
    while (PGnotify* const said = PQnotifies(connection.handle())) {
      const std::string payload = said->extra;
      PQfreemem(said);
      heard_(payload);
    }
  }
}

}  // namespace lynearm::store::postgresql
