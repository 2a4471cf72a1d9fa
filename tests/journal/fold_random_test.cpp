// Whatever a journal holds and however it arrives: the same state, byte for byte, no throw, and
// every lot balances.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "journal/invent.hpp"
#include "wire/house.hpp"

namespace lynearm::journal {
namespace {

std::string whole_text(const HouseState& house) {
  std::string text = wire::house_json(house) + wire::lots_json(house);
  for (const auto& [id, batch] : house.batches) text += wire::batch_json(house, batch);
  return text;
}

std::string balance_fault(const HouseState& house) {
  for (const LotState& lot : house.lots) {
    spirit::Lot sum = lot.left;
    double moved_kg = lot.made.mass().kilograms() + lot.left.mass().kilograms();
    for (const LotUse& use : lot.uses) {
      sum = sum + use.lot;
      moved_kg += std::abs(use.lot.ethanol.kilograms()) + std::abs(use.lot.water.kilograms());
    }
    const double rounding_kg = 1e-12 * (1.0 + moved_kg);
    if (std::abs((sum.ethanol - lot.made.ethanol).kilograms()) > rounding_kg ||
        std::abs((sum.water - lot.made.water).kilograms()) > rounding_kg) {
      return "does not balance: " + lot.label;
    }
    if (lot.left.ethanol < units::Mass{} || lot.left.water < units::Mass{}) {
      return "less than nothing left: " + lot.label;
    }
  }
  return {};
}

void hold(const std::vector<Entry>& entries, std::uint64_t seed) {
  const HouseState house = fold(entries);
  const std::string text = whole_text(house);
  const std::string fault = balance_fault(house);
  if (!fault.empty()) RC_FAIL(fault);
  std::mt19937_64 random(seed);
  for (int i = 0; i < 3; ++i) {
    std::vector<Entry> arrived = entries;
    // Some arrive twice, at another time.
    for (std::size_t copies = random() % (1 + entries.size()); copies > 0; --copies) {
      arrived.push_back(entries[random() % entries.size()]);
      arrived.back().received = Moment{static_cast<std::int64_t>(random() % 1'000'000)};
    }
    std::shuffle(arrived.begin(), arrived.end(), random);
    RC_ASSERT(whole_text(fold(arrived)) == text);
  }
}

// Entries of every kind that name each other at random.
std::vector<Entry> silly(std::uint64_t seed, std::size_t size) {
  Inventor inventor(seed);
  std::vector<Id> ids;
  for (std::size_t i = 0; i < size; ++i) ids.push_back(inventor.any_id());
  Inventor bodies(seed + 1, ids);
  std::vector<Entry> entries(size);
  for (std::size_t i = 0; i < size; ++i) {
    Entry& entry = entries[i];
    entry.id = ids[i];
    if (!inventor.chance(8)) entry.batch = ids[inventor.below(std::min<std::size_t>(size, 2))];
    entry.at = minute(static_cast<double>(inventor.below(50)));
    if (inventor.chance(4))
      entry.clock_ahead_ms = static_cast<std::int64_t>(inventor.below(3'600'000));
    entry.body = bodies.any_body();
    if (inventor.chance(5)) {
      const std::size_t of = inventor.below(size);
      entry.corrects = ids[of];
      if (of < i && inventor.chance(2)) entry.body = entries[of].body;
    } else if (inventor.chance(40)) {
      entry.body = Foreign{"sky read", 2, "{}"};
    }
  }
  return entries;
}

// A house at work: runs, jars, cuts, lots poured and gauged, in an order that may be muddled.
std::vector<Entry> plausible(std::uint64_t seed) {
  Inventor dice(seed);
  Book book;
  const auto litres = [&](double most) {
    return litres_at_20C(most * static_cast<double>(1 + dice.below(100)) / 100.0);
  };
  const auto percent = [&] { return percent_at_20C(static_cast<double>(1 + dice.below(95))); };
  const auto at = [&](double minutes) {
    return dice.chance(6) ? static_cast<double>(dice.below(300)) : minutes;
  };
  std::vector<LotName> lots;
  const auto some = [&](double most) {
    return LotPart{lots[dice.below(lots.size())], litres(most).volume};
  };
  book.tell(at(0), BatchBegun{"Tern 8", "", true});
  book.tell(at(1), Pitched{litres_at_20C(60), gravity_at_20C(1.08), "", {}});
  book.tell(at(2), FermentRead{gravity_at_20C(1.0), {}});
  lots.push_back({book.tell(at(3), LotBrought{"before", LotKind::feints, litres(9), percent()}),
                  LotKind::feints});
  double now = 5;
  for (std::uint64_t runs = 1 + dice.below(4); runs > 0; --runs) {
    RunBegun begun;
    begun.kind = dice.chance(2) ? RunKind::strip : RunKind::spirit;
    begun.charge = litres(25);
    if (dice.chance(2)) begun.strength = percent();
    if (dice.chance(2)) begun.wash = litres(20).volume;
    if (dice.chance(2)) begun.parts = {some(5), some(3)};
    const Id run = book.tell(at(++now), begun);
    JarsAllotted cut{run, {}};
    for (int jar = 1; jar <= 4; ++jar) {
      book.tell(at(++now), JarGauged{run, jar, litres(0.8), percent()});
      JarPoured poured;
      poured.jar = jar;
      poured.hearts = litres(0.4).volume;
      poured.feints = litres(0.4).volume;
      cut.pours.push_back(poured);
    }
    const Id end = book.tell(at(++now), RunEnded{run, litres(8), percent(), {}, {}});
    if (begun.kind == RunKind::strip) lots.push_back({end, LotKind::low_wines});
    const Id made = book.tell(at(++now), cut);
    lots.push_back({made, LotKind::hearts});
    lots.push_back({made, LotKind::feints});
  }
  for (std::uint64_t steps = dice.below(12); steps > 0; --steps) {
    ++now;
    switch (dice.below(9)) {
      case 0:
        book.tell(at(now), LotTaken{some(0).lot, litres(1).volume, Gone::sample, ""});
        break;
      case 1:
        book.tell(at(now), LotGauged{some(0).lot, litres(5), percent()});
        break;
      case 2: {
        LotMade made{"blend", {some(2), some(2)}, units::Mass::kilograms(1), {}, {}};
        if (dice.chance(2)) made.volume = litres(4);
        if (dice.chance(2)) made.strength = percent();
        lots.push_back({book.tell(at(now), made), LotKind::spirit});
        break;
      }
      case 3: {
        WoodFilled filled;
        filled.part = some(3);
        filled.in = "staves";
        lots.push_back({book.tell(at(now), filled), LotKind::spirit});
        break;
      }
      case 6:
        book.tell(at(now), WoodTopped{some(0).lot, some(3)});
        break;
      case 8:
        book.tell(at(now), Upheld{book.entries[dice.below(book.entries.size())].id,
                                  "asked of it", "so it is"});
        break;
      case 7:
        book.tell(at(now), Labelled{some(0).lot, "made up", units::VolumeStrength::percent(45),
                                    "a class", "a-rule"});
        break;
      case 4:
        lots.push_back({book.tell(at(now), WoodEmptied{some(0).lot, litres(2), percent()}),
                        LotKind::spirit});
        break;
      default:
        lots.push_back({book.tell(at(now), Bottled{some(2), 3, units::Volume::litres(0.5),
                                                   units::VolumeStrength::percent(45)}),
                        LotKind::bottles});
    }
  }
  for (std::uint64_t struck = dice.below(3); struck > 0; --struck) {
    const Entry& of = book.entries[dice.below(book.entries.size())];
    book.correct(of.id, ++now, 0, dice.chance(2) ? Body(Struck{}) : of.body);
  }
  return book.entries;
}

RC_GTEST_PROP(FoldProperty, SillyJournalsFoldToOneStateInAnyOrder, (std::uint64_t seed)) {
  hold(silly(seed, 1 + static_cast<std::size_t>(*rc::gen::inRange(0, 120))), seed);
}

RC_GTEST_PROP(FoldProperty, AHouseAtWorkFoldsToOneStateInAnyOrder, (std::uint64_t seed)) {
  hold(plausible(seed), seed);
}

}  // namespace
}  // namespace lynearm::journal
