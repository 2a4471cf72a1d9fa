#include "wire/problem_json.hpp"

#include "wire/figure.hpp"

namespace lynearm::wire {

std::string problem_json(const Problem& problem) {
  Json document;
  document["type"] = "/problems/" + problem.kind;
  document["title"] = problem.title;
  document["status"] = problem.status;
  if (!problem.detail.empty()) document["detail"] = problem.detail;
  if (!problem.fault.empty()) document["fault"] = problem.fault;
  return document.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace lynearm::wire
