// What a record tells by kit and recipe: the gas of the ferment as it was pitched, what is
// asked of mash and pitch; and wash that no run has taken yet. The journal here is invented.
#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "sheet/record_book.hpp"
#include "sheet/well_formed.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {
namespace {

using journal::Stage;

constexpr double day = 24 * 60;

journal::Book told() {
  journal::Book book;
  book.tell(0, journal::BatchBegun{"Tern 8", "", true});
  book.tell(400,
            journal::Pitched{journal::litres_at_20C(108.4), journal::gravity_at_20C(1.0567),
                             "distillers-dry", units::Mass::grams(55)},
            Stage::ferment);
  book.tell(400 + 6 * day, journal::FermentRead{journal::gravity_at_20C(0.9937), {}},
            Stage::ferment);
  return book;
}

std::string followed_by(const journal::Book& book, std::optional<Followed> followed,
                        units::System system = units::System::metric) {
  const journal::HouseState house = journal::fold(book.entries);
  Recorded recorded{
      planned().recipe, planned().kit, planned().plan, house, house.batches.at(*book.batch),
      book.entries};
  recorded.system = system;
  recorded.followed = std::move(followed);
  return record_sheet(recorded, Paper::a4);
}

// The sheet told nothing of the gas of a pitch ten times the plan's.
TEST(RecordByKit, TheGasIsThatOfWhatWasPitched) {
  const journal::Book book = told();
  const auto ferment = [&](const std::optional<Followed>& followed) {
    const std::string html = followed_by(book, followed);
    EXPECT_EQ(fault_of_xml(html), "");
    return read_aloud("<body>" + section(html, "Ferment"));
  };
  const plan::FermentPlan& planned_so = planned().plan.ferment;
  plan::GasPitched gas;
  gas.gas.mass = units::Mass::kilograms(73.42);
  gas.gas.peak =
      plan::GasPeak{units::VolumeFlow::litres_per_hour(789), units::Duration::hours(29),
                    units::VolumeFlow::litres_per_hour(171'000), units::Share::percent(2.7)};
  Followed followed;
  followed.gas = gas;
  const std::string pitched = ferment(followed);
  EXPECT_NE(pitched.find("As pitched it gives off 73.4 kg of carbon dioxide (planned " +
                         units::print(planned_so.fermented.carbon_dioxide)),
            std::string::npos)
      << pitched;
  EXPECT_NE(pitched.find("at most 789.0 L of gas an hour"), std::string::npos) << pitched;
  EXPECT_NE(pitched.find("It asks for 171 m³ of fresh air an hour; in its closed room the air "
                         "would come to 2.7 % of the gas"),
            std::string::npos)
      << pitched;
  // In cubic feet for who counts in gallons: 171 m³ at 35.3147 ft³.
  EXPECT_NE(read_aloud(followed_by(book, followed, units::System::us)).find("6039 ft³"),
            std::string::npos);
  followed.gas->standing = plan::GasStanding::racked;
  EXPECT_NE(ferment(followed).find("it may give off gas yet"), std::string::npos);
  followed.gas->fed = units::Mass::kilograms(3);
  followed.gas->gas.peak.reset();
  followed.gas->no_pace = "its pace does not come out";
  const std::string fed = ferment(followed);
  EXPECT_NE(fed.find("As pitched and fed"), std::string::npos) << fed;
  EXPECT_NE(fed.find("how fast is not reckoned (its pace does not come out)"),
            std::string::npos)
      << fed;
  followed.gas->standing = plan::GasStanding::stands;
  const std::string stands = ferment(followed);
  EXPECT_NE(stands.find("Racked, and by its readings it had come to stand"), std::string::npos)
      << stands;
  EXPECT_EQ(stands.find("of gas an hour"), std::string::npos) << stands;
  // The usual caution stands whatever the figures say.
  for (const std::string& text : {pitched, fed, stands, ferment({})}) {
    EXPECT_NE(text.find("never put a head into the vessel"), std::string::npos) << text;
  }
  EXPECT_EQ(ferment({}).find("it gives off"), std::string::npos) << "nobody reckoned it";
}

TEST(RecordByKit, BeforeThePitchTheGasIsThePlans) {
  journal::Book book;
  book.tell(0, journal::BatchBegun{"Tern 8", "", true});
  book.tell(900, journal::FermentRead{journal::gravity_at_20C(1.05), {}}, Stage::ferment);
  const std::string html = followed_by(book, Followed{});
  const std::string text = read_aloud("<body>" + section(html, "Ferment"));
  EXPECT_NE(text.find("By the plan it gives off " +
                      units::print(planned().plan.ferment.fermented.carbon_dioxide) +
                      " of carbon dioxide"),
            std::string::npos)
      << text;
}

TEST(RecordByKit, WhatKitAndRecipeAskStandsAmongWhatCannotBe) {
  const journal::Book book = told();
  const auto pitched =
      std::find_if(book.entries.begin(), book.entries.end(), [](const journal::Entry& entry) {
        return std::holds_alternative<journal::Pitched>(entry.body);
      });
  ASSERT_NE(pitched, book.entries.end());
  Followed followed;
  followed.asked = {{pitched->id, "372.0 L were pitched; the fermenter holds 50.0 L."}};
  const std::string text = read_aloud(followed_by(book, followed));
  const std::size_t at = text.find("Told, and cannot be so");
  ASSERT_NE(at, std::string::npos);
  EXPECT_NE(text.find("372.0 L were pitched; the fermenter holds 50.0 L.", at),
            std::string::npos);
  EXPECT_NE(text.find("1 entry cannot be so"), std::string::npos) << "told in front too";
}

// The strips took in less than the ferment gave, and no row said where the rest was.
TEST(RecordByKit, WashThatWaitsHasARowInTheLedger) {
  journal::Book book = told();
  book.tell(400 + 7 * day, journal::Racked{journal::litres_at_20C(106), {}}, Stage::ferment);
  journal::RunBegun begun;
  begun.kind = journal::RunKind::strip;
  begun.charge = journal::litres_at_20C(30);
  begun.wash = units::Volume::litres(30);
  const journal::Id run = book.tell(400 + 8 * day, begun, Stage::strip);
  const auto ledger = [&] { return section(printed(book), "Ledger"); };
  ASSERT_EQ(row_of(ledger(), "Wash waiting in its vessel, 76.0\u00a0L").size(), 6U);
  ASSERT_EQ(row_of(ledger(), "Wash in runs not measured yet, 30.0\u00a0L").size(), 6U);
  journal::Book never = book;
  never.tell(400 + 9 * day, journal::BatchClosed{}, Stage::ledger);
  EXPECT_EQ(
      row_of(section(printed(never), "Ledger"), "Wash in runs never measured, 30.0\u00a0L")
          .size(),
      6U);
  book.tell(
      400 + 8 * day + 200,
      journal::RunEnded{run, journal::litres_at_20C(9), journal::percent_at_20C(25), {}, {}},
      Stage::strip);
  const std::string measured = ledger();
  const auto litres = [&](const std::string& row, std::size_t column) {
    return std::stod(row_of(measured, row).at(column));
  };
  EXPECT_EQ(row_of(measured, "Wash in runs not measured yet, 30.0\u00a0L").size(), 0U);
  // What the ferment gave stands there again, each figure to half of its last place.
  EXPECT_NEAR(litres("Strip", 2) + litres("Wash waiting in its vessel, 76.0\u00a0L", 2),
              litres("Ferment", 4), 0.0151);
  book.tell(400 + 9 * day, journal::BatchClosed{}, Stage::ledger);
  EXPECT_EQ(row_of(ledger(), "Wash not charged, 76.0\u00a0L").size(), 6U);
}

}  // namespace
}  // namespace lynearm::sheet
