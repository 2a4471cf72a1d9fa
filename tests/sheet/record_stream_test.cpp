// The stream of a record: measured as far as the journal goes, planned from there on, and at
// every step of a batch as much leaves it as came in. The journal here is invented.
#include "sheet/record_stream.hpp"

#include <gtest/gtest.h>

#include <string>

#include "journal/standing.hpp"
#include "sheet/cask_book.hpp"

namespace lynearm::sheet {
namespace {

class RecordedStream : public RecordedLots {
 protected:
  // As drawn, with no label over another.
  RecordStream stream() {
    const journal::HouseState house = journal::fold(book.entries);
    const journal::BatchState& batch = house.batches.at(*book.batch);
    const Recorded recorded{planned().recipe, planned().kit, planned().plan, house, batch,
                            book.entries};
    const Record record{recorded,
                        {recorded.recipe, recorded.kit, recorded.plan, nullptr},
                        batch,
                        units::System::metric,
                        journal::standings(book.entries)};
    const std::optional<Drawing> drawing = record_stream_picture(record);
    EXPECT_TRUE(drawing.has_value());
    return record_stream(record);
  }
  static double sum(const RecordStream& of, Course course) {
    double litres = 0.0;
    for (const Flow& flow : of.flows) {
      if (flow.course == course) litres += flow.amount.litres();
    }
    return litres;
  }
  static double find(const RecordStream& of, const std::string& stage, const std::string& name,
                     bool planned) {
    for (const Flow& flow : of.flows) {
      if (flow.stage == stage && flow.name == name && flow.planned == planned) {
        return flow.amount.litres();
      }
    }
    return 0.0;
  }
  static bool measured_before(const RecordStream& of, const std::string& stage) {
    for (const StageMark& mark : of.stages) {
      if (mark.stage == stage) return mark.measured;
    }
    ADD_FAILURE() << "no mark of " << stage;
    return false;
  }
  // Each flow so small that it is not drawn may be missing.
  static void expect_closed(const RecordStream& of) {
    EXPECT_NEAR(sum(of, Course::in),
                sum(of, Course::lost) + sum(of, Course::kept) + sum(of, Course::out), 0.005);
  }
};

TEST_F(RecordedStream, WithoutAReadingItIsThePlanAndClosesLikeIt) {
  book.entries.clear();
  book.tell(0, journal::BatchBegun{"Tern 8", "", true});
  const RecordStream of = stream();
  for (const Flow& flow : of.flows) EXPECT_TRUE(flow.planned) << flow.name;
  double bottled = 0.0;
  for (const plan::LedgerEntry& entry : planned().plan.ledger.entries) {
    if (entry.name == "in bottles") bottled = entry.pure_alcohol.litres();
  }
  ASSERT_GT(bottled, 0.0);
  EXPECT_NEAR(find(of, "Bottle", "in bottles", true), bottled, 0.005);
  expect_closed(of);
}

TEST_F(RecordedStream, AsMuchLeavesAsCameInAtEveryStepOfABatch) {
  expect_closed(stream());
  reduce();
  expect_closed(stream());
  mature();
  expect_closed(stream());
  bottle();
  expect_closed(stream());
  book.tell(300 * a_day, journal::BatchClosed{});
  const RecordStream closed = stream();
  expect_closed(closed);
  EXPECT_EQ(find(closed, "Bottle", "in bottles", true), 0.0) << "nothing more will come";
}

TEST_F(RecordedStream, WhatIsMeasuredIsToldAsMeasured) {
  reduce();
  mature();
  bottle();
  const RecordStream of = stream();
  EXPECT_TRUE(measured_before(of, "Strip")) << "the wash has its gravities";
  EXPECT_FALSE(measured_before(of, "Ferment")) << "sugar is no alcohol";
  EXPECT_FALSE(measured_before(of, "Spirit run")) << "one strip of the two is not told yet";
  // Seven bottles of half a litre at 59.0 %vol; the 0.1 L besides stayed in filter and vessels.
  EXPECT_NEAR(find(of, "Bottle", "in bottles", false), 7 * 0.5 * 0.59, 0.002);
  EXPECT_GE(find(of, "Bottle", "unaccounted for", false), 0.1 * 0.59 - 0.002);
}

}  // namespace
}  // namespace lynearm::sheet
