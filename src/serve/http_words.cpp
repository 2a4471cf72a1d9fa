#include "serve/http_words.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <ctime>
#include <iterator>
#include <string>
#include <utility>

#include "serve/problem.hpp"

namespace lynearm::serve {

namespace http = boost::beast::http;

namespace {

/// RFC 9110 section 5.6.7; the names of days and months are English whatever the locale.
std::string date() {
  return fmt::format("{:%a, %d %b %Y %H:%M:%S GMT}", fmt::gmtime(std::time(nullptr)));
}

bool has_body(int status) { return status != 204 && status != 304; }

}  // namespace

Pairs pairs_of(const http::fields& fields) {
  Pairs pairs;
  for (const auto& field : fields) {
    std::string name{field.name_string()};
    for (char& c : name) {
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    pairs.emplace_back(std::move(name), std::string{field.value()});
  }
  return pairs;
}

std::optional<Reply> coding_refusal(const http::request_header<>& head) {
  const auto [first, end] = head.equal_range(http::field::transfer_encoding);
  const bool chunked = head.version() >= 11 && first != end && std::next(first) == end &&
                       boost::beast::iequals(first->value(), "chunked");
  if (first == end || chunked) return std::nullopt;
  return problem(501, "transfer-coding", "The body comes in a coding that is not taken here",
                 "Send it as it is, with its length, or chunked.");
}

http::response<http::string_body> message_of(Reply reply, bool head_only, bool keep_alive,
                                             bool stream) {
  http::response<http::string_body> message;
  message.version(11);
  message.result(static_cast<unsigned>(reply.status));
  message.set(http::field::date, date());
  if (has_body(reply.status) && !reply.content_type.empty()) {
    message.set(http::field::content_type, reply.content_type);
  }
  for (const auto& [name, value] : reply.headers) message.insert(name, value);
  message.keep_alive(keep_alive);
  if (!stream && has_body(reply.status)) message.content_length(reply.body.size());
  if (!head_only && has_body(reply.status)) message.body() = std::move(reply.body);
  return message;
}

bool is_http_error(const boost::system::error_code& error) {
  return error.category() == http::make_error_code(http::error::bad_method).category();
}

Reply refusal_of(const boost::system::error_code& error) {
  if (error == http::error::header_limit) {
    return problem(431, "head-too-long", "The head of the request is too long");
  }
  if (error == http::error::body_limit) {
    return problem(413, "too-long", "The body is too long");
  }
  return problem(400, "not-http", "The request is not understood");
}

}  // namespace lynearm::serve
