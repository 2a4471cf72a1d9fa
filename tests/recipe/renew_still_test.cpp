// The constants of a still written into a kit: these keys change and nothing else.
#include "recipe/renew_still.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "base/error.hpp"
#include "places.hpp"
#include "recipe/read_kit.hpp"

namespace lynearm::recipe {
namespace {

using units::HeatLoss;

std::string example_kit() {
  std::ifstream file(std::string(LYNEARM_SOURCE_DIR) + "/examples/tern-8/kit.toml");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

StillKeys all_keys() {
  StillKeys keys;
  keys.pot_loss = HeatLoss::watts_per_kelvin(5.123);
  keys.heat_efficiency = units::Share::percent(93.27);
  keys.head_loss = units::Spread<HeatLoss>{HeatLoss::watts_per_kelvin(4.567),
                                           HeatLoss::watts_per_kelvin(0.3214)};
  keys.coil = units::Volume::millilitres(61.0);
  keys.parrot = units::Volume::millilitres(152.0);
  return keys;
}

std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> all;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) all.push_back(line);
  return all;
}

// The lines of `a` that are not in `b`, in order.
std::vector<std::string> without(const std::vector<std::string>& a,
                                 const std::vector<std::string>& b) {
  std::vector<std::string> rest;
  for (const std::string& line : a) {
    if (std::find(b.begin(), b.end(), line) == b.end()) rest.push_back(line);
  }
  return rest;
}

TEST(RenewStill, ChangesTheKeysOfTheStillAndNothingElse) {
  // A kit with every key, whatever the example has at the moment.
  StillKeys first = all_keys();
  first.pot_loss = HeatLoss::watts_per_kelvin(9.0);
  first.heat_efficiency = units::Share::percent(80.0);
  first.head_loss->median = HeatLoss::watts_per_kelvin(2.0);
  first.coil = units::Volume::millilitres(10.0);
  first.parrot = units::Volume::millilitres(20.0);
  const std::string before = renew_still(example_kit(), first, "kit.toml");
  const std::string after = renew_still(before, all_keys(), "kit.toml");
  EXPECT_THAT(without(lines(before), lines(after)), testing::SizeIs(5));
  EXPECT_THAT(
      without(lines(after), lines(before)),
      testing::UnorderedElementsAre("loss = \"5.12 W/K\"", "heat_efficiency = \"93.3 %\"",
                                    "loss = \"4.57 W/K +/- 0.32 W/K\"", "holds = \"61 mL\"",
                                    "parrot = \"152 mL\""));
  EXPECT_EQ(lines(before).size(), lines(after).size());
}

TEST(RenewStill, TheKitReadsAsWasMeant) {
  const plan::Still still =
      read_kit(renew_still(example_kit(), all_keys(), "kit.toml"), "kit.toml").still;
  EXPECT_NEAR(still.boiler.loss.watts_per_kelvin(), 5.12, 1e-9);
  EXPECT_NEAR(still.boiler.heat_efficiency.percent(), 93.3, 1e-9);
  ASSERT_TRUE(still.head_loss);
  EXPECT_NEAR(still.head_loss->median.watts_per_kelvin(), 4.57, 1e-9);
  EXPECT_NEAR(still.head_loss->half_width_80.watts_per_kelvin(), 0.32, 1e-9);
  EXPECT_NEAR(still.coil_holds.millilitres(), 61.0, 1e-9);
  EXPECT_NEAR(still.parrot_holds.millilitres(), 152.0, 1e-9);
}

TEST(RenewStill, WithNothingToSayIsTheTextItself) {
  EXPECT_EQ(renew_still(example_kit(), {}, "kit.toml"), example_kit());
}

TEST(RenewStill, TwiceIsOnce) {
  const std::string once = renew_still(example_kit(), all_keys(), "kit.toml");
  EXPECT_EQ(renew_still(once, all_keys(), "kit.toml"), once);
}

TEST(RenewStill, KeepsCommentsSpacingAndLineEnds) {
  std::string text = example_kit();
  const std::size_t at = text.find("loss = ", text.find("[boiler]"));
  const std::size_t end = text.find('\n', at);
  text.replace(at, end - at, "loss   =  \"7 W/K\"   # by the cooling of water, in March");
  std::string with_returns;
  for (const char c : text) with_returns += c == '\n' ? "\r\n" : std::string(1, c);
  StillKeys keys;
  keys.pot_loss = HeatLoss::watts_per_kelvin(5.0);
  keys.parrot = units::Volume::millilitres(152.0);
  const std::string after = renew_still(with_returns, keys, "kit.toml");
  EXPECT_THAT(after, testing::HasSubstr(
                         "loss   =  \"5.00 W/K\"   # by the cooling of water, in March\r\n"));
  EXPECT_THAT(after, testing::HasSubstr("parrot = \"152 mL\"\r\n"));
  EXPECT_EQ(after.find("\n\n"), std::string::npos);
}

TEST(RenewStill, EfficiencyAboveTheWholeIsWrittenAsTheWhole) {
  StillKeys keys;
  keys.heat_efficiency = units::Share::percent(103.0);
  EXPECT_EQ(still_section(keys), "[boiler]\nheat_efficiency = \"100.0 %\"\n");
}

TEST(RenewStill, RefusesALayoutThatItCannotEdit) {
  std::string text = example_kit();
  // [boiler] becomes dotted keys before the first table.
  const std::size_t from = text.find("[boiler]");
  const std::size_t to = text.find("\n[", from);
  std::string dotted;
  for (const std::string& line : lines(text.substr(from, to - from))) {
    if (line.find('=') != std::string::npos) dotted += "boiler." + line + "\n";
  }
  text.erase(from, to - from);
  text.insert(text.find("\n[") + 1, dotted);
  StillKeys keys;
  keys.pot_loss = HeatLoss::watts_per_kelvin(5.0);
  EXPECT_THROW((void)renew_still(text, keys, "kit.toml"), base::InputError);
}

}  // namespace
}  // namespace lynearm::recipe
