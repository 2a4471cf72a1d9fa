#include "serve/picture.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "base/error.hpp"

namespace lynearm::serve {
namespace {

const std::string address = "http://192.168.1.5:8420/pair#AAECAwQFBgcICQoLDA0ODw";

TEST(Picture, HasTheMarksThatAReaderLooksFor) {
  const Modules modules = modules_of(address);
  const std::size_t side = modules.size();
  EXPECT_EQ(side % 4, 1U);  // 17 + 4 × version: ISO/IEC 18004, from memory
  const auto is_finder = [&](std::size_t top, std::size_t left) {
    for (std::size_t r = 0; r < 7; ++r) {
      for (std::size_t c = 0; c < 7; ++c) {
        const bool rim = r == 0 || r == 6 || c == 0 || c == 6;
        const bool heart = r >= 2 && r <= 4 && c >= 2 && c <= 4;
        if (modules[top + r][left + c] != (rim || heart)) return false;
      }
    }
    return true;
  };
  EXPECT_TRUE(is_finder(0, 0));
  EXPECT_TRUE(is_finder(0, side - 7));
  EXPECT_TRUE(is_finder(side - 7, 0));
  EXPECT_FALSE(is_finder(side - 7, side - 7));
}

TEST(Picture, DrawsEveryDarkModule) {
  const Modules modules = modules_of(address);
  std::size_t dark = 0;
  for (const auto& row : modules) {
    for (const bool module : row) dark += module ? 1 : 0;
  }
  const std::string svg = picture_of(address);
  std::size_t drawn = 0;
  for (std::size_t at = svg.find("v1h-"); at != std::string::npos;
       at = svg.find("v1h-", at + 1)) {
    drawn += std::stoul(svg.substr(at + 4));
  }
  EXPECT_EQ(drawn, dark);
  const std::string side = std::to_string(modules.size() + 8);
  EXPECT_THAT(svg, testing::HasSubstr("viewBox=\"0 0 " + side + " " + side + "\""));
}

TEST(Picture, ForATerminalHasARowForTwo) {
  const std::string text = terminal_picture_of(address);
  const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
  EXPECT_EQ(lines, (modules_of(address).size() + 4 + 1) / 2);
}

TEST(Picture, OfTooMuchIsRefused) {
  EXPECT_THROW(static_cast<void>(modules_of(std::string(3000, 'a'))), base::InputError);
  EXPECT_THROW(static_cast<void>(modules_of("")), base::InputError);
}

}  // namespace
}  // namespace lynearm::serve
