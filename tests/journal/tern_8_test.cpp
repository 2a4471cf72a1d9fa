// A batch from begun to bottles as its journal tells it, every figure of the state held against
// spirit/ and wort/ asked directly. Tern 8, its people and its readings are invented.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "journal/account.hpp"
#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "journal/meaning.hpp"
#include "journal/questions.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "wort/gravity.hpp"
#include "wort/saccharometer.hpp"

namespace lynearm::journal {
namespace {

using units::Mass;
using units::SpecificGravity;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

constexpr double day = 24 * 60;

VolumeRead read_L(double litres, double at_C) {
  return {Volume::litres(litres), Temperature::celsius(at_C)};
}
StrengthRead read_percent(double percent, double at_C) {
  return {{percent, spirit::Scale::percent_vol}, Temperature::celsius(at_C)};
}
GravityRead read_gravity(double gravity, double at_C) {
  return {gravity, GravityScale::specific_gravity, Temperature::celsius(at_C)};
}
// The lot of two readings, by spirit/ alone.
spirit::Lot gauged(double litres, double percent, double at_C) {
  const auto t = Temperature::celsius(at_C);
  const auto mass = spirit::true_mass_fraction({percent, spirit::Scale::percent_vol}, t);
  return spirit::lot(Volume::litres(litres), spirit::volume_strength(mass), t);
}
double pure_L(const spirit::Lot& lot) { return spirit::pure_alcohol(lot).litres(); }

struct JarRead {
  double litres, percent, at_C, hearts_mL, feints_mL;
};
// As gauged a day after the run; jar 1 is the foreshots.
constexpr JarRead jars_read[] = {
    {0.150, 77.0, 18.0, 0, 0},   {0.750, 75.6, 18.0, 0, 750},   {0.750, 74.1, 18.0, 750, 0},
    {0.750, 72.8, 18.0, 750, 0}, {0.750, 71.0, 18.0, 750, 0},   {0.750, 68.9, 18.0, 750, 0},
    {0.750, 66.2, 18.0, 750, 0}, {0.750, 62.6, 18.0, 350, 400}, {0.750, 57.5, 18.0, 0, 750},
    {0.750, 50.3, 18.0, 0, 750}, {0.750, 40.6, 18.0, 0, 750},   {0.750, 29.5, 18.0, 0, 750},
    {0.750, 18.2, 18.0, 0, 750}, {0.750, 10.0, 18.0, 0, 750}};

class Tern8 : public testing::Test {
 protected:
  Book book;
  Id wort_drawn, runs[3], low_wines[3], spirit_run, cut, reduced, wood, off, bottled;

  void SetUp() override {
    book.tell(0, BatchBegun{"Tern 8", "maize, rye and barley, helped with sugar", true});
    book.tell(1, BatchPlanned{"recipe", "kit"}, Stage::mash_bill);
    book.tell(90, MashTemperature{Temperature::celsius(67.1)}, Stage::mash);
    book.tell(95, MashWater{Volume::litres(0.4), Temperature::celsius(12)}, Stage::mash);
    wort_drawn =
        book.tell(200, WortDrawn{"first runnings", read_L(26, 55), read_gravity(1.071, 30)});
    book.tell(240, WortDrawn{"sparge 1", read_L(12, 55), read_gravity(1.024, 30)});
    book.tell(260, WortDrawn{"sugar", read_L(22, 60), read_gravity(1.090, 40)});
    book.tell(400, Pitched{read_L(60, 24), read_gravity(1.0680, 24), "", Mass::grams(60)});
    book.tell(400 + 3 * day, FermentRead{read_gravity(1.010, 27), Temperature::celsius(27)});
    book.tell(400 + 6 * day, FermentRead{read_gravity(0.9945, 22), Temperature::celsius(22)});
    book.tell(400 + 8 * day, Racked{read_L(57, 18), Volume::litres(3)});
    for (int i = 0; i < 3; ++i) strip(i, (10 + i) * day);
    spirit(14 * day);
    after(15 * day);
  }
  void strip(int i, double at) {
    RunBegun begun;
    begun.kind = RunKind::strip;
    begun.charge = read_L(19, 20);
    begun.wash = Volume::litres(19);
    runs[i] = book.tell(at, begun);
    low_wines[i] = book.tell(
        at + 200,
        RunEnded{runs[i], read_L(6.6, 22), read_percent(28.6, 22), Volume::litres(12.2), {}});
  }
  void spirit(double at) {
    RunBegun begun;
    begun.charge = read_L(20, 20);
    for (const Id& end : low_wines) {
      begun.parts.push_back({{end, LotKind::low_wines}, Volume::litres(6.59)});
    }
    begun.strength = read_percent(27.4, 20);
    spirit_run = book.tell(at, begun, Stage::spirit_run);
    RunRead reading;
    reading.run = spirit_run;
    reading.reading.spout = {73.1, spirit::Scale::percent_vol};
    reading.reading.spout_temperature = Temperature::celsius(29);
    book.tell(at + 60, reading, Stage::spirit_run);
    JarsAllotted allotted{spirit_run, {}};
    int jar = 0;
    for (const JarRead& one : jars_read) {
      ++jar;
      book.tell(at + 30 * jar, JarFilled{spirit_run, jar, Volume::litres(one.litres)});
      book.tell(at + day + jar, JarGauged{spirit_run, jar, read_L(one.litres, one.at_C),
                                          read_percent(one.percent, one.at_C)});
      JarPoured poured;
      poured.jar = jar;
      if (jar == 1) poured.foreshots = Volume::litres(one.litres);
      poured.hearts = Volume::millilitres(one.hearts_mL);
      poured.feints = Volume::millilitres(one.feints_mL);
      allotted.pours.push_back(poured);
    }
    book.tell(at + 500, RunEnded{spirit_run, {}, {}, Volume::litres(10), {}});
    cut = book.tell(at + day + 100, allotted, Stage::jars);
  }
  void after(double at) {
    LotMade made;
    made.name = "Tern 8 at 60";
    made.parts = {{{cut, LotKind::hearts}, Volume::litres(4.0)}};
    made.water = Mass::kilograms(0.74);
    made.volume = read_L(4.70, 20);
    made.strength = read_percent(60.0, 20);
    reduced = book.tell(at + 200, made);
    WoodFilled filled;
    filled.part = {{reduced, LotKind::spirit}, Volume::litres(4.65)};
    filled.in = "cask 3";
    wood = book.tell(at + 300, filled);
    book.tell(at + 30 * day,
              WoodSampled{{wood, LotKind::spirit}, Volume::litres(0.05), {"oak"}, "young"});
    off = book.tell(
        at + 200 * day,
        WoodEmptied{{wood, LotKind::spirit}, read_L(4.35, 18), read_percent(59.5, 18)});
    bottled = book.tell(at + 210 * day, Bottled{{{off, LotKind::spirit}, Volume::litres(4.0)},
                                                7,
                                                Volume::litres(0.57),
                                                VolumeStrength::percent(59.5)});
    book.tell(at + 211 * day, BatchClosed{});
  }
};

TEST_F(Tern8, MeansWhatSpiritAndWortSay) {
  const HouseState house = fold(book.entries);
  const BatchState& batch = house.batches.at(*book.batch);
  for (const Puzzle& asked : questions(house, batch.id)) ADD_FAILURE() << asked.why;
  EXPECT_TRUE(batch.invented && batch.begun && batch.closed && batch.plan);

  // The wash, by hand over wort/.
  const auto original =
      wort::true_gravity(SpecificGravity::ratio(1.0680), Temperature::celsius(24));
  const auto now = wort::true_gravity(SpecificGravity::ratio(0.9945), Temperature::celsius(22));
  const auto strength = wash_strength(original, now);
  const WashState& wash = *batch.ferment.wash;
  EXPECT_DOUBLE_EQ(wash.strength.percent(), strength.percent());
  EXPECT_NEAR(wash.volume.litres(), 57.0, 0.03);
  EXPECT_NEAR(wash.pure_alcohol.litres(), wash.volume.litres() * strength.fraction(), 1e-12);

  for (int i = 0; i < 3; ++i) {
    const RunState& run = *run_named(batch, runs[i]);
    EXPECT_NEAR(pure_L(run.charge), 19 * strength.fraction(), 1e-9);
    const LotState& lot = *lot_named(house, {low_wines[i], LotKind::low_wines});
    EXPECT_NEAR(pure_L(lot.made), pure_L(gauged(6.6, 28.6, 22)), 1e-12);
    EXPECT_EQ(lot.label, "low wines of Tern 8");
    EXPECT_NEAR(spirit::volume(lot.left).litres(),
                spirit::volume(gauged(6.6, 28.6, 22)).litres() - 6.59, 1e-9);
  }

  const RunState& run = *run_named(batch, spirit_run);
  EXPECT_NEAR(pure_L(run.charge), pure_L(gauged(20, 27.4, 20)), 1e-12);
  EXPECT_EQ(run.jars.size(), 14U);
  EXPECT_DOUBLE_EQ(run.readings.at(0).reading.at.minutes(), 60.0);

  // The cut: each jar by spirit/ alone, poured by its volume at 20 °C.
  spirit::Lot hearts, feints, foreshots;
  for (const JarRead& one : jars_read) {
    const spirit::Lot jar = gauged(one.litres, one.percent, one.at_C);
    const double held_mL = spirit::volume(jar).millilitres();
    const double poured_mL =
        one.hearts_mL + one.feints_mL > 0 ? one.hearts_mL + one.feints_mL : one.litres * 1000;
    // At 18 °C a jar holds a little less than at 20.
    EXPECT_GE(held_mL, poured_mL);
    hearts = hearts + jar * (one.hearts_mL / held_mL);
    feints = feints + jar * (one.feints_mL / held_mL);
    if (one.hearts_mL + one.feints_mL == 0) foreshots = foreshots + jar * (poured_mL / held_mL);
  }
  EXPECT_NEAR(pure_L(lot_named(house, {cut, LotKind::hearts})->made), pure_L(hearts), 1e-9);
  EXPECT_NEAR(pure_L(lot_named(house, {cut, LotKind::feints})->made), pure_L(feints), 1e-9);
  EXPECT_NEAR(pure_L(lot_named(house, {cut, LotKind::foreshots})->made), pure_L(foreshots),
              1e-9);
  EXPECT_EQ(lot_named(house, {cut, LotKind::feints})->generation, 1);
  EXPECT_EQ(lot_named(house, {cut, LotKind::hearts})->parents.size(), 3U);

  // Reduction: what was poured together, and what was gauged.
  const LotState& at_60 = *lot_named(house, {reduced, LotKind::spirit});
  EXPECT_NEAR(at_60.made.mass().kilograms(),
              (hearts * (4.0 / spirit::volume(hearts).litres())).mass().kilograms() + 0.74,
              1e-9);
  const LotState& on_wood = *lot_named(house, {wood, LotKind::spirit});
  const spirit::Lot filled = gauged(4.70, 60.0, 20) * (4.65 / 4.70);
  EXPECT_NEAR(pure_L(on_wood.made), pure_L(filled), 1e-9);
  EXPECT_EQ(on_wood.left.mass().kilograms(), 0.0);
  const LotState& bottles = *lot_named(house, {bottled, LotKind::bottles});
  EXPECT_NEAR(pure_L(bottles.left), 7 * 0.57 * 0.595, 1e-9);
  ASSERT_TRUE(bottles.bottles);
  EXPECT_EQ(bottles.bottles->bottles, 7);
  ASSERT_EQ(batch.notes.size(), 1U);
  EXPECT_EQ(batch.notes[0].text, "oak: young");
}

TEST_F(Tern8, ItsAccountClosesWithinWhatTheHouseCanGauge) {
  const HouseState house = fold(book.entries);
  const BatchAccount account = journal::account(house, house.batches.at(*book.batch));
  std::vector<std::string> whats;
  for (const AccountStep& step : account.steps) {
    whats.push_back(step.what);
    EXPECT_FALSE(step.telling) << step.what << " " << step.unaccounted.value.litres();
    EXPECT_LE(std::abs(step.unaccounted.value.litres()), 2.0 * step.unaccounted.sd.litres())
        << step.what;
  }
  EXPECT_THAT(whats,
              testing::ElementsAre("strip 1 of 3", "strip 2 of 3", "strip 3 of 3", "spirit run",
                                   "Tern 8 at 60", "Tern 8 at 60, in cask 3",
                                   "Tern 8 at 60, in cask 3, off the wood, bottled"));
}

TEST_F(Tern8, ASpilledJarIsTold) {
  for (Entry& entry : book.entries) {
    auto* const jar = std::get_if<JarGauged>(&entry.body);
    if (jar != nullptr && jar->jar == 4) jar->volume.volume = Volume::litres(0.1);
  }
  const HouseState house = fold(book.entries);
  const BatchAccount account = journal::account(house, house.batches.at(*book.batch));
  for (const AccountStep& step : account.steps) {
    if (step.what == "spirit run") {
      EXPECT_TRUE(step.telling);
    }
  }
}

}  // namespace
}  // namespace lynearm::journal
