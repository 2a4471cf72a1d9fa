// The record of a batch on paper: what the journal tells stands on it, what was struck out is
// told as struck, blanks stand only where nothing is told. The journal here is invented.
#include <gtest/gtest.h>

#include <string>

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
