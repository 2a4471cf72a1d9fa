#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "base/error.hpp"
#include "plan/plan.hpp"
#include "plan/tern.hpp"

namespace lynearm::plan {
namespace {

bool names(const std::vector<base::Fault>& faults, const std::string& field) {
  return std::any_of(faults.begin(), faults.end(),
                     [&field](const base::Fault& fault) { return fault.field == field; });
}

TEST(Contradictions, a_sound_pair_has_none) {
  EXPECT_TRUE(contradictions(tern::recipe_8(), tern::kit_8()).empty());
}

TEST(Contradictions, a_vessel_the_kit_lacks_is_named_with_the_nearest) {
  Recipe recipe = tern::recipe_8();
  recipe.ferment.vessel = "fermentor";
  const auto faults = contradictions(recipe, tern::kit_8());
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].field, "ferment.vessel");
  EXPECT_NE(faults[0].accepted.find("did you mean \"fermenter\""), std::string::npos);
}

TEST(Contradictions, are_all_told_at_once) {
  Recipe recipe = tern::recipe_8();
  recipe.mash.vessel = "bath";
  recipe.mash.cook.reset();
  recipe.sugar_boil.reset();
  recipe.wood->in = std::string("hogshead");
  recipe.bottle.strength = units::VolumeStrength::percent(60.0);
  const auto faults = contradictions(recipe, tern::kit_8());
  for (const char* field :
       {"mash.vessel", "mash.cook", "sugar_boil", "wood.cask", "bottle.strength"}) {
    EXPECT_TRUE(names(faults, field)) << field;
  }
  EXPECT_THROW(static_cast<void>(make(recipe, tern::kit_8())), base::InputError);
}

TEST(Contradictions, grain_is_not_boiled_as_sugar_nor_sugar_doughed_in) {
  Recipe recipe = tern::recipe_8();
  recipe.bill[1].use = Use::boil;
  recipe.bill[3].use = Use::dough_in;
  const auto faults = contradictions(recipe, tern::kit_8());
  EXPECT_TRUE(names(faults, "mash_bill[2].use"));
  EXPECT_TRUE(names(faults, "mash_bill[4].use"));
}

// At 0.67 L/kg of its own and 1.0 L/kg of water, as mash/ and common practice have them.
TEST(Contradictions, a_bill_ten_times_too_large_is_told_at_its_heaviest_grain) {
  Recipe recipe = tern::recipe_8();
  std::size_t heaviest = 0;
  double all_kg = 0.0;
  for (std::size_t i = 0; i < recipe.bill.size(); ++i) {
    BillLine& line = recipe.bill[i];
    if (line.use != Use::cook && line.use != Use::dough_in) continue;
    line.mass = line.mass * 10.0;
    all_kg += line.mass.kilograms();
    if (line.mass > recipe.bill[heaviest].mass) heaviest = i;
  }
  const auto faults = contradictions(recipe, tern::kit_8());
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].field, fmt::format("mash_bill[{}].mass", heaviest + 1));
  EXPECT_NE(faults[0].accepted.find(fmt::format("all {:.1f} kg of it", all_kg)),
            std::string::npos)
      << faults[0].accepted;
  EXPECT_NE(faults[0].accepted.find(fmt::format("fill {:.1f} L", all_kg * 1.67)),
            std::string::npos)
      << faults[0].accepted;
}

TEST(Contradictions, sugar_takes_no_room_in_the_mash) {
  Recipe recipe = tern::recipe_8();
  for (BillLine& line : recipe.bill) {
    if (line.use == Use::boil || line.use == Use::ferment) line.mass = line.mass * 10.0;
  }
  for (const base::Fault& fault : contradictions(recipe, tern::kit_8())) {
    EXPECT_EQ(fault.field.find("mash_bill"), std::string::npos) << fault.field;
  }
}

TEST(Contradictions, a_cold_vessel_cannot_cook) {
  Kit kit = tern::kit_8();
  kit.vessels[0].heat = {};
  EXPECT_TRUE(names(contradictions(tern::recipe_8(), kit), "mash.cook.vessel"));
}

TEST(Contradictions, borders_by_strength_only_fall) {
  Recipe recipe = tern::recipe_8();
  recipe.spirit_run.heads_end = units::VolumeStrength::percent(60.0);
  recipe.spirit_run.hearts_end = units::VolumeStrength::percent(65.0);
  EXPECT_TRUE(names(contradictions(recipe, tern::kit_8()), "spirit_run.hearts_end"));
}

TEST(Refusals, a_bill_without_enzymes_is_refused_with_what_it_needs) {
  Recipe recipe = tern::recipe_8();
  recipe.bill = {{"maize-cracked", units::Mass::kilograms(9.0), Use::cook, {}, {}},
                 {"rye-raw", units::Mass::kilograms(5.0), Use::dough_in, {}, {}}};
  recipe.sugar_boil.reset();
  try {
    static_cast<void>(make(recipe, tern::kit_8()));
    FAIL() << "raw grain alone does not convert";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "mash_bill");
    EXPECT_NE(error.faults().at(0).accepted.find("malt"), std::string::npos);
  }
}

TEST(Refusals, a_strip_that_stops_above_its_first_drops_is_refused) {
  Recipe recipe = tern::recipe_8();
  recipe.strip.stop = units::VolumeStrength::percent(70.0);
  try {
    static_cast<void>(make(recipe, tern::kit_8()));
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "strip.stop");
  }
}

}  // namespace
}  // namespace lynearm::plan
