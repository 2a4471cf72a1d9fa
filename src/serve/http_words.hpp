// Between Beast's messages and our plain values. For the connection's own source.
#pragma once

#include <boost/beast/http.hpp>
#include <optional>

#include "serve/reply.hpp"
#include "serve/request.hpp"

namespace lynearm::serve {

/// The headers of a request, names in lower case.
[[nodiscard]] Pairs pairs_of(const boost::beast::http::fields& fields);

/// What a body under a transfer coding other than chunked is answered with, or under any in
/// HTTP/1.0: nobody knows where it ends (RFC 9112, section 6), so the connection ends with it.
[[nodiscard]] std::optional<Reply> coding_refusal(
    const boost::beast::http::request_header<>& head);

/// head_only   the body is left out, its length still told
/// stream      the body follows without end
[[nodiscard]] boost::beast::http::response<boost::beast::http::string_body> message_of(
    Reply reply, bool head_only, bool keep_alive, bool stream);

/// True for a fault of the message, as against one of the connection.
[[nodiscard]] bool is_http_error(const boost::system::error_code& error);

/// What a message that cannot be read is answered with.
[[nodiscard]] Reply refusal_of(const boost::system::error_code& error);

}  // namespace lynearm::serve
