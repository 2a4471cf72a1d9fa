// The record of a batch on paper: what the journal tells stands on it, what was struck out is
// told as struck, blanks stand only where nothing is told. The journal here is invented.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "ferment/yeast.hpp"
#include "journal/account.hpp"
#include "journal/questions.hpp"
#include "sheet/batch_sheet.hpp"
#include "sheet/record_book.hpp"
#include "sheet/well_formed.hpp"

namespace lynearm::sheet {
namespace {

using journal::Stage;
using units::Temperature;
using units::Volume;

constexpr double day = 24 * 60;

// A batch as far as its jars, with a slip that was struck out.
journal::Book told() {
  journal::Book book;
  book.tell(0, journal::BatchBegun{"Tern <8>", "a \"remark\" & more", true});
  book.tell(60, journal::StepMarked{"Stir in the malts at 68.8 °C", true}, Stage::mash);
  const journal::Id slip =
      book.tell(62, journal::MashTemperature{Temperature::celsius(56.1)}, Stage::mash);
  book.correct(slip, 63, 62, journal::Struck{"the wrong vessel"});
  book.tell(65, journal::MashTemperature{Temperature::celsius(65.3)}, Stage::mash);
  book.tell(70, journal::Note{"<script>alert('jar')</script> & \"so\"", {}}, Stage::mash);
  book.tell(200,
            journal::WortDrawn{"first runnings", journal::litres_at_20C(31.7),
                               journal::gravity_at_20C(1.1003)},
            Stage::mash);
  book.tell(400,
            journal::Pitched{journal::litres_at_20C(108.4), journal::gravity_at_20C(1.0567),
                             "distillers-dry", units::Mass::grams(55)},
            Stage::ferment);
  book.tell(400 + 6 * day,
            journal::FermentRead{journal::gravity_at_20C(0.9937), Temperature::celsius(25.5)},
            Stage::ferment);
  journal::RunBegun begun;
  begun.kind = journal::RunKind::spirit;
  begun.charge = journal::litres_at_20C(29.9);
  begun.strength = journal::percent_at_20C(27.3);
  const journal::Id run = book.tell(10 * day, begun, Stage::spirit_run);
  still::Reading reading;
  reading.spout = spirit::Reading{77.7, spirit::Scale::percent_vol};
  reading.spout_temperature = Temperature::celsius(20.0);
  reading.collected = Volume::litres(1.23);
  book.tell(10 * day + 60, journal::RunRead{run, reading}, Stage::spirit_run);
  book.tell(
      11 * day,
      journal::JarGauged{run, 1, journal::litres_at_20C(0.437), journal::percent_at_20C(76.4)},
      Stage::jars);
  book.tell(11 * day + 5, journal::JarNoted{run, 1, {"pear"}, "thin at the end", 2.0},
            Stage::jars);
  return book;
}

TEST(Record, TellsWhatWasMeasuredByWhomAndWhen) {
  const std::string html = printed(told());
  EXPECT_EQ(fault_of_xml(html), "");
  const std::string text = read_aloud(html);
  for (const char* figure : {"65.3 °C", "31.7 L", "1.1003", "108.4 L", "1.0567", "0.9937",
                             "29.9 L", "27.3 %vol", "77.7", "437 mL", "76.4 %vol",
                             "pear: thin at the end; fault 2", "Wren", "26 Nov 07:05"}) {
    EXPECT_NE(text.find(figure), std::string::npos) << figure;
  }
}

TEST(Record, AnEntryThatWasStruckOutIsToldAsStruck) {
  const std::string html = printed(told());
  const std::string part = read_aloud("<body>" + section(html, "Corrected"));
  EXPECT_NE(part.find("mash temperature: 56.1 °C"), std::string::npos) << part;
  EXPECT_NE(part.find("struck out: the wrong vessel"), std::string::npos) << part;
  EXPECT_EQ(section(html, "Mash<").find("56.1"), std::string::npos)
      << "what was struck out is no reading";
}

TEST(Record, WhatPeopleWroteIsText) {
  const std::string html = printed(told());
  EXPECT_EQ(html.find("<script"), std::string::npos);
  EXPECT_NE(html.find("&lt;script&gt;alert(&#39;jar&#39;)"), std::string::npos);
  EXPECT_NE(html.find("Tern &lt;8&gt;: the record"), std::string::npos);
}

TEST(Record, BlanksStandOnlyWhereNothingIsTold) {
  journal::Book book = told();
  const std::string open = printed(book);
  EXPECT_NE(section(open, "Bottle").find("class=\"blank\""), std::string::npos)
      << "not bottled yet: as the plan has it, to write on";
  EXPECT_EQ(section(open, "Ferment").find("class=\"blank\""), std::string::npos);
  const std::size_t row = open.find("Original gravity");
  ASSERT_NE(row, std::string::npos);
  EXPECT_EQ(open.substr(row, open.find("</tr>", row) - row).find("></td>"), std::string::npos)
      << "the gravity was read: no blank for it";

  book.tell(20 * day, journal::BatchClosed{});
  const std::string closed = printed(book);
  EXPECT_EQ(closed.find("class=\"blank\""), std::string::npos)
      << "nothing more will be told of a closed batch";
  EXPECT_EQ(fault_of_xml(closed), "");
}

TEST(Record, TimesAreToldByTheClockAskedFor) {
  const journal::Book book = told();
  const journal::HouseState house = journal::fold(book.entries);
  Recorded recorded{
      planned().recipe, planned().kit, planned().plan, house, house.batches.at(*book.batch),
      book.entries};
  recorded.minutes_east = 60;
  EXPECT_NE(read_aloud(record_sheet(recorded, Paper::letter)).find("26 Nov 08:05"),
            std::string::npos);
}

// The stream stood there: too tall for what was left of the first page, it left a third empty.
TEST(Record, OnTheFirstPageATableFollowsThatMayBreakAndNoTallPicture) {
  journal::Book book = told();
  for (int i = 0; i < 20; ++i) {
    book.tell(210 + i, journal::StepMarked{"a step " + std::to_string(i), true}, Stage::mash);
  }
  const std::string html = printed(book);
  const std::size_t figures = html.find("Planned and measured");
  const std::size_t picture = html.find("<figure", figures);
  const std::size_t breaks = html.find("<div class=\"long\">", figures);
  ASSERT_NE(figures, std::string::npos);
  ASSERT_NE(breaks, std::string::npos);
  EXPECT_LT(breaks, picture);
  EXPECT_NE(section(html, "The stream of its alcohol").find("<figure"), std::string::npos);
}

double figure_in(const std::string& cell) {
  std::string plain = cell;
  if (const auto at = plain.find("−"); at != std::string::npos) {
    plain.replace(at, std::string("−").size(), "-");
  }
  return std::stod(plain);
}

// Differences were reckoned of the digits behind: 52.0 and 50.4 were shown to differ by 1.7.
TEST(Record, WhatPartsTwoPrintedFiguresIsTheDifferenceOfThose) {
  bool below = false;
  for (int i = 0; i < 40; ++i) {
    journal::Book book;
    book.tell(0, journal::BatchBegun{"Tern 8", "", true});
    book.tell(400,
              journal::Pitched{journal::litres_at_20C(99.0 + 0.37 * i),
                               journal::gravity_at_20C(1.0501 + 0.00037 * i), "distillers-dry",
                               units::Mass::grams(55)},
              Stage::ferment);
    const std::string html = printed(book);
    for (const char* name : {"Wort in the fermenter", "Original gravity"}) {
      const std::vector<std::string> row = row_of(html, name);
      ASSERT_EQ(row.size(), 4U);
      EXPECT_NEAR(figure_in(row[1]) + figure_in(row[3]), figure_in(row[2]), 1e-9)
          << row[1] << " " << row[2] << " " << row[3];
      below = below || row[3].starts_with("−");
      EXPECT_FALSE(row[3].starts_with("-")) << "a hyphen is no minus sign";
    }
  }
  EXPECT_TRUE(below);
}

TEST(Record, TheLedgersStepsAddUpAsPrinted) {
  for (int i = 0; i < 20; ++i) {
    journal::Book book = told();
    const journal::Id run = book.entries[9].id;
    ASSERT_TRUE(std::holds_alternative<journal::RunBegun>(book.entries[9].body));
    book.tell(11 * day + 9,
              journal::JarGauged{run, 2, journal::litres_at_20C(9.0 + 0.0413 * i),
                                 journal::percent_at_20C(61.3)},
              Stage::jars);
    book.tell(
        11 * day + 10,
        journal::RunEnded{run, {}, {}, Volume::litres(18.3), journal::percent_at_20C(5.17)},
        Stage::spirit_run);
    const std::string html = printed(book);
    const std::vector<std::string> row = row_of(html, "spirit run", "Step by step as measured");
    ASSERT_EQ(row.size(), 6U);
    EXPECT_NEAR(figure_in(row[1]) - figure_in(row[2]) - figure_in(row[3]), figure_in(row[4]),
                1e-9)
        << row[1] << " | " << row[2] << " | " << row[3] << " | " << row[4];
    // And what they miss together is what the house says: no row rounds by more than 2 mL.
    const journal::HouseState house = journal::fold(book.entries);
    double missed_L = 0.0;
    for (const auto& step : journal::account(house, house.batches.at(*book.batch)).steps) {
      missed_L += step.unaccounted.value.litres();
    }
    const std::string all = read_aloud(html);
    const std::string before = "Over these steps together ";
    EXPECT_NEAR(figure_in(all.substr(all.find(before) + before.size())), missed_L, 2.1e-3);
  }
}

TEST(Record, WhatCameOverIsToldByTheJarsOrTheLastReadingWhereNobodyReadTheWhole) {
  journal::Book book = told();
  const journal::Id run = book.entries[9].id;
  EXPECT_EQ(row_of(printed(book), "Came over in all").at(2), "1.23 L, last read; not ended");
  const journal::Id end =
      book.tell(11 * day + 30, journal::RunEnded{run, {}, {}, {}, {}}, Stage::spirit_run);
  EXPECT_EQ(row_of(printed(book), "Came over in all").at(2),
            "437 mL at 76.4 %vol, by its jars");
  book.tell(11 * day + 20, journal::JarFilled{run, 2, {}}, Stage::spirit_run);
  EXPECT_EQ(row_of(printed(book), "Came over in all").at(2), "1.23 L, last read");
  book.correct(
      end, 11 * day + 31, 11 * day + 30,
      journal::RunEnded{run, journal::litres_at_20C(8.4), journal::percent_at_20C(61), {}, {}});
  EXPECT_EQ(row_of(printed(book), "Came over in all").at(2), "8.40 L at 61.0 %vol");
}

std::string followed_by(const journal::Book& book, std::optional<Followed> followed) {
  const journal::HouseState house = journal::fold(book.entries);
  Recorded recorded{
      planned().recipe, planned().kit, planned().plan, house, house.batches.at(*book.batch),
      book.entries};
  recorded.followed = std::move(followed);
  return record_sheet(recorded, Paper::a4);
}

TEST(Record, ReadingsThatAreNotBelievedAreListedWithWhatWasExpected) {
  const journal::Book book = told();
  const journal::Id gravity = book.entries[8].id;
  const journal::Id spout = book.entries[10].id;
  ASSERT_TRUE(std::holds_alternative<journal::FermentRead>(book.entries[8].body));
  ASSERT_TRUE(std::holds_alternative<journal::RunRead>(book.entries[10].body));
  const auto sg = [](double ratio) { return units::SpecificGravity::ratio(ratio); };
  still::Doubt doubt;
  doubt.instrument = still::Instrument::hydrometer;
  doubt.shown = 77.7;
  doubt.low = 70.14;
  doubt.high = 72.26;
  const Followed followed{
      {{spout, doubt},
       {gravity, ferment::DoubtedGravity{0, {sg(0.9981), sg(0.9992), sg(1.0004)}}}},
      {"strip 1 (no charge is known)"},
      {}};
  const std::string html = followed_by(book, followed);
  EXPECT_EQ(fault_of_xml(html), "");
  const std::string part = section(html, "Kept, not believed");
  const std::string text = read_aloud("<body>" + part);
  EXPECT_LT(text.find("Ferment: gravity"), text.find("Spirit run: hydrometer"))
      << "in order of time";
  const std::vector<std::string> ferment = row_of(part, "Ferment: gravity");
  ASSERT_EQ(ferment.size(), 5U) << text;
  EXPECT_EQ(ferment[0], "2 Dec 12:40");
  EXPECT_EQ(ferment[2], "0.9937");
  EXPECT_EQ(ferment[3], "0.9981 to 1.0004");
  EXPECT_EQ(ferment[4], "Wren");
  const std::vector<std::string> run = row_of(part, "Spirit run: hydrometer");
  ASSERT_EQ(run.size(), 5U) << text;
  EXPECT_EQ(run[2], "77.7 %vol, true");
  EXPECT_EQ(run[3], "70.1 %vol to 72.3 %vol");
  EXPECT_NE(text.find("reckoned from the journal"), std::string::npos);
  EXPECT_NE(text.find("strip 1 (no charge is known)"), std::string::npos);
}

TEST(Record, AReadingThatIsNotBelievedIsMarkedWhereItIsListed) {
  const journal::Book book = told();
  const auto sg = [](double ratio) { return units::SpecificGravity::ratio(ratio); };
  still::Doubt doubt;
  doubt.instrument = still::Instrument::hydrometer;
  const Followed followed{
      {{book.entries[10].id, doubt},
       {book.entries[8].id, ferment::DoubtedGravity{0, {sg(0.9981), sg(0.9992), sg(1.0004)}}}},
      {},
      {}};
  const std::string html = followed_by(book, followed);
  const std::string ferment = read_aloud("<body>" + section(html, "Ferment"));
  EXPECT_EQ(row_of(section(html, "Ferment"), "Final gravity").at(2), "0.9937 (not believed)");
  EXPECT_NE(ferment.find("0.9937 (not believed)"), ferment.rfind("0.9937 (not believed)"))
      << "in the list of readings too: " << ferment;
  const std::string run = read_aloud("<body>" + section(html, "Spirit run"));
  EXPECT_NE(run.find("hydrometer not believed"), std::string::npos) << run;
  EXPECT_EQ(followed_by(told(), Followed{}).find("(not believed)"), std::string::npos);
}

TEST(Record, WhatSpokeAgainstTheBoilerStandsAtItsRun) {
  const journal::Book book = told();
  ASSERT_TRUE(std::holds_alternative<journal::RunRead>(book.entries[10].body));
  const journal::Id run = std::get<journal::RunRead>(book.entries[10].body).run;
  const std::string why = "The charge is 60.0 L, and the boiler holds 45.0 L to its brim.";
  const std::string html = followed_by(book, Followed{{}, {}, {{run, {why}}}});
  EXPECT_EQ(fault_of_xml(html), "");
  const std::string text = read_aloud("<body>" + section(html, "Spirit run"));
  EXPECT_NE(text.find("Against the boiler."), std::string::npos) << text;
  EXPECT_NE(text.find(why), std::string::npos) << text;
  EXPECT_EQ(followed_by(book, Followed{}).find("Against the boiler"), std::string::npos);
}

TEST(Record, TheYeastStandsByItsName) {
  const std::string html = printed(told());
  EXPECT_EQ(html.find("distillers-dry"), std::string::npos);
  const std::string text = read_aloud("<body>" + section(html, "Ferment"));
  EXPECT_NE(text.find(fmt::format("Yeast, {}", ferment::yeast("distillers-dry").name)),
            std::string::npos)
      << text;
  EXPECT_EQ(ferment::yeast_name("from the baker"), "from the baker");
}

TEST(Record, TheWoodStandsByItsName) {
  const std::string plan = batch_sheet(planned().recipe, planned().kit, planned().plan, nullptr,
                                       units::System::metric, Paper::a4);
  for (const std::string& html : {printed(told()), plan}) {
    EXPECT_EQ(html.find(planned().recipe.wood->species), std::string::npos);
    EXPECT_NE(html.find("American white oak"), std::string::npos);
  }
}

TEST(Record, AnAmountThatCannotBeStandsWithBothFigures) {
  journal::Book book = told();
  book.tell(8 * day, journal::Racked{journal::litres_at_20C(160), {}}, Stage::ferment);
  const std::string all = read_aloud(printed(book));
  EXPECT_NE(all.find("1 entry cannot be so, and stands in these figures"), std::string::npos);
  const std::size_t at = all.find("Told, and cannot be so");
  ASSERT_NE(at, std::string::npos);
  EXPECT_NE(all.find("The racking tells 160.0 L of clear wash; 108.", at), std::string::npos)
      << all.substr(at, 300);
  EXPECT_EQ(read_aloud(printed(told())).find("Told, and cannot be so"), std::string::npos);
}

TEST(Record, AnAmountThatWasUpheldStandsWithItsReasonAndIsAskedNoMore) {
  journal::Book book = told();
  const journal::Id racking =
      book.tell(8 * day, journal::Racked{journal::litres_at_20C(160), {}}, Stage::ferment);
  const auto asked = journal::questions(journal::fold(book.entries), book.batch,
                                        journal::glass_of(planned().kit.instruments));
  ASSERT_EQ(asked.size(), 1U);
  book.tell(9 * day, journal::Upheld{racking, asked.front().why, "Two rackings in one."});
  const std::string all = read_aloud(printed(book));
  EXPECT_EQ(all.find("cannot be so"), std::string::npos);
  EXPECT_NE(all.find("Upheld, as it was told: The racking tells 160.0 L"), std::string::npos);
  EXPECT_NE(all.find("Two rackings in one."), std::string::npos);
}

TEST(Record, WithoutDoubtsNothingIsSaidOfThem) {
  EXPECT_EQ(section(followed_by(told(), std::nullopt), "Kept, not believed"), "");
  EXPECT_EQ(section(followed_by(told(), Followed{}), "Kept, not believed"), "");
}

TEST(Record, ABatchThatIsOnlyPlannedHasNotBegun) {
  journal::Book book;
  book.tell(0, journal::BatchBegun{"Tern 9", "", true});
  book.tell(1, journal::Note{"not before spring", {}}, Stage::mash_bill);
  EXPECT_FALSE(has_begun(journal::fold(book.entries).batches.at(*book.batch)));
  const journal::Book begun = told();
  EXPECT_TRUE(has_begun(journal::fold(begun.entries).batches.at(*begun.batch)));
}

}  // namespace
}  // namespace lynearm::sheet
