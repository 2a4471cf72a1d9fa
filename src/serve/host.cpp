#include "serve/host.hpp"

#include <algorithm>
#include <boost/asio/ip/address.hpp>

namespace lynearm::serve {

namespace {

bool name_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.' || c == '_';
}

bool all_digits(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

std::optional<Host> read_host(std::string_view text) {
  if (text.empty() || text.size() > 260) return std::nullopt;
  Host host;
  std::string_view rest;
  if (text.front() == '[') {
    const std::size_t end = text.find(']');
    if (end == std::string_view::npos) return std::nullopt;
    host.name = text.substr(1, end - 1);
    rest = text.substr(end + 1);
    host.literal = true;
  } else {
    const std::size_t end = std::min(text.find(':'), text.size());
    host.name = text.substr(0, end);
    rest = text.substr(end);
  }
  if (!rest.empty()) {
    host.port = rest.substr(1);
    if (rest.front() != ':' || host.port.empty() || host.port.size() > 5 ||
        !all_digits(host.port)) {
      return std::nullopt;
    }
  }
  std::transform(host.name.begin(), host.name.end(), host.name.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  boost::system::error_code error;
  const auto address = boost::asio::ip::make_address(host.name, error);
  if (!error) {
    if (host.literal != address.is_v6()) return std::nullopt;
    host.literal = true;
    host.name = address.to_string();
    return host;
  }
  if (host.literal || host.name.empty()) return std::nullopt;
  if (!std::all_of(host.name.begin(), host.name.end(), name_character)) return std::nullopt;
  return host;
}

bool is_loopback(const Host& host) {
  if (!host.literal) return host.name == "localhost";
  boost::system::error_code error;
  const auto address = boost::asio::ip::make_address(host.name, error);
  return !error && address.is_loopback();
}

}  // namespace lynearm::serve
