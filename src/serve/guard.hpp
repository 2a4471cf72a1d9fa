// What keeps other sites out of the house. A browser on the same machine reaches 127.0.0.1 for
// any page it has open, so: the Host must be one of ours (DNS rebinding), a request that
// changes something or opens a stream must come from our own page (Origin, Sec-Fetch-Site), and
// every reply says what the page may load (content security policy). It does not decide who is
// asking: access.hpp.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "serve/reply.hpp"
#include "serve/request.hpp"

namespace lynearm::serve {

class Guard {
 public:
  /// names      by which the house may be called, besides 127.0.0.1, localhost, [::1] and the
  ///            very address that the connection reached (an address cannot be rebound)
  /// tls        pages are then at https://, and who asks in plain HTTP is sent there
  Guard(const std::vector<std::string>& names, bool tls);

  /// returns    nothing when the request may go on; 421 for a foreign Host, 403 for a foreign
  ///            Origin or a cross-site request (save a link to the page that is followed), 400
  ///            without exactly one Host; under TLS 307 to https:// for a plain GET, 400 for
  ///            whatever else was sent in plain
  [[nodiscard]] std::optional<Reply> refusal(const Request& request,
                                             std::string_view target) const;

  /// Puts on the headers that every reply has; leaves what is there, such as a
  /// Cache-Control.
  void dress(Reply& reply) const;

 private:
  std::vector<std::string> names_;
  bool tls_;
};

/// The content security policy of every reply.
[[nodiscard]] const std::string& content_policy();

}  // namespace lynearm::serve
