// The example texts, one place in them changed, and the faults that come of it as sentences.
#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "places.hpp"

namespace lynearm::recipe {

/// The text of a file of the repository, by its path from the root.
inline std::string file_text(const std::string& path) {
  std::ifstream file(std::string(LYNEARM_SOURCE_DIR) + "/" + path);
  EXPECT_TRUE(file.good()) << path;
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// `text` with `from`, which stands in it once, changed into `to`.
inline std::string changed(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << "not there: " << from;
  EXPECT_EQ(text.find(from, at + 1), std::string::npos) << "there twice: " << from;
  if (at != std::string::npos) text.replace(at, from.size(), to);
  return text;
}

/// The sentences of what `read()` throws; none when it does not.
template <class F>
std::vector<std::string> sentences(F read) {
  std::vector<std::string> all;
  try {
    (void)read();
  } catch (const base::InputError& error) {
    for (const base::Fault& fault : error.faults()) all.push_back(base::sentence(fault));
  }
  return all;
}

/// The one sentence among them.
inline std::string only(const std::vector<std::string>& all) {
  EXPECT_EQ(all.size(), 1U) << ::testing::PrintToString(all);
  return all.empty() ? "" : all.front();
}

}  // namespace lynearm::recipe
