#include "serve/access.hpp"

#include <algorithm>

#include "serve/host.hpp"
#include "serve/token.hpp"

namespace lynearm::serve {

namespace {

constexpr std::string_view cookie_name = "lynearm_device";
constexpr std::size_t longest_token = 128;

/// The value of our cookie among "a=1; lynearm_device=...; b=2".
std::string_view cookie_in(std::string_view cookies) {
  while (!cookies.empty()) {
    const std::size_t end = std::min(cookies.find(';'), cookies.size());
    std::string_view one = cookies.substr(0, end);
    cookies.remove_prefix(std::min(end + 1, cookies.size()));
    while (one.starts_with(' ')) one.remove_prefix(1);
    if (one.starts_with(cookie_name) && one.substr(cookie_name.size()).starts_with('=')) {
      return one.substr(cookie_name.size() + 1);
    }
  }
  return "";
}

std::string_view token_in(const Request& request) {
  constexpr std::string_view bearer = "Bearer ";
  std::string_view token;
  if (const auto said = request.header("authorization"); said && said->starts_with(bearer)) {
    token = said->substr(bearer.size());
  } else {
    token = cookie_in(request.header("cookie").value_or(""));
  }
  return token.size() <= longest_token ? token : "";
}

/// Somebody between us and the asker speaks from this machine: then loopback says nothing.
bool passed_on(const Request& request) {
  return std::any_of(request.headers.begin(), request.headers.end(), [](const auto& pair) {
    return pair.first == "forwarded" || pair.first == "via" || pair.first == "x-real-ip" ||
           pair.first.starts_with("x-forwarded-");
  });
}

}  // namespace

bool Access::is_laptop(const Request& request) const {
  if (!request.peer.loopback || passed_on(request)) return false;
  if (!lan_) return true;
  const auto host = read_host(request.header("host").value_or(""));
  return host && is_loopback(*host);
}

std::optional<Device> Access::who(const Request& request) const {
  if (is_laptop(request)) return laptop();
  const std::string_view token = token_in(request);
  if (token.empty()) return std::nullopt;
  return devices_->find(hash_of(token));
}

bool Access::may_be_known(const Request& request) const {
  return is_laptop(request) || !token_in(request).empty();
}

Device laptop() { return {"laptop", "this computer", {}, true}; }

std::string cookie(std::string_view token, bool tls) {
  std::string text{cookie_name};
  text += '=';
  text += token;
  text += token.empty() ? "; Max-Age=0" : "; Max-Age=31536000";
  text += "; Path=/; HttpOnly; SameSite=Strict";
  if (tls) text += "; Secure";
  return text;
}

}  // namespace lynearm::serve
