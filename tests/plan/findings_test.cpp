// Each finding, brought about on purpose: the code comes, with its figure and its remedy.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "plan/plan.hpp"
#include "plan/tern.hpp"

namespace lynearm::plan {
namespace {

using units::Mass;
using units::Share;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

struct Case {
  const char* code;
  Weight weight;
  std::function<void(Recipe&, Kit&)> spoil;
};

const Case cases[] = {
    {"vessel-overfilled", Weight::stop,
     [](Recipe&, Kit& kit) {
       kit.vessels[2].total = kit.vessels[2].working = Volume::litres(100);
     }},
    {"vessel-too-full", Weight::caution,
     [](Recipe&, Kit& kit) { kit.vessels[2].working = Volume::litres(105.0); }},
    {"vessel-overfilled", Weight::stop,
     [](Recipe& recipe, Kit&) {
       recipe.mash.sparges = {{Volume::litres(85.0), Temperature::celsius(75.0)}};
     }},
    {"no-room-for-foam", Weight::caution,
     [](Recipe&, Kit& kit) {
       kit.vessels[2].total = kit.vessels[2].working = Volume::litres(115);
     }},
    {"element-exposed", Weight::danger,
     [](Recipe&, Kit& kit) { kit.still.boiler.element_covered_above = Volume::litres(25.0); }},
    {"element-cover-unknown", Weight::caution,
     [](Recipe&, Kit& kit) { kit.still.boiler.element_covered_above = {}; }},
    {"wash-left-over", Weight::stop, [](Recipe& recipe, Kit&) { recipe.strip.charges = 2; }},
    {"charge-over-fill", Weight::caution,
     [](Recipe& recipe, Kit&) { recipe.strip.charge = Volume::litres(35.5); }},
    {"little-enzyme-power", Weight::caution,
     [](Recipe& recipe, Kit&) {
       recipe.bill[0].mass = Mass::kilograms(12.0);
       recipe.bill[1].mass = Mass::kilograms(3.0);
     }},
    {"charge-strong", Weight::caution,
     [](Recipe& recipe, Kit&) {
       recipe.spirit_run.charge_at_most = VolumeStrength::percent(40.0);
     }},
    {"carbon-dioxide", Weight::danger,
     [](Recipe&, Kit& kit) { kit.place.ferment_room = Volume::cubic_metres(2.0); }},
    {"cask-too-small", Weight::caution,
     [](Recipe& recipe, Kit&) { recipe.wood->in = std::string("little cask"); }},
    {"cask-too-large", Weight::caution,
     [](Recipe& recipe, Kit& kit) {
       kit.casks[0].volume = Volume::litres(40.0);
       recipe.wood->in = std::string("little cask");
     }},
    {"slow-draining", Weight::caution,
     [](Recipe& recipe, Kit&) {
       recipe.bill.push_back({"oats-flaked", Mass::kilograms(6.0), Use::dough_in, {}, {}});
     }},
    {"wash-foams", Weight::remark,
     [](Recipe& recipe, Kit&) { recipe.bill[2].mass = Mass::kilograms(9.0); }},
    {"low-wines-over-a-charge", Weight::caution,
     [](Recipe& recipe, Kit&) {
       recipe.spirit_run.feints =
           SpiritLot{Volume::litres(12.0), VolumeStrength::percent(30.0)};
     }},
    {"low-wines-under-a-charge", Weight::caution,
     [](Recipe&, Kit& kit) { kit.still.boiler.total = Volume::litres(200.0); }},
    {"grain-on-direct-heat", Weight::stop,
     [](Recipe& recipe, Kit&) {
       recipe.mash.sparges.clear();
       recipe.mash.on_the_grain = true;
     }},
    {"coolant-short", Weight::danger,
     [](Recipe&, Kit& kit) {
       kit.still.greatest_coolant_flow = units::VolumeFlow::litres_per_minute(0.3);
     }},
    {"lands-too-cold", Weight::stop,
     [](Recipe& recipe, Kit&) {
       recipe.mash.water = Volume::litres(40.0);
       recipe.mash.water_temperature = Temperature::celsius(12.0);
     }},
    {"nitrogen-short", Weight::caution,
     [](Recipe& recipe, Kit&) { recipe.bill[3].mass = Mass::kilograms(14.0); }},
    {"ferment-too-warm", Weight::caution,
     [](Recipe& recipe, Kit& kit) {
       recipe.ferment.held = false;
       recipe.ferment.pitch_temperature = Temperature::celsius(32.0);
       kit.place.ambient = Temperature::celsius(32.0);
     }},
    {"pitched-too-cold", Weight::caution,
     [](Recipe& recipe, Kit&) {
       recipe.ferment.pitch_temperature = Temperature::celsius(14.0);
     }},
    {"border-not-reached", Weight::caution,
     [](Recipe& recipe, Kit&) { recipe.spirit_run.heads_end = Volume::litres(30.0); }},
    {"borders-out-of-order", Weight::caution,
     [](Recipe& recipe, Kit&) { recipe.spirit_run.heads_end = Volume::millilitres(50.0); }},
    {"no-hearts", Weight::stop,
     [](Recipe& recipe, Kit&) { recipe.spirit_run.heads_end = Volume::litres(30.0); }},
    {"sparge-not-worth-it", Weight::remark,
     [](Recipe& recipe, Kit&) { recipe.mash.sparges.assign(4, recipe.mash.sparges.front()); }},
    {"small-new-cask", Weight::remark,
     [](Recipe& recipe, Kit&) { recipe.wood->in = std::string("little cask"); }},
    {"too-few-staves", Weight::caution, [](Recipe&, Kit& kit) { kit.staves->count = 2; }},
    {"power-fixed", Weight::remark,
     [](Recipe&, Kit& kit) { kit.still.boiler.power_adjustable = false; }},
    {"more-wort-than-wanted", Weight::caution,
     [](Recipe& recipe, Kit&) { recipe.ferment.fill_to = Volume::litres(60.0); }},
    {"cools-slowly", Weight::caution,
     [](Recipe&, Kit& kit) {
       kit.vessels[2].cooling_coil = {};
       kit.vessels[2].loss_lid_on = units::HeatLoss::watts_per_kelvin(3.0);
     }},
    {"cook-too-thick", Weight::caution,
     [](Recipe& recipe, Kit&) {
       recipe.mash.cook->water = Volume::litres(11.0);
       recipe.mash.water = Volume::litres(22.0);
       recipe.mash.water_temperature = Temperature::celsius(75.0);
     }},
};

TEST(Findings, of_a_sound_batch_are_only_remarks) {
  for (const Finding& finding : make(tern::recipe_8(), tern::kit_8()).findings) {
    EXPECT_EQ(finding.weight, Weight::remark) << finding.code << ": " << finding.says;
  }
}

TEST(Findings, come_when_they_are_brought_about) {
  for (const Case& c : cases) {
    Recipe recipe = tern::recipe_8();
    Kit kit = tern::kit_8();
    c.spoil(recipe, kit);
    const Plan plan = make(recipe, kit);
    const auto found =
        std::find_if(plan.findings.begin(), plan.findings.end(),
                     [&c](const Finding& finding) { return finding.code == c.code; });
    ASSERT_NE(found, plan.findings.end()) << c.code;
    EXPECT_EQ(found->weight, c.weight) << c.code << ": " << found->says;
    EXPECT_FALSE(found->remedy.empty()) << c.code;
  }
}

// They are read on a page by whoever never saw the recipe file: no keys of it, no code.
TEST(Findings, speak_no_keys_of_the_files) {
  for (const Case& c : cases) {
    Recipe recipe = tern::recipe_8();
    Kit kit = tern::kit_8();
    c.spoil(recipe, kit);
    for (const Finding& finding : make(recipe, kit).findings) {
      for (const std::string& text : {finding.says, finding.remedy}) {
        EXPECT_EQ(text.find_first_of("_=\""), std::string::npos) << text;
      }
    }
  }
}

TEST(Findings, stand_worst_first) {
  Recipe recipe = tern::recipe_8();
  Kit kit = tern::kit_8();
  kit.still.boiler.element_covered_above = Volume::litres(25.0);
  recipe.strip.charges = 2;
  recipe.wood->in = std::string("little cask");
  const Plan plan = make(recipe, kit);
  EXPECT_TRUE(
      std::is_sorted(plan.findings.begin(), plan.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.weight < b.weight; }));
  EXPECT_EQ(plan.findings.front().weight, Weight::stop);
}

// Of one code, the sentence and remedy at each stage.
struct Told {
  std::string stage, says, remedy;
  Weight weight;
};
std::vector<Told> told(const Plan& plan, const std::string& code) {
  std::vector<Told> all;
  for (const Finding& one : plan.findings) {
    if (one.code == code) all.push_back({one.stage, one.says, one.remedy, one.weight});
  }
  return all;
}

// "Charge more, or stop earlier" was said of it too, and stopping earlier does not help.
TEST(Findings, of_a_charge_that_does_not_cover_the_element_leave_its_heat_off) {
  Kit kit = tern::kit_8();
  kit.still.boiler.element_covered_above = Volume::litres(32.0);
  const Plan plan = make(tern::recipe_8(), kit);
  ASSERT_LT(plan.spirit.one.charge_volume, Volume::litres(32.0));
  ASSERT_LT(plan.strip.one.charge_volume, Volume::litres(32.0));
  const std::vector<Told> bare = told(plan, "element-exposed");
  ASSERT_EQ(bare.size(), 2U);  // the sparge water, 33 L, covers it
  EXPECT_EQ(bare[0].stage, "Strip");
  EXPECT_EQ(
      bare[0].says,
      fmt::format("The charge is {:.1f} L; the element needs 32.0 L over it and burns dry "
                  "as soon as the heat is on.",
                  plan.strip.one.charge_volume.litres()));
  EXPECT_EQ(bare[0].remedy, "Leave the heat off. Charge more.");
  EXPECT_EQ(bare[1].stage, "Spirit run");
  EXPECT_EQ(bare[1].remedy, "Leave the heat off. Charge more, with water if need be.");
}

TEST(Findings, of_a_charge_that_covers_the_element_until_its_end_say_to_stop_earlier) {
  Kit kit = tern::kit_8();
  const double charged_L = make(tern::recipe_8(), kit).strip.one.charge_volume.litres();
  kit.still.boiler.element_covered_above = Volume::litres(charged_L);
  const std::vector<Told> covered = told(make(tern::recipe_8(), kit), "element-exposed");
  ASSERT_FALSE(covered.empty());
  EXPECT_EQ(covered[0].stage, "Strip");
  EXPECT_EQ(covered[0].remedy, "Charge more, or stop earlier.") << "just covered as charged";
}

TEST(Findings, of_sparge_water_that_does_not_cover_the_element_are_a_danger_of_mash_day) {
  Recipe recipe = tern::recipe_8();
  Kit kit = tern::kit_8();
  recipe.mash.sparges = {{Volume::litres(3.0), Temperature::celsius(75.0)},
                         {Volume::litres(2.4), Temperature::celsius(12.0)}};
  const std::vector<Told> bare = told(make(recipe, kit), "element-exposed");
  ASSERT_EQ(bare.size(), 1U);
  EXPECT_EQ(bare[0].stage, "Mash");
  EXPECT_EQ(bare[0].weight, Weight::danger);
  EXPECT_EQ(bare[0].says,
            "5.4 L of sparge water is heated in the still's boiler; the element needs 6.0 L "
            "over it and burns dry.");
  EXPECT_EQ(bare[0].remedy, "Heat at least that much, or heat it elsewhere.");
  recipe.mash.sparges[1].water = Volume::litres(3.0);
  EXPECT_TRUE(told(make(recipe, kit), "element-exposed").empty()) << "just covered";
  recipe.mash.sparges = {{Volume::litres(3.0), kit.liquor.cold}};
  EXPECT_TRUE(told(make(recipe, kit), "element-exposed").empty()) << "given cold";
  recipe.mash.sparges = {{Volume::litres(3.0), Temperature::celsius(75.0)}};
  kit.still.boiler.heat = BoilerHeat::flame;
  kit.still.boiler.element_covered_above = {};
  EXPECT_TRUE(told(make(recipe, kit), "element-exposed").empty()) << "no element";
}

TEST(Findings, of_an_element_that_the_kit_says_nothing_of_stand_wherever_it_is_heated) {
  Recipe recipe = tern::recipe_8();
  Kit kit = tern::kit_8();
  kit.still.boiler.element_covered_above = {};
  const auto stages = [&] {
    std::string all;
    for (const Told& one : told(make(recipe, kit), "element-cover-unknown")) {
      EXPECT_EQ(one.weight, Weight::caution);
      all += one.stage + ";";
    }
    return all;
  };
  EXPECT_EQ(stages(), "Mash;Strip;Spirit run;");
  EXPECT_EQ(told(make(recipe, kit), "element-cover-unknown")[0].says,
            "33.0 L of sparge water is heated in the still's boiler; the kit does not say how "
            "much the element needs over it, so nothing can warn before it is bare and burns "
            "dry.");
  recipe.mash.sparges = {{Volume::litres(46.0), Temperature::celsius(75.0)}};
  EXPECT_EQ(stages(), "Strip;Spirit run;") << "the boiler does not hold it";
  kit.still.boiler.heat = BoilerHeat::plate;
  EXPECT_EQ(stages(), "");
}

}  // namespace
}  // namespace lynearm::plan
