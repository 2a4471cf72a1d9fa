// The contract of the journal, the same for every database behind it.
#include "store/journal.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <set>
#include <thread>

#include "base/error.hpp"
#include "store/engines.hpp"
#include "store/entries.hpp"
#include "store/trouble.hpp"

namespace lynearm::store {
namespace {

using test::batch_one;
using test::batch_two;
using test::mash_temperature;
using test::noon;
using test::note;
using test::readings;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

class JournalTest : public ::testing::TestWithParam<test::Maker> {
 protected:
  void SetUp() override {
    bench_ = GetParam().make();
    if (bench_ == nullptr) GTEST_SKIP() << "this machine has no " << GetParam().name;
    open();
  }
  void open() {
    journal_.reset();
    journal_ = std::make_unique<Journal>(bench_->open());
  }
  std::vector<Kept> keep(const std::vector<journal::Entry>& entries) {
    return journal_->keep(entries, noon);
  }

  std::unique_ptr<test::Bench> bench_;
  std::unique_ptr<Journal> journal_;
};

std::vector<base::Fault> faults_of(const std::function<void()>& call) {
  try {
    call();
  } catch (const base::InputError& error) {
    return error.faults();
  }
  return {};
}

TEST_P(JournalTest, WhatWasKeptIsThereAfterOpeningAgain) {
  const std::vector<journal::Entry> entries = {
      mash_temperature(1, 65.5), note(2, "Ωhm & \"quote\"\n"),
      test::correction(3, mash_temperature(1), 66.25), test::foreign(4)};
  const std::vector<Kept> kept = keep(entries);
  ASSERT_THAT(kept, SizeIs(4));
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_EQ(kept[i], (Kept{entries[i].id, static_cast<Sequence>(i + 1), true}));
  }
  open();
  const std::vector<Numbered> all = journal_->since(0);
  ASSERT_THAT(all, SizeIs(4));
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_EQ(all[i].sequence, static_cast<Sequence>(i + 1));
    EXPECT_EQ(all[i].entry.received, noon);
    EXPECT_TRUE(same(all[i].entry, entries[i])) << i;
  }
}

TEST_P(JournalTest, AnImportKeepsWhenEachEntryWasReceived) {
  journal::Entry entry = note(1, "from elsewhere");
  entry.received = {noon.milliseconds - 5000};
  static_cast<void>(journal_->keep(std::vector{entry}, std::nullopt));
  EXPECT_EQ(journal_->of_house().at(0).received.milliseconds, noon.milliseconds - 5000);
}

TEST_P(JournalTest, SendingAgainChangesNothing) {
  keep({mash_temperature(1), mash_temperature(2)});
  const auto again = journal_->keep(std::vector{mash_temperature(2), mash_temperature(3)},
                                    journal::Moment{noon.milliseconds + 9000});
  EXPECT_THAT(again,
              ElementsAre(Kept{test::id_of(2), 2, false}, Kept{test::id_of(3), 3, true}));
  EXPECT_EQ(journal_->since(1).at(0).entry.received, noon);  // of the first time
}

TEST_P(JournalTest, WhatWasReadBackCanBeSentAgain) {
  // Neither figure survives its units to the last bit; as text they do.
  journal::Entry water = mash_temperature(2, 72.3);
  water.body = journal::MashWater{units::Volume::litres(1.0 / 3.0),
                                  units::Temperature::celsius(200.0 / 3.0)};
  keep({mash_temperature(1, 72.3), water});
  const auto back = journal_->of_batch(batch_one);
  EXPECT_THAT(keep(back),
              ElementsAre(Kept{test::id_of(1), 1, false}, Kept{test::id_of(2), 2, false}));
}

TEST_P(JournalTest, AnIdTwiceInOneCallIsKeptOnce) {
  EXPECT_THAT(keep({mash_temperature(1), mash_temperature(1)}),
              ElementsAre(Kept{test::id_of(1), 1, true}, Kept{test::id_of(1), 1, false}));
  EXPECT_EQ(journal_->last(), 1);
}

TEST_P(JournalTest, AnIdThatTellsSomethingElseIsRefusedAndNothingOfItsCallKept) {
  keep({mash_temperature(1, 65.0)});
  const auto faults = faults_of([this] {
    keep({mash_temperature(2), mash_temperature(1, 66.0), mash_temperature(3),
          mash_temperature(3, 70.0)});
  });
  ASSERT_THAT(faults, SizeIs(2));
  EXPECT_EQ(faults[0].field, "entries[1].id");
  EXPECT_EQ(faults[0].value, print(test::id_of(1)));
  EXPECT_EQ(faults[1].field, "entries[3].id");
  EXPECT_EQ(journal_->last(), 1);
}

TEST_P(JournalTest, EveryColumnTellsSomethingElseButReceived) {
  const journal::Entry first = mash_temperature(1);
  keep({first});
  std::vector<journal::Entry> others(8, first);
  others[0].batch = batch_two;
  others[1].stage = journal::Stage::ferment;
  others[2].at.milliseconds += 1;
  others[3].clock_ahead_ms += 1;
  others[4].who = "another";
  others[5].corrects = test::id_of(77);
  others[6].typed = "";
  others[7].body = journal::Struck{"no"};
  for (std::size_t i = 0; i < others.size(); ++i) {
    EXPECT_THAT(faults_of([&] { keep({others[i]}); }), SizeIs(1)) << i;
  }
  journal::Entry later = first;
  later.received = {noon.milliseconds + 1};
  EXPECT_FALSE(keep({later}).at(0).now);
}

TEST_P(JournalTest, AFaultOfOneCallerTakesNoOtherWithIt) {
  keep({mash_temperature(1, 65.0)});
  constexpr std::size_t callers = 32;
  std::vector<std::promise<Outcome>> outcomes(callers);
  for (std::size_t i = 0; i < callers; ++i) {
    const auto entries = i % 4 == 0
                             ? std::vector{mash_temperature(100 + i), mash_temperature(1, 99.0)}
                             : std::vector{mash_temperature(100 + i)};
    journal_->keep_then(entries, noon, [&outcomes, i](Outcome outcome) {
      outcomes[i].set_value(std::move(outcome));
    });
  }
  std::set<Sequence> places;
  for (std::size_t i = 0; i < callers; ++i) {
    const Outcome outcome = outcomes[i].get_future().get();
    ASSERT_EQ(outcome.index(), i % 4 == 0 ? 1U : 0U) << i;
    if (i % 4 != 0) places.insert(std::get<0>(outcome).at(0).sequence);
  }
  // The places follow each other without a gap.
  EXPECT_THAT(places, SizeIs(callers * 3 / 4));
  EXPECT_EQ(*places.begin(), 2);
  EXPECT_EQ(*places.rbegin(), static_cast<Sequence>(callers * 3 / 4 + 1));
}

TEST_P(JournalTest, ANulIsRefusedBeforeTheDatabaseSeesIt) {
  journal::Entry entry = mash_temperature(1);
  entry.typed = std::string("6\0005", 3);
  const auto faults = faults_of([&] { keep({entry}); });
  ASSERT_THAT(faults, SizeIs(1));
  EXPECT_EQ(faults[0].field, "entries[0].typed");
}

TEST_P(JournalTest, ManyThreadsKeepAtOnceAndNothingIsLostOrDoubled) {
  constexpr std::size_t threads = 8, each = 40;
  std::vector<std::thread> keepers;
  std::atomic<std::size_t> now{0};
  for (std::size_t t = 0; t < threads; ++t) {
    keepers.emplace_back([this, t, &now] {
      for (std::size_t i = 0; i < each; ++i) {
        // Two threads each send every entry.
        const std::uint64_t number = 1000 + (t / 2) * each + i;
        if (keep({mash_temperature(number)}).at(0).now) ++now;
      }
    });
  }
  for (std::thread& keeper : keepers) keeper.join();
  EXPECT_EQ(now, threads / 2 * each);
  std::set<journal::Id> ids;
  Sequence expected = 1;
  journal_->each([&](const Numbered& one) {
    EXPECT_EQ(one.sequence, expected++);
    ids.insert(one.entry.id);
  });
  EXPECT_THAT(ids, SizeIs(threads / 2 * each));
}

TEST_P(JournalTest, BatchesAndTheHouseAreToldApart) {
  keep({note(1, "of the house"), mash_temperature(2, 65.0, batch_two), mash_temperature(3),
        mash_temperature(4, 66.0, batch_two)});
  EXPECT_THAT(journal_->batches(), ElementsAre(batch_two, batch_one));
  EXPECT_THAT(journal_->of_batch(batch_two), SizeIs(2));
  EXPECT_THAT(journal_->of_batch(batch_one), SizeIs(1));
  EXPECT_THAT(journal_->of_batch(test::id_of(5)), IsEmpty());
  ASSERT_THAT(journal_->of_house(), SizeIs(1));
  EXPECT_EQ(journal_->of_house()[0].id, test::id_of(1));
}

TEST_P(JournalTest, SinceGivesWhatCameAfterInPieces) {
  keep(readings(1, 25));
  EXPECT_EQ(journal_->last(), 25);
  EXPECT_THAT(journal_->since(25), IsEmpty());
  Sequence at = 5;
  std::size_t pieces = 0;
  for (auto piece = journal_->since(at, 8); !piece.empty(); piece = journal_->since(at, 8)) {
    EXPECT_EQ(piece.front().sequence, at + 1);
    at = piece.back().sequence;
    ++pieces;
  }
  EXPECT_EQ(at, 25);
  EXPECT_EQ(pieces, 3U);
}

TEST_P(JournalTest, AnEmptyJournalAnswers) {
  EXPECT_EQ(journal_->last(), 0);
  EXPECT_THAT(journal_->batches(), IsEmpty());
  EXPECT_THAT(journal_->since(0), IsEmpty());
  EXPECT_THAT(keep({}), IsEmpty());
}

TEST_P(JournalTest, AWatcherIsToldOnlyOfWhatCanBeRead) {
  std::promise<Sequence> seen;
  std::atomic<int> told{0};
  Watch watch = journal_->watch([&](Sequence last) {
    const bool readable = journal_->since(last - 1).size() == 1;
    if (told++ == 0) seen.set_value(readable ? last : -1);
  });
  keep({mash_temperature(1), mash_temperature(2)});
  EXPECT_EQ(seen.get_future().get(), 2);
  watch.stop();
  const int before = told;
  keep({mash_temperature(3)});
  open();
  EXPECT_EQ(told, before);
}

TEST_P(JournalTest, AReaderSeesOneViewWhileOthersKeep) {
  keep(readings(1, 50));
  std::size_t seen = 0;
  journal_->each([&](const Numbered&) {
    if (seen++ == 10) keep(readings(1000, 50));
  });
  EXPECT_EQ(seen, 50U);
  EXPECT_EQ(journal_->last(), 100);
}

TEST_P(JournalTest, TheDatabaseItselfRefusesToChangeOrTakeOut) {
  keep({mash_temperature(1), mash_temperature(2)});
  const std::string entry = bench_->table();
  EXPECT_THAT(bench_->run("UPDATE " + entry + " SET who = 'another'"), HasSubstr("never"));
  EXPECT_THAT(bench_->run("UPDATE " + entry + " SET received_ms = 1 WHERE sequence = 1"),
              HasSubstr("never"));
  EXPECT_THAT(bench_->run("DELETE FROM " + entry), HasSubstr("never"));
  EXPECT_THAT(bench_->run("DELETE FROM " + entry + " WHERE sequence = 2"), HasSubstr("never"));
  open();
  const auto all = journal_->since(0);
  ASSERT_THAT(all, SizeIs(2));
  EXPECT_TRUE(same(all[0].entry, mash_temperature(1)));
}

TEST_P(JournalTest, ACallOfAnySizeIsKeptWhole) {
  const auto entries = readings(1, 5000);
  EXPECT_THAT(keep(entries), SizeIs(5000));
  EXPECT_THAT(journal_->of_batch(batch_one), SizeIs(5000));
}

INSTANTIATE_TEST_SUITE_P(Databases, JournalTest,
                         ::testing::Values(test::sqlite_bench(), test::postgresql_bench()),
                         [](const auto& maker) { return maker.param.name; });

}  // namespace
}  // namespace lynearm::store
