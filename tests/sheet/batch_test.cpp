// The batch sheet: nothing of the plan is missing, no caution is missing, the page is whole.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <string>

#include "places.hpp"
#include "plan/figures.hpp"
#include "plan/tern.hpp"
#include "sheet/batch_cautions.hpp"
#include "sheet/batch_pictures.hpp"
#include "sheet/batch_sheet.hpp"
#include "sheet/drawings.hpp"
#include "sheet/well_formed.hpp"
#include "spirit/account.hpp"

namespace lynearm::sheet {
namespace {

using units::System;

// A batch in all its parts.
struct Made {
  plan::Recipe recipe;
  plan::Kit kit;
  plan::Plan plan;

  Made(plan::Recipe of, plan::Kit with)
      : recipe(std::move(of)), kit(std::move(with)), plan(plan::make(recipe, kit)) {}

  [[nodiscard]] std::string sheet(System system = System::metric, Paper paper = Paper::a4,
                                  const plan::Bands* bands = nullptr) const {
    return batch_sheet(recipe, kit, plan, bands, system, paper);
  }
};

const Made& tern_8() {
  static const Made made(plan::tern::recipe_8(), plan::tern::kit_8());
  return made;
}

const plan::Bands& bands_8() {
  static const plan::Bands bands = plan::bands(tern_8().recipe, tern_8().kit, tern_8().plan, 40,
                                               1, numeric::one_after_another());
  return bands;
}

plan::Recipe of_sugar_alone() {
  plan::Recipe recipe = plan::tern::recipe_8();
  recipe.name = "Sugar alone";
  recipe.bill = {{"sugar", units::Mass::kilograms(14.0), plan::Use::boil, {}, {}}};
  recipe.mash = {};
  recipe.sugar_boil->water = units::Volume::litres(20.0);
  recipe.ferment.fill_to = units::Volume::litres(90.0);
  recipe.wood.reset();
  recipe.prices = {};
  return recipe;
}

plan::Recipe of_malt_alone() {
  plan::Recipe recipe = plan::tern::recipe_8();
  recipe.name = "Malt alone, no cook";
  recipe.bill = {
      {"barley-malt-distillers", units::Mass::kilograms(14.0), plan::Use::dough_in, {}, {}}};
  recipe.mash.cook.reset();
  recipe.mash.water = units::Volume::litres(45.0);
  recipe.sugar_boil.reset();
  recipe.ferment.fill_to.reset();
  recipe.wood->in = std::string("little cask");
  return recipe;
}

plan::Recipe on_the_grain() {
  plan::Recipe recipe = of_malt_alone();
  recipe.name = "On the grain";
  recipe.mash.on_the_grain = true;
  recipe.mash.sparges.clear();
  recipe.ferment.fill_to = units::Volume::litres(70.0);
  return recipe;
}

// The text of a page as a reader meets it: entities and unbreakable spaces resolved, no tags.
std::string read_aloud(const std::string& html) {
  std::string text;
  bool tag = false;
  for (const char c : html) {
    if (c == '<') tag = true;
    if (!tag) text += c;
    if (c == '>') {
      tag = false;
      text += ' ';
    }
  }
  const std::array<std::pair<std::string_view, std::string_view>, 3> marks{
      {{"\u00a0", " "}, {"&#39;", "'"}, {"&quot;", "\""}}};
  for (const auto& mark : marks) {
    for (std::size_t at = 0; (at = text.find(mark.first, at)) != std::string::npos;) {
      text.replace(at, mark.first.size(), mark.second);
    }
  }
  return text;
}

void expect_whole(const std::string& html) {
  EXPECT_EQ(fault_of_xml(html), "");
  const std::string text = read_aloud(html);
  for (const char* bad : {" nan", "-nan", " inf ", "-inf", ">nan", "safe to drink"}) {
    EXPECT_EQ(text.find(bad), std::string::npos) << bad;
  }
}

void keep(const std::string& name, const std::string& html) {
  const auto folder = std::filesystem::path(LYNEARM_BUILD_DIR) / "sheets";
  std::filesystem::create_directories(folder);
  std::ofstream(folder / (name + ".html")) << html;
}

TEST(BatchSheet, is_well_formed_in_every_system_and_on_either_paper) {
  for (const System system : {System::metric, System::us, System::both}) {
    for (const Paper paper : {Paper::a4, Paper::letter}) {
      const std::string html = tern_8().sheet(system, paper, &bands_8());
      expect_whole(html);
      keep(fmt::format("batch_{}_{}", paper == Paper::a4 ? "a4" : "letter",
                       static_cast<int>(system)),
           html);
    }
  }
}

TEST(BatchSheet, shows_every_principal_figure_of_the_plan) {
  const std::string text = read_aloud(tern_8().sheet());
  for (const plan::Figure& figure : plan::figures()) {
    std::string wanted = units::fixed(figure.of(tern_8().plan), figure.decimals);
    if (!figure.unit.empty()) wanted += fmt::format(" {}", figure.unit);
    EXPECT_NE(text.find(wanted), std::string::npos) << figure.key << " " << wanted;
  }
}

TEST(BatchSheet, shows_the_bands_when_there_are_any) {
  const std::string with = read_aloud(tern_8().sheet(System::metric, Paper::a4, &bands_8()));
  for (const plan::Banded& banded : bands_8().figures) {
    const std::string wanted =
        fmt::format("{}\u2060–\u2060{}", units::fixed(banded.band.low, banded.figure->decimals),
                    units::fixed(banded.band.high, banded.figure->decimals));
    EXPECT_NE(with.find(wanted), std::string::npos) << banded.figure->key;
  }
  EXPECT_NE(with.find("four in five"), std::string::npos);
  EXPECT_EQ(read_aloud(tern_8().sheet()).find("four in five"), std::string::npos);
}

TEST(BatchSheet, holds_every_caution_at_its_step) {
  using namespace cautions;
  const std::string text = read_aloud(tern_8().sheet());
  for (const Caution& caution :
       {law, hot_porridge, syrup, carbon_dioxide, hot_pot, heat, outlet, vapour, fire,
        foreshots, blue_or_green, tasting, storage, charring}) {
    EXPECT_NE(text.find(caution.text), std::string::npos) << caution.word;
  }
  EXPECT_NE(text.find("Extraction is not age"), std::string::npos);
}

TEST(BatchSheet, goes_through_the_stages_in_their_order) {
  const std::string html = tern_8().sheet();
  std::size_t at = 0;
  for (const char* stage : {"Mash bill", "Mash", "Ferment", "Strip", "Spirit run", "Jars",
                            "Reduce", "Wood", "Bottle", "Ledger", "The days"}) {
    const std::size_t found = html.find(fmt::format("<h2>{}</h2>", stage));
    ASSERT_NE(found, std::string::npos) << stage;
    EXPECT_GT(found, at) << stage;
    at = found;
  }
}

TEST(BatchSheet, shows_every_step_finding_ledger_entry_and_cost) {
  const std::string text = read_aloud(tern_8().sheet());
  for (const plan::Step& step : tern_8().plan.timeline.steps) {
    EXPECT_NE(text.find(step.what), std::string::npos) << step.what;
  }
  for (const plan::Finding& finding : tern_8().plan.findings) {
    EXPECT_NE(text.find(finding.says), std::string::npos) << finding.code;
    EXPECT_NE(text.find(finding.remedy), std::string::npos) << finding.code;
  }
  for (const plan::LedgerEntry& entry : tern_8().plan.ledger.entries) {
    if (entry.pure_alcohol < units::Volume::millilitres(1.0)) continue;
    EXPECT_NE(text.find(entry.name), std::string::npos) << entry.name;
  }
  for (const plan::CostLine& cost : tern_8().plan.uses.costs) {
    EXPECT_NE(text.find(units::fixed(cost.amount, 2)), std::string::npos) << cost.what;
  }
}

TEST(BatchSheet, counts_the_ledger_in_proof_gallons_where_units_are_of_the_us) {
  EXPECT_EQ(tern_8().sheet().find("proof gallon"), std::string::npos);
  const std::string text = read_aloud(tern_8().sheet(System::us, Paper::letter));
  const auto in =
      spirit::PureAlcohol::litres(tern_8().plan.ledger.total(plan::Flow::in).litres());
  EXPECT_NE(text.find("in US proof gallons"), std::string::npos);
  EXPECT_NE(text.find(units::fixed(spirit::proof_gallons(in).gallons(), 2)), std::string::npos);
  EXPECT_NE(text.find("27 CFR 30.11"), std::string::npos);
}

TEST(BatchSheet, has_a_row_to_fill_in_for_each_strip_and_each_jar) {
  const std::string html = tern_8().sheet();
  const auto count = [&html](std::string_view what) {
    int n = 0;
    for (std::size_t at = 0; (at = html.find(what, at)) != std::string::npos; ++at) ++n;
    return n;
  };
  for (int i = 1; i <= tern_8().plan.strip.runs; ++i) {
    EXPECT_GE(count(fmt::format("<td class=\"left\">{}</td>", i)), 1) << i;
  }
  EXPECT_EQ(count("<td class=\"centre\">F</td>"), 1);
  EXPECT_GE(count("<td class=\"centre\">12</td>"), 1);
  EXPECT_EQ(count("<td class=\"centre\">25</td>"), 0);
}

TEST(BatchSheet, is_the_same_text_every_time) {
  EXPECT_EQ(tern_8().sheet(System::both, Paper::letter, &bands_8()),
            tern_8().sheet(System::both, Paper::letter, &bands_8()));
}

TEST(BatchSheet, does_without_the_parts_a_plan_does_not_have) {
  const Made sugar(of_sugar_alone(), plan::tern::kit_8());
  const Made malt(of_malt_alone(), plan::tern::kit_8());
  const Made grain(on_the_grain(), plan::tern::kit_8());
  for (const System system : {System::metric, System::us, System::both}) {
    for (const Made* made : {&sugar, &malt, &grain}) {
      SCOPED_TRACE(made->recipe.name);
      expect_whole(made->sheet(system));
    }
  }
  EXPECT_EQ(sugar.sheet().find("<h2>Mash</h2>"), std::string::npos);
  EXPECT_EQ(sugar.sheet().find("<h2>Wood</h2>"), std::string::npos);
  EXPECT_EQ(malt.sheet().find("Cook water"), std::string::npos);
  EXPECT_NE(grain.sheet().find("ferments on the grain"), std::string::npos);
  keep("batch_sugar", sugar.sheet());
  keep("batch_malt", malt.sheet());
  keep("batch_grain", grain.sheet());
}

TEST(BatchSheet, escapes_the_names_a_maker_gives) {
  plan::Recipe recipe = plan::tern::recipe_8();
  recipe.name = "</style><script>Tern & \"8\"";
  recipe.remark = "<b>bold</b>";
  const Made made(recipe, plan::tern::kit_8());
  const std::string html = made.sheet();
  EXPECT_EQ(fault_of_xml(html), "");
  EXPECT_EQ(html.find("<script"), std::string::npos);
  EXPECT_EQ(html.find("<b>"), std::string::npos);
}

TEST(BatchPictures, keep_their_labels_clear_of_each_other) {
  for (const System system : {System::metric, System::us}) {
    const plan::Plan& plan = tern_8().plan;
    expect_clear(mash_picture(*plan.mash.mash, system));
    expect_clear(ferment_picture(plan.ferment, system));
    expect_clear(strip_picture(plan.strip, system));
    expect_clear(spirit_picture(plan.spirit, system));
    expect_clear(stream_picture(plan.ledger, system));
  }
}

}  // namespace
}  // namespace lynearm::sheet
