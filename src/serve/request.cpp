#include "serve/request.hpp"

#include <algorithm>

#include "base/error.hpp"

namespace lynearm::serve {

std::optional<std::string_view> value_of(const Pairs& pairs, std::string_view name) {
  const auto found = std::find_if(pairs.begin(), pairs.end(),
                                  [&](const auto& pair) { return pair.first == name; });
  if (found == pairs.end()) return std::nullopt;
  return found->second;
}

std::optional<std::string_view> Request::header(std::string_view lower_case_name) const {
  return value_of(headers, lower_case_name);
}

std::optional<std::string_view> Request::asked(std::string_view query_name) const {
  return value_of(query, query_name);
}

const std::string& Request::parameter(std::string_view name) const {
  const auto found = std::find_if(parameters.begin(), parameters.end(),
                                  [&](const auto& pair) { return pair.first == name; });
  base::ensure(found != parameters.end(), "the route's pattern has this parameter");
  return found->second;
}

}  // namespace lynearm::serve
