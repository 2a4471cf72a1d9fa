// A house that is told entry after entry and asked what it asks of one batch, for tests of the
// questions.
#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "journal/questions.hpp"

namespace lynearm::journal {

inline constexpr double day = 24 * 60;

class QuestionsTest : public testing::Test {
 protected:
  Book book;
  Glass glass;
  HouseState house;

  const std::vector<Puzzle>& asked() {
    house = fold(book.entries);
    asked_ = questions(house, book.batch, glass);
    // By whichever way they are asked.
    const Questions all = questions(house, [this](const auto&) { return glass; });
    const auto found = all.find(book.batch);
    EXPECT_EQ(found == all.end() ? 0U : found->second.size(), asked_.size());
    return asked_;
  }
  void expect_one(const Id& entry, const testing::Matcher<const std::string&>& why) {
    ASSERT_THAT(asked(), testing::SizeIs(1));
    EXPECT_EQ(asked_[0].entry, entry);
    EXPECT_THAT(asked_[0].why, why);
  }

  Id pitched(double litres, double gravity) {
    return book.tell(0, Pitched{litres_at_20C(litres), gravity_at_20C(gravity), "", {}});
  }
  void fermented(double litres) {
    pitched(litres, 1.064);
    book.tell(6 * day, FermentRead{gravity_at_20C(0.996), {}});
  }
  Id racked(double litres) { return book.tell(7 * day, Racked{litres_at_20C(litres), {}}); }
  Id begun(double minutes, RunKind kind, double litres, std::optional<double> percent,
           std::optional<double> wash = {}, std::vector<LotPart> parts = {}) {
    RunBegun run;
    run.kind = kind;
    run.charge = litres_at_20C(litres);
    if (percent) run.strength = percent_at_20C(*percent);
    if (wash) run.wash = units::Volume::litres(*wash);
    run.parts = std::move(parts);
    return book.tell(minutes, run);
  }
  Id brought(double litres, double percent, LotKind kind = LotKind::hearts) {
    return book.tell(
        1, LotBrought{"old hearts", kind, litres_at_20C(litres), percent_at_20C(percent)});
  }
  Id blended(const Id& of, double litres, std::optional<double> measured_L,
             std::optional<double> percent) {
    LotMade made{"reduced", {part(of, litres)}, units::Mass::kilograms(1.0), {}, {}};
    if (measured_L) made.volume = litres_at_20C(*measured_L);
    if (percent) made.strength = percent_at_20C(*percent);
    return book.tell(5, made);
  }
  Id bottled(const Id& of, double litres, int bottles, double size_L, double percent) {
    return book.tell(9, Bottled{{{of, LotKind::spirit}, units::Volume::litres(litres)},
                                bottles,
                                units::Volume::litres(size_L),
                                units::VolumeStrength::percent(percent)});
  }
  static LotPart part(const Id& of, double litres, LotKind kind = LotKind::hearts) {
    return {{of, kind}, units::Volume::litres(litres)};
  }

 private:
  std::vector<Puzzle> asked_;
};

}  // namespace lynearm::journal
