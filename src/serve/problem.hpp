// The server's own refusals as replies: RFC 9457 problem documents.
#pragma once

#include <exception>
#include <string>

#include "serve/reply.hpp"

namespace lynearm::serve {

/// kind       "not-found"; see wire/problem_json.hpp
/// detail     what the caller can do about it; no text of the request's own
[[nodiscard]] Reply problem(int status, std::string kind, std::string title,
                            std::string detail = "");

/// 422 for InputError, with every fault. For anything else 500, which holds nothing but an id.
struct Told {
  Reply reply;
  std::string id;      ///< empty for InputError
  std::string reason;  ///< for the log only; empty for InputError
};
[[nodiscard]] Told told(const std::exception_ptr& error);

}  // namespace lynearm::serve
