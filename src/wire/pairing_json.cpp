#include "wire/pairing_json.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "base/unknown_key.hpp"
#include "wire/entry_reader.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {

namespace {

constexpr std::size_t longest_code = 64;
constexpr std::size_t longest_name = 60;

std::string without_outer_blanks(const std::string& text) {
  const auto first = text.find_first_not_of(' ');
  if (first == std::string::npos) return "";
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

/// Bytes that begin a character of UTF-8; the parser has refused what is not UTF-8.
std::size_t characters(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string words(const Json& object, const std::string& field,
                  std::vector<base::Fault>& faults) {
  const auto found = object.find(field);
  if (found == object.end()) {
    faults.push_back({field, "", "a text", "", 0, 0});
  } else if (!found->is_string()) {
    faults.push_back({field, as_written(*found), "a text", "", 0, 0});
  } else {
    return found->get<std::string>();
  }
  return "";
}

/// Whether a list can show the name as it is: on one line, in the reader's direction, and not
/// by signs without a shape, under which nobody would find the device to shut out.
bool shows(const std::string& name) {
  std::string_view rest = name;
  while (!rest.empty()) {
    const auto first = static_cast<unsigned char>(rest[0]);
    if (first < 0x20 || first == 0x7F) return false;
    if (rest.substr(0, 2) >= "\xC2\x80" && rest.substr(0, 2) <= "\xC2\x9F") return false;
    const std::string_view three = rest.substr(0, 3);
    if (three == "\u200B" || three == "\u200E" || three == "\u200F" || three == "\uFEFF" ||
        (three >= "\u2028" && three <= "\u202E") || (three >= "\u2060" && three <= "\u206F")) {
      return false;
    }
    rest.remove_prefix(1);
  }
  return true;
}

Json row(const DeviceRow& device) {
  Json one;
  one["id"] = device.id;
  one["name"] = device.name;
  one["paired_at"] = fmt::format("{:%Y-%m-%dT%H:%M:%SZ}",
                                 fmt::gmtime(device.paired_at.time_since_epoch().count()));
  one["laptop"] = device.laptop;
  one["this_one"] = device.this_one;
  return one;
}

std::string text(const Json& document) {
  return document.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

PairingCall read_pairing_call(std::string_view json) {
  const Json document = Json::parse(json, nullptr, false);
  if (!document.is_object()) {
    throw base::InputError{"body", document.is_discarded() ? "no JSON" : as_written(document),
                           "a JSON object with \"code\" and \"name\""};
  }
  std::vector<base::Fault> faults;
  PairingCall call{words(document, "code", faults),
                   without_outer_blanks(words(document, "name", faults))};
  for (const auto& [key, value] : document.items()) {
    if (key != "code" && key != "name") {
      faults.push_back({key.empty() ? "\"\"" : as_written(Json(key)),
                        std::string(base::unknown_key),
                        base::accepted_keys(key, {"code", "name"}), "", 0, 0});
    }
  }
  if (faults.empty() && call.code.size() > longest_code) {
    faults.push_back({"code", "a longer text", "the code on the laptop's screen", "", 0, 0});
  }
  const std::size_t length = characters(call.name);
  if (faults.empty() && (call.name.empty() || length > longest_name || !shows(call.name))) {
    faults.push_back(
        {"name",
         length > longest_name ? fmt::format("{} characters", length)
                               : as_written(Json(call.name)),
         fmt::format("1 to {} characters that can be seen, on one line", longest_name), "", 0,
         0});
  }
  if (!faults.empty()) throw base::InputError{std::move(faults)};
  return call;
}

std::string pairing_offer_json(const PairingOffer& offer) {
  Json document;
  document["code"] = offer.code;
  document["addresses"] = offer.addresses;
  document["lasts_s"] = offer.lasts_s;
  if (!offer.picture.empty()) document["picture"] = offer.picture;
  return text(document);
}

std::string device_json(const DeviceRow& device) { return text(row(device)); }

std::string devices_json(const std::vector<DeviceRow>& devices, const Doors& doors) {
  Json document;
  document["devices"] = Json::array();
  for (const DeviceRow& device : devices) document["devices"].push_back(row(device));
  document["lan"] = doors.lan;
  document["tls"] = doors.tls;
  if (!doors.fingerprint.empty()) document["fingerprint"] = doors.fingerprint;
  return text(document);
}

}  // namespace lynearm::wire
