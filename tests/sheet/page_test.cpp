// The page as a whole: one file that needs nothing else, well formed, with nothing unescaped.
#include "sheet/page.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "base/error.hpp"
#include "places.hpp"
#include "sheet/dress.hpp"
#include "sheet/examples.hpp"
#include "sheet/well_formed.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {
namespace {

Html example_body() {
  Html body = facts({{"Wash", "25.0 L at 8.9 %vol"},
                     {"Still", "pot, 30 L, 2.4 kW"},
                     {"Spirit", "4.2 L at 63.5 %vol"},
                     {"Lot", "Tern 8"},
                     {"Begun", "day 1, 09:00"},
                     {"Hands on", "6 h 40 min"}});
  body += caution("Fire",
                  "Spirit vapour burns with a flame hard to see. Keep flames and sparks "
                  "away from the outlet, and never leave a still that is heated.");
  body += heading("The stream of pure alcohol");
  body +=
      figure(draw(stream_of_a_batch()),
             "Litres of pure alcohol at 20 °C; widths to scale. White falls out and is lost, "
             "grey above is kept for another batch.");
  body += heading("Mash");
  body += table(PlannedTable{"Planned and measured",
                             {{"Strike water", "15.5", "L"},
                              {"Water at", "88.0", "°C", true, "before the maize goes in"},
                              {"Malt goes in at", "68.9", "°C"},
                              {"Gravity of the wort", "1.062", ""},
                              {"Rest", "90", "min", false}}});
  body += figure(draw(mash()), "Planned course of the mash.");
  body += checklist({"Weigh the grain and note each lot", "Test for starch with iodine",
                     "Scald the fermenter; the yeast goes in at 30 °C, not above"});
  body += heading("Spirit run");
  body +=
      figure(draw(spirit_run()), "Forecast; the shade around a line holds four runs in five.");
  Table jars{.caption = "Jars",
             .columns = {{"Jar", Align::centre, 8},
                         {"Planned, L", Align::right},
                         {"Planned, %vol", Align::right},
                         {"Measured, L", Align::right},
                         {"Measured, %vol", Align::right},
                         {"at °C", Align::right},
                         {"Nose", Align::left, 28}},
             .rows = {},
             .room_to_write = true};
  for (int i = 1; i <= 14; ++i) {
    jars.rows.push_back(
        {std::to_string(i), "0.30", units::fixed(80.0 - 2.5 * i, 1), "", "", "", ""});
  }
  body += table(jars);
  body += beside(
      kept_together(subheading("Reduction") +
                    table(PlannedTable{
                        "", {{"Water to add", "0.62", "L"}, {"Strength", "55.0", "%vol"}}})),
      kept_together(subheading("Notes") + lines_to_write("What was different", 4)));
  body += small_print("Figures are forecasts at 20 °C; a hydrometer read warm shows too much.");
  return body;
}

Page example_page(Paper paper) {
  return {.title = "Tern 8: batch sheet",
          .subtitle = "A bourbon-style mash of maize, rye and malt",
          .running_head = "Tern 8: batch sheet",
          .running_foot = "Lynearm",
          .paper = paper};
}

TEST(Page, is_well_formed_and_needs_nothing_from_outside) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const std::string text = page(example_page(paper), example_body());
    EXPECT_EQ(fault_of_xml(text), "");
    for (const char* outside : {"<script", "<link", "<img", "url(", "@import", "src="}) {
      EXPECT_EQ(text.find(outside), std::string::npos) << outside;
    }
    EXPECT_EQ(text.find("nan"), std::string::npos);
    EXPECT_NE(text.find(paper == Paper::a4 ? "size:A4 portrait" : "size:letter portrait"),
              std::string::npos);
    const auto folder = std::filesystem::path(LYNEARM_BUILD_DIR) / "sheets";
    std::filesystem::create_directories(folder);
    std::ofstream(folder / (paper == Paper::a4 ? "example_a4.html" : "example_letter.html"))
        << text;
  }
}

TEST(Page, escapes_what_users_type_everywhere) {
  const std::string evil = "</style><script>\"'&\\";
  const Html body = heading(evil) + subheading(evil) + paragraph(evil) + small_print(evil) +
                    caution(evil, evil) + checklist({evil}) + facts({{evil, evil}}) +
                    lines_to_write(evil, 1) +
                    table(PlannedTable{evil, {{evil, evil, evil, true, evil}}}) +
                    table(Table{evil, {{evil}}, {{evil}}});
  const std::string text = page({.title = evil,
                                 .subtitle = evil,
                                 .running_head = evil,
                                 .running_foot = evil,
                                 .language = evil},
                                body);
  EXPECT_EQ(text.find("<script"), std::string::npos);
  EXPECT_EQ(text.find("</style>"), text.rfind("</style>"));
  EXPECT_EQ(fault_of_xml(text), "");
}

TEST(Page, a_css_string_keeps_its_quotes_and_lines_to_itself) {
  EXPECT_EQ(css_string("a \"b\" \\ c"), R"("a \22 b\22  \5c  c")");
  EXPECT_EQ(css_string("a\nb<&>"), R"("a\a b\3c \26 \3e ")");
  EXPECT_EQ(css_string("20 °C"), "\"20 °C\"");
}

TEST(Table, a_row_with_too_few_cells_is_our_fault) {
  const Table bad{"", {{"a"}, {"b"}}, {{"1"}}};
  EXPECT_THROW((void)table(bad), base::BrokenInvariant);
}

TEST(Table, a_planned_figure_has_a_blank_beside_it_unless_it_is_not_measured) {
  const auto blanks = [](bool measured) {
    return table(PlannedTable{"", {{"Rest", "90", "min", measured}}})
               .text.find("class=\"line\"") != std::string::npos;
  };
  EXPECT_TRUE(blanks(true));
  EXPECT_FALSE(blanks(false));
}

}  // namespace
}  // namespace lynearm::sheet
