// What went wrong as a problem document (RFC 9457) where no field is to blame: an unknown path,
// a body too long, a fault of ours. Bad input has its own, with every fault in it:
// faults_json.hpp.
#pragma once

#include <string>

namespace lynearm::wire {

struct Problem {
  std::string kind;    ///< "not-found": the type becomes "/problems/not-found"
  std::string title;   ///< the same for every problem of this kind
  int status = 0;      ///< as sent
  std::string detail;  ///< what to do about it; may be empty
  std::string fault;   ///< id under which the log tells more; empty: none
};

/// {"type", "title", "status", "detail", "fault"}; what is empty is left out. Bytes that are
/// not UTF-8 become U+FFFD.
[[nodiscard]] std::string problem_json(const Problem& problem);

}  // namespace lynearm::wire
