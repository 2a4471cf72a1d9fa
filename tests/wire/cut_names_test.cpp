// What the choices beside the proposed one are called must be true of each of them. They were
// called "less of it, cleaner" and "more of it, fuller" by their place alone, though hearts
// that are fewer often carry a greater share of what came early.
#include "wire/cut_names.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <sstream>
#include <string>

#include "base/error.hpp"
#include "still/shelves.hpp"
#include "still/wishes.hpp"
#include "wire/answer.hpp"

namespace lynearm::wire {
namespace {

using nlohmann::json;

struct Proposed {
  ShelfJars shelf;
  still::CutProposal proposal;
  json told;  ///< as the pages get it
};

Proposed propose(std::vector<still::Jar> jars, std::string_view id,
                 std::optional<units::Volume> heads = std::nullopt) {
  Proposed made;
  for (const still::Jar& jar : jars) made.shelf.numbers.push_back(std::stoi(jar.label));
  made.shelf.jars = std::move(jars);
  const still::Purpose& purpose = still::purpose(id);
  still::Wishes wishes;
  wishes.weights = purpose.weights;
  wishes.heads = heads;
  made.proposal = still::propose(made.shelf.jars, wishes);
  made.told = json::parse(cuts_json(made.shelf, purpose, made.proposal));
  return made;
}

double early(const json& alternative) {
  return alternative["poured"]["hearts"]["early"]["median"].get<double>();
}
double litres(const json& alternative) {
  return alternative["poured"]["hearts"]["volume_L_20C"].get<double>();
}

// A place among the jars by number and share, not by what ran before them.
struct Place {
  std::size_t jar = 0;
  double hearts_mL = 0.0;
};
std::vector<Place> places(const json& alternative) {
  std::vector<Place> all;
  for (const json& jar : alternative["jars"]) {
    const double hearts = jar["hearts_mL_20C"].get<double>();
    if (hearts >= 0.5) all.push_back({jar["jar"].get<std::size_t>(), hearts});
  }
  return all;
}
// Below zero where the end lies earlier than the other's.
double begun(const Place& one, const Place& other) {
  if (one.jar != other.jar) return one.jar < other.jar ? -1e9 : 1e9;
  return other.hearts_mL - one.hearts_mL;
}
double ended(const Place& one, const Place& other) {
  if (one.jar != other.jar) return one.jar < other.jar ? -1e9 : 1e9;
  return one.hearts_mL - other.hearts_mL;
}

void expect_true(const std::string& name, const json& one, const json& proposed) {
  const double by = litres(one) - litres(proposed);
  const auto mine = places(one);
  const auto its = places(proposed);
  ASSERT_FALSE(mine.empty());
  ASSERT_FALSE(its.empty());
  const double from = begun(mine.front(), its.front());
  const double to = ended(mine.back(), its.back());
  constexpr double shy = 0.51;  // mL, of what counts as the same
  const std::map<std::string, bool> volumes = {{"less of it", by < 0.0},
                                               {"more of it", by > 0.0},
                                               {"as much of it", std::abs(by) <= shy / 1e3}};
  const std::map<std::string, bool> borders = {
      {" begun earlier", from < 0.0},
      {" begun later", from > 0.0},
      {" ended earlier", to < 0.0},
      {" ended later", to > 0.0},
      {" between the same ends", std::max(std::abs(from), std::abs(to)) <= shy}};
  std::istringstream words(name);
  std::string word;
  ASSERT_TRUE(std::getline(words, word, ','));
  ASSERT_TRUE(volumes.contains(word)) << "\"" << name << "\" says what nobody can check";
  EXPECT_TRUE(volumes.at(word)) << name << ", by " << by << " L";
  std::size_t said = 0;
  for (; std::getline(words, word, ','); ++said) {
    ASSERT_TRUE(borders.contains(word)) << "\"" << name << "\" says what nobody can check";
    EXPECT_TRUE(borders.at(word)) << name << ", from by " << from << ", to by " << to << " mL";
  }
  EXPECT_GT(said, 0U) << name;
  // And what moved is said.
  const bool begun_said = name.find("begun") != std::string::npos;
  const bool ended_said = name.find("ended") != std::string::npos;
  EXPECT_TRUE(begun_said || std::abs(from) <= 1.0) << name;
  EXPECT_TRUE(ended_said || std::abs(to) <= 1.0) << name;
}

void expect_true(const Proposed& made) {
  const std::size_t best = made.proposal.recommended;
  for (std::size_t i = 0; i < made.told["alternatives"].size(); ++i) {
    const json& one = made.told["alternatives"][i];
    if (i == best) {
      EXPECT_EQ(one["name"], "proposed");
    } else {
      expect_true(one["name"].get<std::string>(), one, made.told["alternatives"][best]);
    }
  }
}

TEST(CutNames, AreTrueOfAUsualRun) {
  for (const char* purpose : {"clean", "fuller"}) {
    expect_true(propose(still::usual_jars(), purpose));
  }
}

RC_GTEST_PROP(CutNames, AreTrueOfEachChoice, ()) {
  const std::vector<still::Jar> jars = still::any_jars(4, 14);
  const char* purpose = *rc::gen::element("clean", "fuller");
  Proposed made;
  try {
    made = propose(jars, purpose);
  } catch (const base::InputError&) {
    RC_DISCARD("no jar is worth its load");
  }
  expect_true(made);
  RC_ASSERT(!testing::Test::HasFailure());
}

TEST(CutNames, LessOfItMayCarryMoreOfWhatCameEarly) {
  std::size_t less = 0;
  std::size_t with_more_early = 0;
  for (const char* purpose : {"clean", "fuller"}) {
    // The plan's heads end past where the loads alone would begin: all begin there.
    const std::vector<still::Jar> jars = still::usual_jars();
    const Proposed made = propose(jars, purpose, jars[0].volume + jars[1].volume * 2.0);
    const json& all = made.told["alternatives"];
    const json& proposed = all[made.proposal.recommended];
    for (const json& one : all) {
      EXPECT_EQ(one["name"].get<std::string>().find("clean"), std::string::npos);
      if (litres(one) >= litres(proposed)) continue;
      ++less;
      if (early(one) > early(proposed)) ++with_more_early;
    }
  }
  EXPECT_GT(less, 0U);
  EXPECT_GT(with_more_early, 0U) << "else the names could tell what it carries";
}

}  // namespace
}  // namespace lynearm::wire
