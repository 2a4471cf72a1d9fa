// Who is asking. On a closed house (127.0.0.1 only) it is always the laptop. On one opened to
// the LAN it is the laptop only over loopback under a loopback name; everybody else carries the
// token of a paired device, in a cookie that scripts cannot read, or as "Authorization: Bearer"
// for a sensor or a script.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "serve/devices.hpp"
#include "serve/request.hpp"

namespace lynearm::serve {

class Access {
 public:
  /// devices    lives longer than this
  Access(bool lan, const Devices& devices) : lan_(lan), devices_(&devices) {}

  /// The device that asks; nothing for a stranger.
  [[nodiscard]] std::optional<Device> who(const Request& request) const;

  /// Asks nothing of the devices: false when `who` could only find a stranger.
  [[nodiscard]] bool may_be_known(const Request& request) const;

 private:
  [[nodiscard]] bool is_laptop(const Request& request) const;

  bool lan_;
  const Devices* devices_;
};

/// The laptop as a device.
[[nodiscard]] Device laptop();

/// Set-Cookie with a token for a year; an empty token takes the cookie away.
///
/// tls        the cookie is then sent over TLS only
[[nodiscard]] std::string cookie(std::string_view token, bool tls);

}  // namespace lynearm::serve
