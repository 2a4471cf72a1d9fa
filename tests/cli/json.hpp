// What a command prints under --json, for tests.
#pragma once

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cli/program.hpp"

namespace lynearm::cli {

using Json = nlohmann::ordered_json;

/// Runs with --json; expects status 0 and a silent standard error.
inline Json answer(std::vector<std::string> words) {
  words.emplace_back("--json");
  const Ran ran = lynearm(words);
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  return Json::parse(ran.out, nullptr, false);
}

/// The first keys of an object, in order.
inline std::vector<std::string> first_keys(const Json& object, std::size_t count) {
  std::vector<std::string> keys;
  for (const auto& item : object.items()) {
    if (keys.size() < count) keys.push_back(item.key());
  }
  return keys;
}

}  // namespace lynearm::cli
