// Bad input as a problem document (RFC 9457, application/problem+json), with every fault in it,
// so that a form can show each message at its field.
#pragma once

#include <string>

#include "base/error.hpp"

namespace lynearm::wire {

/// The media type of the document.
inline constexpr const char* problem_media_type = "application/problem+json";
/// The HTTP status it is sent with, and which it holds: the text was understood, not accepted.
inline constexpr int faults_status = 422;

/// {"type", "title", "status", "detail", "errors": [{"field", "value", "accepted", "file",
/// "line", "column"}]}; one entry a fault, in their order.
///
/// `type` is a reference relative to the server and names this kind of problem; it need not
/// lead anywhere. `value` is absent when the field is missing, `file`, `line` and `column` when
/// the fault is not in a text. Bytes that are not UTF-8 become U+FFFD.
[[nodiscard]] std::string faults_json(const base::InputError& error);

}  // namespace lynearm::wire
