// serve as an operator starts it: what it tells, where, and what it refuses before it makes a
// house. What it serves is held in tests/serve and tests/station.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "cli/program.hpp"
#include "store/temporary_folder.hpp"

namespace lynearm::cli {
namespace {

using ::testing::HasSubstr;
namespace fs = std::filesystem;

class Serve : public ::testing::Test {
 protected:
  std::string in(const std::string& name) const { return (folder_ / name).string(); }
  Ran served(const std::vector<std::string>& more) const {
    std::vector<std::string> words{"serve", "--data", in("house"), "--port",
                                   "0",     "--for",  "0.1 s"};
    words.insert(words.end(), more.begin(), more.end());
    return lynearm(words);
  }
  std::string told(const std::string& name) const {
    std::ifstream from(in(name), std::ios::binary);
    return {std::istreambuf_iterator<char>(from), {}};
  }

  store::test::TemporaryFolder folder_;
};

TEST_F(Serve, tellsWhatItIsAskedToWhereItIsAskedTo) {
  const Ran usual = served({});
  EXPECT_EQ(usual.status, 0) << usual.err;
  EXPECT_THAT(usual.err, HasSubstr(" info listening at http://127.0.0.1:"));
  const Ran filed = served({"--log-file", in("log"), "--log", "debug"});
  EXPECT_EQ(filed.status, 0) << filed.err;
  EXPECT_EQ(filed.err, "");
  EXPECT_THAT(told("log"), HasSubstr(" info listening at http://127.0.0.1:"));
  const std::string before = told("log");
  EXPECT_EQ(served({"--log-file", in("log"), "--log", "error"}).status, 0);
  EXPECT_EQ(told("log"), before);  // kept, and nothing went wrong that is to be told
}

TEST_F(Serve, refusesALogThatItCannotKeepAndMakesNoHouse) {
  const Ran loud = served({"--log", "loud"});
  EXPECT_EQ(loud.status, 2);
  EXPECT_EQ(loud.err, "--log is \"loud\"; accepted: debug, info, warning or error.\n");
  const Ran folder = served({"--log-file", folder_.path().string()});
  EXPECT_EQ(folder.status, 2);
  EXPECT_EQ(folder.err, "--log-file is \"" + folder_.path().string() +
                            "\"; accepted: a file that can be written.\n");
  EXPECT_FALSE(fs::exists(in("house")));
}

}  // namespace
}  // namespace lynearm::cli
