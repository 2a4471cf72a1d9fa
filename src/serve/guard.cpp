#include "serve/guard.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "serve/host.hpp"
#include "serve/problem.hpp"

namespace lynearm::serve {

namespace {

bool is_api(const Request& request) { return request.path.starts_with("/api/"); }

bool opens_stream(const Request& request) {
  return request.header("accept").value_or("").find("text/event-stream") !=
         std::string_view::npos;
}

/// Somebody followed a link to the page, from wherever.
bool follows_link(const Request& request) {
  return request.method == "GET" && !is_api(request) &&
         request.header("sec-fetch-mode") == "navigate" &&
         request.header("sec-fetch-dest") == "document";
}

bool from_elsewhere(const Request& request) {
  const auto site = request.header("sec-fetch-site");
  if (!site || *site == "same-origin" || *site == "none") return false;
  // Another port of this machine is the "same site": harmless for the page, not for the API.
  if (*site == "same-site" && !is_api(request)) return false;
  return !follows_link(request);
}

/// Not for good (308): a house may be opened without TLS another day, and browsers remember.
Reply sealed_only(const Request& request, std::string_view host, std::string_view target) {
  const bool may_go_there = request.method == "GET";
  Reply reply = problem(may_go_there ? 307 : 400, "tls-only", "This house speaks TLS",
                        "Put https:// before its address.");
  if (may_go_there) {
    reply.headers.emplace_back("Location",
                               "https://" + std::string{host} + std::string{target});
  }
  return reply;
}

}  // namespace

Guard::Guard(const std::vector<std::string>& names, bool tls)
    : names_{"127.0.0.1", "localhost", "::1"}, tls_(tls) {
  for (const std::string& name : names) {
    const auto host = read_host(name);
    if (!host || !host->port.empty()) {
      throw base::InputError{"name", name, "a host name or address, without port"};
    }
    names_.push_back(host->name);
  }
}

std::optional<Reply> Guard::refusal(const Request& request, std::string_view target) const {
  const auto hosts = std::count_if(request.headers.begin(), request.headers.end(),
                                   [](const auto& pair) { return pair.first == "host"; });
  if (hosts != 1) return problem(400, "no-host", "A request names one host");
  const std::string_view said = *request.header("host");
  const auto host = read_host(said);
  const bool ours =
      host && (std::find(names_.begin(), names_.end(), host->name) != names_.end() ||
               (host->literal && host->name == request.peer.local_address));
  if (!ours) {
    return problem(421, "foreign-host", "This house is not called that",
                   "Names besides localhost and the house's own address are given when the "
                   "server is started.");
  }
  if (tls_ && !request.peer.sealed) return sealed_only(request, said, target);
  const auto origin = request.header("origin");
  if (origin && (request.method != "GET" || opens_stream(request))) {
    const std::string own = (tls_ ? "https://" : "http://") + std::string{said};
    const bool same = std::equal(origin->begin(), origin->end(), own.begin(), own.end(),
                                 [](char a, char b) { return (a | 0x20) == (b | 0x20); });
    if (!same) return problem(403, "foreign-origin", "Another site may not do this here");
  }
  if (from_elsewhere(request)) {
    return problem(403, "cross-site", "Another site may not ask this");
  }
  return std::nullopt;
}

void Guard::dress(Reply& reply) const {
  const auto put = [&](const char* name, std::string value) {
    if (!value_of(reply.headers, name)) reply.headers.emplace_back(name, std::move(value));
  };
  put("Cache-Control", "no-store");
  put("Content-Security-Policy", content_policy());
  put("X-Content-Type-Options", "nosniff");
  put("Referrer-Policy", "no-referrer");
  put("Cross-Origin-Resource-Policy", "same-origin");
  put("Cross-Origin-Opener-Policy", "same-origin");
  put("Cross-Origin-Embedder-Policy", "require-corp");
  put("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()");
}

const std::string& content_policy() {
  static const std::string policy =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
      "connect-src 'self'; font-src 'self'; manifest-src 'self'; worker-src 'self'; "
      "base-uri 'none'; form-action 'self'; frame-ancestors 'none'";
  return policy;
}

}  // namespace lynearm::serve
