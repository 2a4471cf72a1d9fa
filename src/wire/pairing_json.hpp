// What pairing a phone puts on the wire: the call that redeems a code, the code as the laptop
// shows it, the devices the house knows.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

namespace lynearm::wire {

/// {"code": "...", "name": "..."} as the phone sends it.
struct PairingCall {
  std::string code;
  std::string name;  ///< 1 to 60 characters, without line breaks; outer blanks taken off
};

/// throws     InputError with every fault: not JSON, not an object, a field missing, unknown or
/// of
///            another kind, a name too long
[[nodiscard]] PairingCall read_pairing_call(std::string_view json);

struct PairingOffer {
  std::string code;
  std::vector<std::string> addresses;  ///< where a phone may reach the house, best first
  long lasts_s = 0;
  std::string picture;  ///< SVG of the first address with the code in its fragment; or empty
};
[[nodiscard]] std::string pairing_offer_json(const PairingOffer& offer);

struct DeviceRow {
  std::string id;
  std::string name;
  std::chrono::sys_seconds paired_at{};
  bool laptop = false;
  bool this_one = false;  ///< the device that asks
};
/// One device as an object: {"id", "name", "paired_at", "laptop", "this_one"}.
[[nodiscard]] std::string device_json(const DeviceRow& device);
/// How the house was opened.
struct Doors {
  bool lan = false;  ///< to phones; else to its own machine alone, and no code is given
  bool tls = false;
  std::string
      fingerprint;  ///< SHA-256 of the certificate, to compare on a phone; under TLS only
};
/// {"devices": [...] in their order, "lan", "tls", "fingerprint" where there is one}.
[[nodiscard]] std::string devices_json(const std::vector<DeviceRow>& devices,
                                       const Doors& doors);

}  // namespace lynearm::wire
