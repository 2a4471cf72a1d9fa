// A charge before its heat is on, asked over the API: by the batch's plan, by the house's kit
// alone, and refused at the request's own fields.
#include "station/charging.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/error.hpp"
#include "journal/book.hpp"
#include "serve/events.hpp"
#include "station/demonstration.hpp"
#include "station/routes.hpp"
#include "store/temporary_folder.hpp"

namespace lynearm::station {
namespace {

using namespace journal;
using testing::EndsWith;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

class ACharge : public testing::Test {
 protected:
  ACharge() {
    add_routes(router, station, events);
    book.tell(0, BatchBegun{"Tern 9", "", true});
  }
  void plan() {
    const wire::Example& tern = demo_example("Tern 8");
    book.tell(1, BatchPlanned{tern.recipe, tern.kit});
  }
  void state_kit(const std::string& text) {
    Book of_house{std::nullopt};
    of_house.tell(++kits_told, KitStated{text});
    station.keep(of_house.entries);
  }
  std::string ask(const std::string& body, std::optional<std::string> batch = {}) {
    station.keep(book.entries);
    const auto target =
        serve::read_target("/api/v1/batches/" + batch.value_or(print(*book.batch)) + "/charge");
    serve::Match match = router.find("POST", *target);
    serve::Request request;
    request.parameters = std::move(match.parameters);
    request.body = body;
    try {
      return match.route->handler(request).body;
    } catch (const base::InputError& error) {
      return error.what();
    }
  }

  store::test::TemporaryFolder folder;
  store::House house{{folder.path(), "", false}};
  Station station{house, numeric::one_after_another(), [] { return minute(5); }};
  serve::Events events;
  serve::Router router;
  Book book;
  double kits_told = 10.0;
};

TEST_F(ACharge, IsRunByTheBatchsPlan) {
  plan();
  const std::string well =
      ask(R"({"run":"spirit run","volume_L_20C":20,"strength_percent_vol":30})");
  EXPECT_THAT(well, StartsWith(R"({"element_covered_above_L":6.0,"left_in_pot_L":10.)"));
  EXPECT_THAT(well, HasSubstr(R"("volume_L_20C":10.14)"));
  EXPECT_THAT(well, EndsWith(R"("findings":[]})"));
  const std::string bare =
      ask(R"({"run":"strip","volume_L_20C":6.5,"strength_percent_vol":9})");
  EXPECT_THAT(bare, HasSubstr(R"("weight":"danger","code":"element-exposed","stage":"Strip")"));
  EXPECT_THAT(bare, HasSubstr("is left in the boiler at the end; the element needs 6.0 L"));
}

TEST_F(ACharge, WithoutAStrengthIsAsStrongAsPlanned) {
  plan();
  const auto planned =
      station.plan(demo_example("Tern 8").recipe, demo_example("Tern 8").kit, 0);
  const auto of = [&](std::optional<units::VolumeStrength> strength) {
    const auto seen = station.seen();
    return charge_left(station, seen->house, seen->house.batches.at(*book.batch),
                       {RunKind::spirit, units::Volume::litres(12), strength})
        .left->litres();
  };
  station.keep(book.entries);
  EXPECT_NEAR(of({}), of(planned->plan.spirit.one.charge_strength), 1e-6);
}

TEST_F(ACharge, WithoutAPlanIsHeldAgainstTheHousesKit) {
  EXPECT_EQ(ask(R"({"run":"strip","volume_L_20C":5})"), R"({"findings":[]})");
  // In the maker's own units; the boiler's total beside it is in litres.
  std::string kit = demo_example("Tern 8").kit;
  const std::string stated = "element_covered_above = \"6 L\"";
  kit.replace(kit.find(stated), stated.size(), "element_covered_above = \"6 qt\"");
  state_kit(kit);
  EXPECT_THAT(
      ask(R"({"run":"strip","volume_L_20C":5})"),
      AllOf(StartsWith(R"({"element_covered_above_L":5.678)"),
            HasSubstr("burns dry as soon as the heat is on"), Not(HasSubstr("left_in_pot"))));
  EXPECT_THAT(ask(R"({"run":"strip","volume_L_20C":5.7})"), EndsWith(R"("findings":[]})"));
  state_kit("no kit");
  EXPECT_EQ(ask(R"({"run":"strip","volume_L_20C":5})"), R"({"findings":[]})");
}

TEST_F(ACharge, IsRefusedAtItsFields) {
  plan();
  EXPECT_THAT(ask("{}"), AllOf(HasSubstr(R"(run is missing; accepted: "strip", "spirit run".)"),
                               HasSubstr("volume_L_20C is missing; accepted: a number")));
  EXPECT_THAT(ask(R"({"run":"strip","volume_L_20C":0})"),
              HasSubstr("volume_L_20C is \"0\"; accepted: a volume above zero."));
  EXPECT_THAT(ask(R"({"run":"strip","volume_L_20C":12,"strength_percent_vol":101})"),
              HasSubstr("strength_percent_vol is \"101\"; accepted: a number from 0 to 100"));
  EXPECT_THAT(ask(R"({"run":"spirit run","volume_L_20C":12,"strength_percent_vol":0})"),
              HasSubstr("strength_percent_vol is \"0 % alcohol by mass\""));
  EXPECT_THAT(ask(R"({"run":"strip","volume_L_20C":12,"power_W":2000})"), HasSubstr("power_W"));
  EXPECT_THAT(ask(R"({"run":"strip","volume_L_20C":12})", print(id_at(0, 99))),
              HasSubstr("There is no such batch"));
}

}  // namespace
}  // namespace lynearm::station
