// The calls by which devices are paired, listed and revoked:
//
//   POST   /api/v1/pairing/codes   laptop   a new code, its addresses and its picture
//   POST   /api/v1/pairing         anyone   {"code", "name"}: the device; its token as a cookie
//   GET    /api/v1/devices         paired   all of them, and whether a phone can be paired
//   GET    /api/v1/devices/this    paired   the one that asks
//   DELETE /api/v1/devices/{id}    paired   the laptop any of them, a phone only itself
//
// The code travels in the fragment of the address ("/pair#..."), which no browser sends and no
// log keeps; the page posts it.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "serve/devices.hpp"
#include "serve/events.hpp"
#include "serve/pairing.hpp"
#include "serve/router.hpp"

namespace lynearm::serve {

struct PairingHouse {
  bool lan = false;  ///< closed to the LAN, it gives no codes: 409
  bool tls = false;
  std::string fingerprint;  ///< of the certificate, under TLS
  std::vector<std::string>
      names;  ///< host names of the house: before its addresses under TLS, else after
  /// The port as it is listened to; asked when a code is.
  std::function<std::uint16_t()> port;
};

/// router     gets the routes; pairing, devices and events live longer than it
void add_device_routes(Router& router, Pairing& pairing, Devices& devices, Events& events,
                       PairingHouse house);

}  // namespace lynearm::serve
