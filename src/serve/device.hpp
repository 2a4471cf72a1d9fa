// A device the house knows: the laptop it runs on, or a phone that was paired.
#pragma once

#include <chrono>
#include <string>

namespace lynearm::serve {

struct Device {
  std::string id;    ///< short and public, never the token
  std::string name;  ///< as given when it was paired
  std::chrono::sys_seconds paired_at{};
  bool laptop = false;  ///< the machine the house runs on: it may pair and revoke others

  friend bool operator==(const Device&, const Device&) = default;
};

}  // namespace lynearm::serve
