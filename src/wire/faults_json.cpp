#include "wire/faults_json.hpp"

#include <fmt/format.h>

#include "base/unknown_key.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {

std::string faults_json(const base::InputError& error) {
  const std::vector<base::Fault>& faults = error.faults();
  Json errors = Json::array();
  for (const base::Fault& fault : faults) {
    Json one;
    one["field"] = fault.field;
    const bool unknown = fault.value == base::unknown_key;
    if (!fault.value.empty() && !unknown) one["value"] = fault.value;
    one["accepted"] = fault.accepted;
    // Of a key that is not known there is no value to tell; pages put the field before it.
    if (unknown) {
      one["sentence"] = fmt::format("This key is not known here; {}{}", fault.accepted,
                                    fault.accepted.ends_with('?') ? "" : ".");
    }
    if (!fault.file.empty()) one["file"] = fault.file;
    if (fault.line > 0) one["line"] = fault.line;
    if (fault.column > 0) one["column"] = fault.column;
    errors.push_back(std::move(one));
  }
  Json document;
  document["type"] = "/problems/input";
  document["title"] = "The input is not accepted";
  document["status"] = faults_status;
  document["detail"] = faults.size() == 1
                           ? base::sentence(faults.front())
                           : fmt::format("{} faults; the first: {}", faults.size(),
                                         base::sentence(faults.front()));
  document["errors"] = std::move(errors);
  return document.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace lynearm::wire
