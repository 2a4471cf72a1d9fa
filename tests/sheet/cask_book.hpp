// A batch from its pitch to its bottles, told step by step by the tests that need it: two
// strips of which one is gauged, one jar, spirit poured together twice, two casks, and topping
// up with what the house bought. Invented.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "sheet/record_book.hpp"
#include "sheet/well_formed.hpp"

namespace lynearm::sheet {

inline constexpr double a_day = 24 * 60;
inline constexpr double printed_L = 0.0051;  // half of the last decimal printed

inline journal::LotPart part(const journal::Id& entry, journal::LotKind kind, double litres) {
  return {{entry, kind}, units::Volume::litres(litres)};
}

class RecordedLots : public testing::Test {
 protected:
  journal::Book book;
  journal::Id cut, first, second, wood, off, other_wood, other_off, bottles, bought;

  void SetUp() override {
    book.tell(0, journal::BatchBegun{"Tern 8", "", true});
    book.tell(400, journal::Pitched{journal::litres_at_20C(60), journal::gravity_at_20C(1.06),
                                    "", units::Mass::grams(60)});
    book.tell(400 + 6 * a_day, journal::FermentRead{journal::gravity_at_20C(0.996), {}});
    strips();
    runs();
  }
  void strips() {
    for (int i = 0; i < 2; ++i) {
      journal::RunBegun begun;
      begun.kind = journal::RunKind::strip;
      begun.charge = journal::litres_at_20C(20);
      begun.wash = units::Volume::litres(20);
      const journal::Id strip = book.tell(10 * a_day + i, begun);
      if (i == 0) {
        book.tell(10 * a_day + 200,
                  journal::RunEnded{
                      strip, journal::litres_at_20C(6), journal::percent_at_20C(28), {}, {}});
      }
    }
  }
  // One jar of 5.0 L at 70 %vol, of a charge of wash.
  void runs() {
    journal::RunBegun begun;
    begun.charge = journal::litres_at_20C(30);
    begun.wash = units::Volume::litres(20);
    const journal::Id run = book.tell(12 * a_day, begun, journal::Stage::spirit_run);
    book.tell(12 * a_day + 300, journal::RunEnded{run, {}, {}, {}, {}});
    book.tell(13 * a_day, journal::JarGauged{run, 1, journal::litres_at_20C(5.0),
                                             journal::percent_at_20C(70.0)});
    journal::JarPoured poured;
    poured.jar = 1;
    poured.foreshots = units::Volume::litres(0.1);
    poured.hearts = units::Volume::litres(4.9);
    cut =
        book.tell(13 * a_day + 60, journal::JarsAllotted{run, {poured}}, journal::Stage::jars);
  }
  // Twice poured together: the second of the first, which was gauged meanwhile, and of hearts.
  void reduce() {
    first = book.tell(14 * a_day,
                      journal::LotMade{"the first",
                                       {part(cut, journal::LotKind::hearts, 4.0)},
                                       units::Mass::kilograms(0.7),
                                       {},
                                       {}},
                      journal::Stage::reduce);
    book.tell(40 * a_day, journal::LotGauged{{first, journal::LotKind::spirit},
                                             journal::litres_at_20C(4.6),
                                             journal::percent_at_20C(60.0)});
    second = book.tell(41 * a_day,
                       journal::LotMade{"the second",
                                        {part(first, journal::LotKind::spirit, 4.0),
                                         part(cut, journal::LotKind::hearts, 0.5)},
                                        {},
                                        journal::litres_at_20C(4.5),
                                        journal::percent_at_20C(61.0)},
                       journal::Stage::reduce);
  }
  // Laid on wood, topped up with what the house bought, and moved to other wood.
  void mature() {
    const auto of = book.batch;
    book.batch.reset();
    bought = book.tell(42 * a_day, journal::LotBrought{"bought", journal::LotKind::spirit,
                                                       journal::litres_at_20C(1.0),
                                                       journal::percent_at_20C(60.0)});
    book.batch = of;
    journal::WoodFilled filled;
    filled.part = part(second, journal::LotKind::spirit, 4.0);
    filled.in = "cask 3";
    wood = book.tell(50 * a_day, filled, journal::Stage::wood);
    book.tell(90 * a_day,
              journal::WoodTopped{{wood, journal::LotKind::spirit},
                                  part(bought, journal::LotKind::spirit, 0.22)},
              journal::Stage::wood);
    off = book.tell(150 * a_day,
                    journal::WoodEmptied{{wood, journal::LotKind::spirit},
                                         journal::litres_at_20C(4.0),
                                         journal::percent_at_20C(60.0)},
                    journal::Stage::wood);
    filled.part = part(off, journal::LotKind::spirit, 3.9);
    filled.in = "cask 4";
    other_wood = book.tell(150 * a_day + 1, filled, journal::Stage::wood);
  }
  void bottle() {
    other_off = book.tell(200 * a_day,
                          journal::WoodEmptied{{other_wood, journal::LotKind::spirit},
                                               journal::litres_at_20C(3.7),
                                               journal::percent_at_20C(59.0)},
                          journal::Stage::wood);
    bottles = book.tell(
        210 * a_day,
        journal::Bottled{part(other_off, journal::LotKind::spirit, 3.6), 7,
                         units::Volume::litres(0.5), units::VolumeStrength::percent(59.0)},
        journal::Stage::bottle);
    book.tell(211 * a_day,
              journal::Labelled{{bottles, journal::LotKind::bottles},
                                "Tern <Cask>",
                                units::VolumeStrength::percent(58.8),
                                "Grain spirit",
                                ""},
              journal::Stage::bottle);
  }
  [[nodiscard]] std::string sheet() const {
    for (const auto& [id, batch] : journal::fold(book.entries).batches) {
      for (const journal::Puzzle& puzzle : batch.puzzles) ADD_FAILURE() << puzzle.why;
    }
    std::string html = printed(book);
    EXPECT_EQ(fault_of_xml(html), "");
    return html;
  }
  [[nodiscard]] std::vector<std::string> lot_row(const std::string& name) const {
    return row_of(section(sheet(), "Lots"), name);
  }
  // Of a stage: what was measured to go in, and to come through.
  void expect_through(const std::string& stage, double in, double out) const {
    const auto row = row_of(section(sheet(), "Ledger"), stage, "Through each stage");
    ASSERT_EQ(row.size(), 6U) << stage;
    EXPECT_NEAR(std::stod(row[2]), in, printed_L) << stage;
    EXPECT_NEAR(std::stod(row[4]), out, printed_L) << stage;
  }
};

}  // namespace lynearm::sheet
