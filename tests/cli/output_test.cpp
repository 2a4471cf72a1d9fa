// What happens to the output itself: closed, full, gone, a terminal.
#include <gtest/gtest.h>

#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

const std::vector<std::string> good{"gauge", "--reading", "62.4 %vol", "--at", "27.5 C"};

TEST(Output, aClosedOneFailsQuietly) {
  const Ran ran = lynearm(good, Out::closed);
  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(ran.err, "");
}

TEST(Output, aReaderThatHasGoneFailsQuietly) {
  for (const auto& words : {good, std::vector<std::string>{"--help"}}) {
    const Ran ran = lynearm(words, Out::gone_reader);
    EXPECT_EQ(ran.status, 1);
    EXPECT_EQ(ran.err, "");
  }
}

TEST(Output, aFullDeviceIsTold) {
  const Ran ran = lynearm(good, Out::full_device);
  EXPECT_EQ(ran.status, 1);
  EXPECT_NE(ran.err.find("The output could not be written"), std::string::npos);
}

TEST(Output, hasColourOnlyOnATerminalThatWantsIt) {
  const auto coloured = [](const Ran& ran) {
    return ran.out.find('\033') != std::string::npos;
  };
  EXPECT_TRUE(coloured(lynearm(good, Out::terminal)));
  EXPECT_FALSE(coloured(lynearm(good, Out::pipe)));
  EXPECT_FALSE(coloured(lynearm(good, Out::terminal, {"NO_COLOR=1"})));
  EXPECT_FALSE(coloured(lynearm(good, Out::terminal, {"NO_COLOR="})));
}

TEST(Output, colourAddsNoWords) {
  std::string plain = lynearm(good, Out::terminal).out;
  for (const char* mark : {"\033[1m", "\033[0m", "\033[33m", "\r"}) {
    for (std::size_t at = plain.find(mark); at != std::string::npos; at = plain.find(mark)) {
      plain.erase(at, std::string(mark).size());
    }
  }
  EXPECT_EQ(plain, lynearm(good).out);
}

TEST(Output, jsonIsOneLineAndNeverColoured) {
  std::vector<std::string> words = good;
  words.emplace_back("--json");
  const Ran ran = lynearm(words, Out::terminal);
  EXPECT_EQ(ran.out.find('\033'), std::string::npos);
  EXPECT_EQ(ran.out.find('\n'), ran.out.size() - 1);
}

}  // namespace
}  // namespace lynearm::cli
