// Waits on a connection of its own for what other servers say (LISTEN and NOTIFY), for as long
// as it lives; connects again when the server was away.
#pragma once

#include <functional>
#include <string>
#include <thread>

namespace lynearm::store::postgresql {

class Listener {
 public:
  /// heard      called with what was said, from the listener's thread
  /// again      called whenever the connection stands, for what may have been missed
  Listener(std::string uri, std::string channel, std::function<void(const std::string&)> heard,
           std::function<void()> again);
  ~Listener();
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;

 private:
  void work();
  void hear();
  /// Waits for the socket (none: below nought) or the end. returns false at the end
  [[nodiscard]] bool wait(int socket, int milliseconds) const;

  std::string uri_, channel_;
  std::function<void(const std::string&)> heard_;
  std::function<void()> again_;
  int stop_[2] = {-1, -1};  // a pipe that ends the wait
  std::thread thread_;
};

}  // namespace lynearm::store::postgresql
