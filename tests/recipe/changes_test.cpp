// A changed recipe told as keys of its text: written there, the text says the changed recipe.
#include "recipe/changes.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <sstream>

#include "plan/backward.hpp"
#include "plan/plan.hpp"
#include "recipe/read_pair.hpp"
#include "recipe/read_texts.hpp"

namespace lynearm::recipe {
namespace {

// The text with each change at its line; a text of plain headers and one-line values.
std::string rewritten(const std::string& text, const std::vector<Change>& changes) {
  std::map<std::string, std::optional<std::string>> wanted;
  for (const Change& change : changes) wanted[change.path] = change.value;
  std::map<std::string, int> counts;
  std::string made, table;
  std::istringstream lines{text};
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("[[")) {
      const std::string name = line.substr(2, line.find(']') - 2);
      table = name + "[" + std::to_string(++counts[name]) + "].";
    } else if (line.starts_with("[")) {
      table = line.substr(1, line.find(']') - 1) + ".";
    } else if (const std::size_t equals = line.find(" = "); equals != std::string::npos) {
      const auto change = wanted.find(table + line.substr(0, equals));
      if (change != wanted.end()) {
        if (!change->second)
          line.clear();
        else
          line = line.substr(0, equals) + " = \"" + *change->second + "\"";
        wanted.erase(change);
      }
    }
    made += line + "\n";
  }
  EXPECT_TRUE(wanted.empty()) << wanted.begin()->first;
  return made;
}

class EachExample : public testing::TestWithParam<std::string> {
 protected:
  const std::string recipe = file_text("examples/" + GetParam() + "/recipe.toml");
  const std::string kit = file_text("examples/" + GetParam() + "/kit.toml");
  const Pair pair = read_pair({recipe, "recipe"}, {kit, "kit"});

  Pair again(const plan::Recipe& changed) const {
    return read_pair({rewritten(recipe, changes(pair.recipe, changed)), "recipe"},
                     {kit, "kit"});
  }
};
INSTANTIATE_TEST_SUITE_P(Changes, EachExample, testing::Values("tern-7", "tern-8"),
                         [](const auto& of) {
                           return of.param == "tern-7" ? "seven" : "eight";
                         });

TEST_P(EachExample, sameRecipeHasNoChanges) {
  EXPECT_TRUE(changes(pair.recipe, pair.recipe).empty());
}

TEST_P(EachExample, givesTheWantedSpiritWhenTheChangesAreWritten) {
  const plan::Solved solved = plan::for_spirit(
      pair.recipe, pair.kit, units::Volume::litres(4.0), units::VolumeStrength::percent(56.0));
  const Pair written = again(solved.recipe);
  const plan::Plan plan = plan::make(written.recipe, written.kit);
  EXPECT_NEAR(plan.finish.reduce.volume.litres(), 4.0, 4e-3);
  EXPECT_NEAR(plan.finish.reduce.strength.percent(), 56.0, 1e-6);
  // What is written to 0.1 g and 1 mL differs by no more, so there is nothing left to change.
  EXPECT_TRUE(changes(written.recipe, solved.recipe).empty());
}

TEST_P(EachExample, fitsTheKitWhenTheLargestBatchIsWritten) {
  const plan::Solved solved = plan::scale_to_kit(pair.recipe, pair.kit);
  const Pair written = again(solved.recipe);
  for (const plan::Finding& finding : plan::make(written.recipe, written.kit).findings) {
    EXPECT_NE(finding.code, "vessel-too-full") << finding.says;
    EXPECT_NE(finding.code, "vessel-overfilled") << finding.says;
  }
}

TEST(Changes, anotherIngredientIsFourKeysAndACookThatIsIdleGoes) {
  const std::string recipe = file_text("examples/tern-8/recipe.toml");
  const std::string kit = file_text("examples/tern-8/kit.toml");
  const Pair pair = read_pair({recipe, "recipe"}, {kit, "kit"});
  const plan::Solved solved = plan::replaced(pair.recipe, pair.kit, 1, "wheat-malt");
  const std::vector<Change> all = changes(pair.recipe, solved.recipe);
  ASSERT_EQ(all.size(), 6U);
  EXPECT_EQ(all[0], (Change{"mash_bill[1].ingredient", "wheat-malt"}));
  EXPECT_EQ(all[1].path, "mash_bill[1].mass");
  EXPECT_EQ(all[2], (Change{"mash_bill[1].use", "dough-in"}));
  EXPECT_EQ(all[3], (Change{"mash_bill[1].price", std::nullopt}));
  EXPECT_EQ(all[4], (Change{"mash.water", "36 L"}));
  EXPECT_EQ(all[5], (Change{"mash.cook", std::nullopt}));
}

}  // namespace
}  // namespace lynearm::recipe
