// Help is held against the program: each command's worked line is run and its result compared.
#include "cli/help.hpp"

#include <gtest/gtest.h>

#include "cli/commands.hpp"
#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

TEST(Help, eachWorkedLineGivesTheResultItShows) {
  for (const Command& command : commands()) {
    const std::string line = "lynearm " + command.name + " " + command.example.arguments;
    const Ran page = lynearm({command.name, "--help"});
    EXPECT_EQ(page.status, 0);
    EXPECT_NE(page.out.find("\n  " + line + "\n  " + command.example.result + "\n"),
              std::string::npos)
        << page.out;
    const Ran ran = shell(line);
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(first_line(ran.out), command.example.result);
    EXPECT_FALSE(command.example.result.empty());
  }
}

TEST(Help, eachPageNamesEveryOption) {
  for (const Command& command : commands()) {
    const std::string page = lynearm({command.name, "-h"}).out;
    for (const Option& option : command.options) {
      EXPECT_NE(page.find(option.name), std::string::npos)
          << command.name << " " << option.name;
    }
    for (const char* common : {"--json", "--units", "--help"}) {
      EXPECT_NE(page.find(common), std::string::npos) << command.name;
    }
  }
}

TEST(Help, ofTheProgramListsItsCommandsAndTheLaw) {
  const Ran ran = lynearm({"--help"});
  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(ran.err, "");
  EXPECT_NE(ran.out.find("distilling without a licence is unlawful in many countries"),
            std::string::npos);
  for (const Command& command : commands()) {
    EXPECT_NE(ran.out.find("  " + command.name + " "), std::string::npos);
    EXPECT_NE(ran.out.find(command.summary), std::string::npos);
  }
}

TEST(Help, beatsMistakesBesideIt) {
  EXPECT_EQ(lynearm({"gauge", "--reading", "abc", "--help"}).status, 0);
}

TEST(Version, isOneLine) {
  const Ran ran = lynearm({"--version"});
  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(ran.out, version());
  EXPECT_TRUE(ran.out.starts_with("lynearm "));
}

}  // namespace
}  // namespace lynearm::cli
