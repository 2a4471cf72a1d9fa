#include "serve/device_routes.hpp"

#include <fmt/format.h>

#include <chrono>
#include <utility>

#include "serve/access.hpp"
#include "serve/lan_addresses.hpp"
#include "serve/picture.hpp"
#include "serve/problem.hpp"
#include "serve/token.hpp"
#include "wire/pairing_json.hpp"

namespace lynearm::serve {

namespace {

wire::DeviceRow row(const Device& device, const Device& asking) {
  return {device.id, device.name, device.paired_at, device.laptop, device.id == asking.id};
}

std::vector<std::string> addresses(const PairingHouse& house) {
  std::vector<std::string> hosts = lan_addresses();
  // A certificate speaks for names; a name in plain HTTP is only found where the net knows it.
  hosts.insert(house.tls ? hosts.begin() : hosts.end(), house.names.begin(), house.names.end());
  for (std::string& host : hosts) {
    const bool bare_ipv6 = host.find(':') != std::string::npos && host.front() != '[';
    host = fmt::format(fmt::runtime(bare_ipv6 ? "{}://[{}]:{}/" : "{}://{}:{}/"),
                       house.tls ? "https" : "http", host, house.port());
  }
  return hosts;
}

Reply offer(Pairing& pairing, const PairingHouse& house) {
  if (!house.lan) {
    return problem(409, "closed", "The house is not open to the LAN",
                   "Start it with --lan to pair a phone.");
  }
  wire::PairingOffer offer{pairing.offer(WakingClock::now()), addresses(house),
                           Pairing::lasts.count(), ""};
  if (!offer.addresses.empty()) {
    offer.picture = picture_of(offer.addresses.front() + "pair#" + offer.code);
  }
  Reply reply = json(wire::pairing_offer_json(offer));
  reply.status = 201;
  return reply;
}

Reply pair(const Request& request, Pairing& pairing, Devices& devices, bool tls) {
  const wire::PairingCall call = wire::read_pairing_call(request.body);
  if (!pairing.redeem(call.code, WakingClock::now())) {
    return problem(
        403, "code-spent", "This code does not open the house",
        "It was used, is older than five minutes, was replaced, or is not what stands on "
        "the laptop: compare it, or show a new one there.");
  }
  const Device device{
      short_id(), call.name,
      std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now()), false};
  const std::string token = new_token();
  devices.remember(device, hash_of(token));
  Reply reply = json(wire::device_json(row(device, device)));
  reply.status = 201;
  reply.headers.emplace_back("Set-Cookie", cookie(token, tls));
  return reply;
}

Reply list(const Request& request, const Devices& devices, const wire::Doors& doors) {
  std::vector<wire::DeviceRow> rows{row(laptop(), *request.who)};
  for (const Device& device : devices.list()) rows.push_back(row(device, *request.who));
  return json(wire::devices_json(rows, doors));
}

Reply revoke(const Request& request, Devices& devices, Events& events, bool tls) {
  const std::string& id = request.parameter("id");
  const bool itself = id == request.who->id;
  if (!request.who->laptop && !itself) {
    return problem(403, "laptop-only",
                   "Only the laptop of the house may revoke another device");
  }
  if (!devices.revoke(id)) return problem(404, "not-found", "There is no such device");
  events.drop_device(id);
  Reply reply = nothing();
  if (itself) reply.headers.emplace_back("Set-Cookie", cookie("", tls));
  return reply;
}

}  // namespace

void add_device_routes(Router& router, Pairing& pairing, Devices& devices, Events& events,
                       PairingHouse house) {
  Terms anyone;
  anyone.door = Door::anyone;
  anyone.greatest_body = 1024;
  Terms on_laptop;
  on_laptop.door = Door::laptop;
  on_laptop.greatest_body = 1024;
  const bool tls = house.tls;
  const wire::Doors doors{house.lan, tls, house.fingerprint};
  router
      .on(
          "POST", "/api/v1/pairing/codes",
          [&pairing, house = std::move(house)](const Request&) {
            return offer(pairing, house);
          },
          on_laptop)
      .on(
          "POST", "/api/v1/pairing",
          [&pairing, &devices, tls](const Request& request) {
            return pair(request, pairing, devices, tls);
          },
          anyone)
      .on("GET", "/api/v1/devices",
          [&devices, doors](const Request& request) { return list(request, devices, doors); })
      .on("GET", "/api/v1/devices/this",
          [](const Request& request) {
            return json(wire::device_json(row(*request.who, *request.who)));
          })
      .on("DELETE", "/api/v1/devices/{id}", [&devices, &events, tls](const Request& request) {
        return revoke(request, devices, events, tls);
      });
}

}  // namespace lynearm::serve
