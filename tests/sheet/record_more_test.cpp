// What else may be told of a batch and has to stand in its record: of stages not begun, of a
// ferment without its pitch, of strips beside their figures; clocks that were put back; and
// runs that a sensor logged by the second. The journal here is invented.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>

#include "sheet/record_book.hpp"
#include "sheet/record_pictures.hpp"
#include "sheet/record_thin.hpp"
#include "sheet/well_formed.hpp"

namespace lynearm::sheet {
namespace {

using journal::Stage;
using units::Temperature;
using units::Volume;

constexpr double day = 24 * 60;

// By a clock that is put on or back.
std::string printed_by(const journal::Book& book, int minutes_east,
                       std::vector<ClockTurn> turns) {
  const journal::HouseState house = journal::fold(book.entries);
  Recorded recorded{
      planned().recipe, planned().kit, planned().plan, house, house.batches.at(*book.batch),
      book.entries};
  recorded.minutes_east = minutes_east;
  recorded.turns = std::move(turns);
  return record_sheet(recorded, Paper::a4);
}

std::string section_aloud(const std::string& html, const std::string& name) {
  return read_aloud("<body>" + section(html, name));
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos;
       at = text.find(part, at + 1)) {
    ++found;
  }
  return found;
}

journal::Book begun() {
  journal::Book book;
  book.tell(0, journal::BatchBegun{"Tern 8", "", true});
  return book;
}

journal::Id run_in(journal::Book& book, journal::RunKind kind, double at) {
  journal::RunBegun run;
  run.kind = kind;
  run.charge = journal::litres_at_20C(29.9);
  run.strength = journal::percent_at_20C(27.3);
  return book.tell(at, run, kind == journal::RunKind::strip ? Stage::strip : Stage::spirit_run);
}

TEST(RecordMore, WhatWasToldOfAStageNotBegunStands) {
  journal::Book book = begun();
  const std::vector<std::pair<Stage, std::string>> stages = {{Stage::kit, "Kit"},
                                                             {Stage::mash_bill, "Mash"},
                                                             {Stage::ferment, "Ferment"},
                                                             {Stage::strip, "Strip"},
                                                             {Stage::spirit_run, "Spirit run"},
                                                             {Stage::jars, "Jars"},
                                                             {Stage::reduce, "Reduce"},
                                                             {Stage::wood, "Wood"},
                                                             {Stage::bottle, "Bottle"}};
  double at = 10;
  for (const auto& [stage, name] : stages) {
    book.tell(at++, journal::Note{"a word on " + name, {}}, stage);
    book.tell(at++, journal::Added{"a thing for " + name, units::Mass::grams(3), {}}, stage);
  }
  book.tell(at++, journal::CopperCleaned{"spirit still", "citric acid", "twice"}, Stage::kit);
  for (const bool closed : {false, true}) {
    if (closed) book.tell(at++, journal::BatchClosed{});
    const std::string html = printed(book);
    EXPECT_EQ(fault_of_xml(html), "");
    const std::string text = read_aloud(html);
    for (const auto& [stage, name] : stages) {
      EXPECT_EQ(count(text, "a word on " + name), 1U) << name << (closed ? ", closed" : "");
      EXPECT_EQ(count(text, "a thing for " + name), 1U) << name << (closed ? ", closed" : "");
      if (closed) {
        EXPECT_TRUE(has(section(html, name), "a word on " + name)) << name;
      }
    }
    EXPECT_TRUE(has(text, "Copper cleaned: spirit still, with citric acid; twice"));
  }
}

TEST(RecordMore, ABatchWrittenUpLaterIsBegunWithTheFirstThatWasDone) {
  journal::Book book = begun();
  const std::string that_day = read_aloud(printed(book));
  const std::size_t at = that_day.find("Begun");
  ASSERT_NE(at, std::string::npos);
  book.tell(-7 * 24 * 60, journal::Note{"the malt came", {}}, Stage::mash_bill);
  const std::string text = read_aloud(printed(book));
  EXPECT_NE(text.substr(text.find("Begun"), 24), that_day.substr(at, 24));
}

TEST(RecordMore, AFermentWhosePitchNobodyToldIsToldAllTheSame) {
  journal::Book book = begun();
  book.tell(day,
            journal::FermentRead{journal::gravity_at_20C(1.0213), Temperature::celsius(25.5)},
            Stage::ferment);
  book.tell(6 * day, journal::Racked{journal::litres_at_20C(97.3), {}}, Stage::ferment);
  const std::string html = printed(book);
  const std::string text = section_aloud(html, "Ferment");
  EXPECT_TRUE(has(text, "1.0213")) << text;
  EXPECT_TRUE(has(text, "97.3 L")) << text;
  EXPECT_TRUE(has(section(html, "Ferment"), "class=\"blank\"") ||
              has(section(html, "Ferment"), "></td>"))
      << "the pitch may still be told";
}

TEST(RecordMore, ACorrectionOfTheTimeAloneTellsBothTimes) {
  journal::Book book = begun();
  const journal::Id read =
      book.tell(60, journal::MashTemperature{Temperature::celsius(65.3)}, Stage::mash);
  book.correct(read, 80, 75, journal::MashTemperature{Temperature::celsius(65.3)});
  const std::string text = section_aloud(printed(book), "Corrected");
  EXPECT_TRUE(has(text, "65.3 °C (26 Nov 07:00, Wren)")) << text;
  EXPECT_TRUE(has(text, "65.3 °C (26 Nov 07:15)")) << text;
}

TEST(RecordMore, TheEndOfTheRestIsNoReadingOfItsMiddleNorOfTheWort) {
  const auto rest_of = [](std::vector<std::pair<double, double>> read) {
    journal::Book book = begun();
    book.tell(60, journal::StepMarked{"Stir in the malts at 68.8 °C", true}, Stage::mash);
    for (const auto& [at, celsius] : read) {
      book.tell(at, journal::MashTemperature{Temperature::celsius(celsius)}, Stage::mash);
    }
    return row_of(printed(book), "End of the rest");
  };
  const auto said = [](const std::vector<std::string>& cells, const std::string& figure) {
    return std::any_of(cells.begin(), cells.end(),
                       [&](const std::string& cell) { return has(cell, figure); });
  };
  // A rest of 90 min from minute 60 on.
  ASSERT_EQ(planned().recipe.mash.rest_time.minutes(), 90.0);
  EXPECT_FALSE(said(rest_of({{65, 65.4}, {85, 64.9}}), "64.9"));
  EXPECT_TRUE(said(rest_of({{65, 65.4}, {140, 64.2}}), "64.2"));
  EXPECT_TRUE(said(rest_of({{65, 65.4}, {140, 64.2}, {300, 31.5}}), "64.2"));
}

TEST(RecordMore, AReadingWithoutTemperatureHasNoTrueStrengthAndATellerWithoutNameIsSaid) {
  journal::Book book = begun();
  journal::RunBegun begun_run;
  begun_run.kind = journal::RunKind::spirit;
  begun_run.charge = journal::litres_at_20C(29.9);
  begun_run.strength = journal::percent_at_20C(27.3);
  const journal::Id run = book.tell(100, begun_run, Stage::spirit_run);
  still::Reading reading;
  reading.spout = spirit::Reading{47.2, spirit::Scale::percent_vol};
  book.tell(160, journal::RunRead{run, reading}, Stage::spirit_run);
  const std::string text = section_aloud(printed(book), "Spirit run");
  EXPECT_TRUE(has(text, "47.2")) << "as it was read it is told";
  EXPECT_EQ(text.find("47.2"), text.rfind("47.2")) << "and not as true besides: " << text;
  EXPECT_FALSE(has(text, "Read by ."));
}

TEST(RecordMore, ACorrectionByLessThanAMinuteTellsTheSeconds) {
  journal::Book book = begun();
  const journal::Id read =
      book.tell(60, journal::MashTemperature{Temperature::celsius(65.3)}, Stage::mash);
  book.correct(read, 80, 60.5, journal::MashTemperature{Temperature::celsius(65.3)});
  const std::string text = section_aloud(printed(book), "Corrected");
  EXPECT_TRUE(has(text, "65.3 °C (26 Nov 07:00:00, Wren)")) << text;
  EXPECT_TRUE(has(text, "65.3 °C (26 Nov 07:00:30)")) << text;
}

TEST(RecordMore, AJarsFaultThatWasCorrectedIsTold) {
  journal::Book book = begun();
  const journal::Id run = run_in(book, journal::RunKind::spirit, day);
  const journal::Id note =
      book.tell(2 * day, journal::JarNoted{run, 1, {"pear"}, "", 2.0}, Stage::jars);
  book.correct(note, 2 * day + 9, 2 * day, journal::JarNoted{run, 1, {"pear"}, "", 7.0});
  const std::string text = section_aloud(printed(book), "Corrected");
  EXPECT_TRUE(has(text, "jar 1, pear, fault 2")) << text;
  EXPECT_TRUE(has(text, "jar 1, pear, fault 7")) << text;
}

TEST(RecordMore, WhatAStripHasBesideItsFiguresStandsBelowThem) {
  journal::Book book = begun();
  const journal::Id run = run_in(book, journal::RunKind::strip, day);
  const auto tell = [&](double at, const auto& set) {
    still::Reading reading;
    set(reading);
    return book.tell(day + at, journal::RunRead{run, reading}, Stage::strip);
  };
  tell(20, [](auto& r) { r.note = "first drop, sulphury"; });
  tell(25, [](auto& r) { r.power = units::Power::kilowatts(1.4); });
  tell(30, [](auto& r) { r.pot_temperature = Temperature::celsius(93.4); });
  const journal::Id head =
      tell(31, [](auto& r) { r.head_temperature = Temperature::celsius(91.0); });
  still::Reading mended;
  mended.head_temperature = Temperature::celsius(92.2);
  book.correct(head, day + 33, day + 31, journal::RunRead{run, mended});
  tell(40, [](auto& r) { r.event = still::Event::stopped; });
  const std::string html = printed(book);
  EXPECT_EQ(fault_of_xml(html), "");
  const std::string text = section_aloud(html, "Strip");
  for (const char* part : {"06:20 first drop, sulphury", "06:25 heat 1.40 kW", "93.4", "92.2",
                           "06:31 corrected", "06:40 heat off"}) {
    EXPECT_TRUE(has(text, part)) << part << "\n" << text;
  }
}

// Six hours by the second: the head each second, the spout by hand each twenty minutes.
journal::Book by_the_second() {
  constexpr int seconds = 6 * 3600;
  journal::Book book = begun();
  const journal::Id run = run_in(book, journal::RunKind::spirit, day);
  for (int s = 1; s <= seconds; ++s) {
    still::Reading reading;
    reading.head_temperature = Temperature::celsius(80.0 + 15.0 * s / seconds);
    if (s % 1200 == 0) {
      reading.spout = spirit::Reading{80.0 - s / 1000.0, spirit::Scale::percent_vol};
      reading.collected = Volume::litres(s / 4000.0);
    }
    if (s == 7777) reading.note = "a cork blew";
    book.tell(day + s / 60.0, journal::RunRead{run, reading}, Stage::spirit_run);
  }
  return book;
}

TEST(RecordMore, ARunLoggedByTheSecondIsThinnedAndThePageSaysSo) {
  const journal::Book book = by_the_second();
  const std::string html = printed(book);
  const std::string part = section(html, "Spirit run");
  EXPECT_LT(count(part, "<tr"), 300U);
  EXPECT_LT(count(part, "<circle") + count(part, "<path"), 600U);
  const std::string text = section_aloud(html, "Spirit run");
  EXPECT_TRUE(has(text, "Of 21600 readings one in 3 min of each figure stands here")) << text;
  EXPECT_TRUE(has(text, "a cork blew"));
  for (int s = 1200; s <= 21600; s += 1200) {
    EXPECT_TRUE(has(text, fmt::format("{:.1f}", 80.0 - s / 1000.0))) << "read by hand at " << s;
  }
}

TEST(RecordMore, FewReadingsAllStand) {
  std::vector<Glance> all(most_whole, Glance{{}, 1U, false});
  EXPECT_EQ(thinned(all).kept.size(), most_whole);
  EXPECT_EQ(thin_words(thinned(all)), "");
  for (std::size_t i = 0; i < 100; ++i) all.push_back({units::Duration::minutes(1), 2U, false});
  const Thinned thin = thinned(all);
  EXPECT_EQ(thin.kept.front(), 0U) << "the first of each figure";
  EXPECT_EQ(thin.kept.back(), all.size() - 1) << "the last reading";
}

TEST(RecordMore, WhatHadComeLiesBetweenItsNeighbours) {
  journal::RunState run;
  const auto put = [&](double minutes, std::optional<double> litres) {
    journal::RunPoint point;
    point.reading.at = units::Duration::minutes(minutes);
    if (litres) point.reading.collected = Volume::litres(*litres);
    run.readings.push_back(point);
  };
  put(0, {});
  put(10, 1.0);
  put(15, {});
  put(30, 3.0);
  put(40, {});
  const auto come = collected_over(run);
  EXPECT_FALSE(come[0]);
  EXPECT_DOUBLE_EQ(come[1]->litres(), 1.0);
  EXPECT_NEAR(come[2]->litres(), 1.5, 1e-12);
  EXPECT_DOUBLE_EQ(come[3]->litres(), 3.0);
  EXPECT_FALSE(come[4]);
}

TEST(RecordMore, ARunOfWhichThePlanHasNoCourseIsToldWithoutIt) {
  journal::Book book = begun();
  const journal::Id run = run_in(book, journal::RunKind::spirit, day);
  still::Reading reading;
  reading.spout = spirit::Reading{77.7, spirit::Scale::percent_vol};
  reading.collected = Volume::litres(1.23);
  book.tell(day + 60, journal::RunRead{run, reading}, Stage::spirit_run);
  book.tell(day + 400, journal::BatchClosed{});  // what is ahead has its courses by the plan
  plan::Plan without = planned().plan;
  without.spirit.one.run.points.clear();
  const journal::HouseState house = journal::fold(book.entries);
  const std::string html = record_sheet({planned().recipe, planned().kit, without, house,
                                         house.batches.at(*book.batch), book.entries},
                                        Paper::a4);
  EXPECT_TRUE(has(section_aloud(html, "Spirit run"), "77.7"));
}

TEST(RecordMore, TheClockIsThatOfEachMoment) {
  journal::Book book = begun();  // 26 November 2026, 06:00 UTC
  book.tell(60, journal::Note{"before", {}}, Stage::mash);
  book.tell(2 * day, journal::Note{"after", {}}, Stage::mash);
  const journal::Moment turn = journal::minute(day + 19 * 60);  // 28 November, 01:00 UTC
  const std::string text = read_aloud(printed_by(book, 120, {{turn, 60}}));
  EXPECT_TRUE(has(text, "26 Nov 09:00, Wren:  before")) << text;
  EXPECT_TRUE(has(text, "28 Nov 07:00, Wren:  after")) << text;
  EXPECT_TRUE(has(text, "UTC + 2:00; from 28 Nov 02:00 on UTC + 1:00")) << text;
}

}  // namespace
}  // namespace lynearm::sheet
