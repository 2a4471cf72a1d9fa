// What the calls of the workbench refuse is told in the request's own words: its fields, the
// value that was given, the jar by its number.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/error.hpp"
#include "journal/book.hpp"
#include "serve/events.hpp"
#include "station/advice.hpp"
#include "station/demonstration.hpp"
#include "station/routes.hpp"
#include "station/solved.hpp"
#include "station/station.hpp"
#include "store/temporary_folder.hpp"

namespace lynearm::station {
namespace {

using namespace journal;
using testing::HasSubstr;

class Asked : public testing::Test {
 protected:
  Asked() { add_routes(router, station, events); }

  // The refusal's sentence, or the body of an answer.
  std::string ask(const std::string& method, const std::string& target,
                  const std::string& body = "") {
    const auto read = serve::read_target(target);
    if (!read) return "no target";
    serve::Match match = router.find(method, *read);
    if (match.route == nullptr) return "no route";
    serve::Request request;
    request.query = read->query;
    request.parameters = std::move(match.parameters);
    request.body = body;
    try {
      return match.route->handler(request).body;
    } catch (const base::InputError& error) {
      return error.what();
    }
  }
  std::string post(const std::string& call, const std::string& body) {
    return ask("POST", "/api/v1/" + call, body);
  }

  store::test::TemporaryFolder folder;
  store::House house{{folder.path(), "", false}};
  Station station{house, numeric::one_after_another(), [] { return minute(5); }};
  serve::Events events;
  serve::Router router;
};

std::string refusal_of(const std::string& example, wire::Wish wish) {
  const wire::Example& of = demo_example(example);
  try {
    return solved({of.recipe, of.kit, std::move(wish)});
  } catch (const base::InputError& error) {
    return error.what();
  }
}

TEST(AWish, ThatCannotBeMetNamesWhatWasAskedFor) {
  EXPECT_THAT(
      refusal_of("Tern 7", wire::SpiritWish{units::Volume::litres(1.0),
                                            units::VolumeStrength::percent(96.0), "96 %vol"}),
      testing::StartsWith(R"(strength is "96 %vol"; accepted: a strength up to)"));
  EXPECT_THAT(refusal_of("The ill-fitting batch", wire::FitKitWish{}),
              testing::StartsWith(R"(want is "kit"; accepted: a recipe that fits the kit)"));
}

TEST_F(Asked, OfAReductionTheFaultStandsAtTheRequestsField) {
  EXPECT_THAT(post("reduce",
                   R"({"volume_L":1,"strength_percent_vol":40,"at_C":20,"to_percent_vol":60})"),
              HasSubstr("to_percent_vol is \"60.00 %vol\""));
  EXPECT_THAT(post("reduce", R"({"volume_L":1,"strength_percent_vol":60,"at_C":20,
                                 "to_percent_vol":40,"water_at_C":-5})"),
              HasSubstr("water_at_C is \"-5.00 °C\""));
  EXPECT_THAT(post("reduce",
                   R"({"volume_L":1,"strength_percent_vol":60,"at_C":60,"to_percent_vol":40})"),
              testing::StartsWith("at_C is \"60.00 °C\""));
}

TEST_F(Asked, OfAReductionBackwardTheFaultStandsAtTheRequestsField) {
  const std::string spirit = R"("strength_percent_vol":70,"at_C":20,"to_percent_vol":55)";
  const auto reduce = [&](const std::string& more) {
    return post("reduce", "{" + spirit + "," + more + "}");
  };
  EXPECT_THAT(reduce(R"("make_L":0)"), HasSubstr("make_L is \"0\"; accepted: a volume above"));
  EXPECT_THAT(reduce(R"("make_L":5,"volume_L":4)"), HasSubstr("make_L is \"beside volume_L\""));
  EXPECT_THAT(reduce(R"("water_at_C":12)"), HasSubstr("volume_L"));
  EXPECT_THAT(post("reduce", R"({"make_L":5,"strength_percent_vol":50,"at_C":20,
                                 "to_percent_vol":60})"),
              HasSubstr("to_percent_vol is \"60.00 %vol\""));
  EXPECT_THAT(reduce(R"("volume_L":4,"weaker":{"volume_L_20C":9,"strength_percent_vol":20})"),
              testing::StartsWith("weaker.volume_L_20C is"));
  EXPECT_THAT(reduce(R"("volume_L":4,"tea":{"volume_L_20C":9,"strength_percent_vol":0,
                        "residue_g_L":8})"),
              testing::StartsWith("tea.volume_L_20C is"));
  EXPECT_THAT(reduce(R"("volume_L":4,"residue_g_L":60)"), HasSubstr("residue_g_L"));
  EXPECT_THAT(reduce(R"("volume_L":4,"found":{"strength_percent_vol":0})"),
              HasSubstr("found.strength_percent_vol is \"0\""));
  EXPECT_THAT(reduce(R"("volume_L":4,"weaker":{"volume_L_20C":1,"strength_percent_vol":20},
                        "tea":{"volume_L_20C":1,"strength_percent_vol":0,"residue_g_L":8})"),
              HasSubstr("weaker is \"beside tea\""));
  EXPECT_THAT(reduce(R"("make_L":1,"weaker":{"volume_L_20C":2,"strength_percent_vol":40})"),
              testing::StartsWith("weaker.volume_L_20C is"));
}

TEST_F(Asked, OfNothingNoStrengthIsTold) {
  const std::string said = post(
      "reduce", R"({"volume_L":0,"strength_percent_vol":0,"at_C":20,"to_percent_vol":40})");
  EXPECT_THAT(said, HasSubstr("volume_L is \"0\"; accepted: a volume above zero."));
  EXPECT_THAT(said,
              HasSubstr("strength_percent_vol is \"0\"; accepted: a strength above zero."));
}

TEST_F(Asked, OfAReadingTheFaultStandsAtTheRequestsField) {
  EXPECT_THAT(post("gauge", R"({"reading":40,"scale":"percent_vol","at_C":60})"),
              testing::StartsWith("at_C is \"60.00 °C\""));
  EXPECT_THAT(post("gravity", R"({"reading":1.05,"scale":"specific_gravity","at_C":90})"),
              testing::StartsWith("at_C is \"90.0 °C\""));
  EXPECT_THAT(post("gravity", R"({"reading":0.9,"scale":"specific_gravity","at_C":20})"),
              testing::StartsWith("reading is "));
}

TEST_F(Asked, AProposedCutKeepsToThePlansHeads) {
  Book book;
  const wire::Example& tern = demo_example("Tern 8");
  book.tell(0, BatchBegun{"Tern 9", "", true});
  book.tell(1, BatchPlanned{tern.recipe, tern.kit});
  const Id run = book.tell(
      10, RunBegun{RunKind::spirit, litres_at_20C(12), percent_at_20C(30), {}, {}, {}});
  const std::vector<std::pair<double, double>> gauged = {
      {0.08, 78.7}, {0.25, 78.4}, {0.45, 77.8}, {0.45, 76.9}, {0.45, 75.8}, {0.45, 74.4},
      {0.45, 72.7}, {0.45, 70.6}, {0.45, 67.9}, {0.45, 64.3}, {0.45, 59.6}, {0.45, 53.2}};
  for (std::size_t i = 0; i < gauged.size(); ++i) {
    book.tell(20.0 + static_cast<double>(i),
              JarGauged{run, static_cast<int>(i) + 1, litres_at_20C(gauged[i].first),
                        percent_at_20C(gauged[i].second)});
  }
  station.keep(book.entries);
  // Tern 8's recipe ends foreshots at 150 mL and heads at 800 mL: jar 2 began before the one,
  // jar 3 mostly ran before the other.
  const std::string said = ask("GET", "/api/v1/runs/" + print(run) + "/cuts?purpose=clean");
  EXPECT_TRUE(said.find(R"("Heads, by the plan","value":"to 800 mL")") != std::string::npos);
  const auto times = [&](const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = said.find(part); at != std::string::npos;
         at = said.find(part, at + 1))
      ++count;
    return count;
  };
  const std::size_t alternatives = times(R"("jar":1,)");
  EXPECT_GE(alternatives, 3U);
  EXPECT_EQ(times(R"("jar":2,"foreshots_mL_20C":250.0,)"), alternatives);
  EXPECT_EQ(
      times(R"("jar":3,"foreshots_mL_20C":0.0,"hearts_mL_20C":0.0,"feints_mL_20C":450.0,)"),
      alternatives);
}

TEST_F(Asked, WhatIsLongIsToldShort) {
  Book book;
  book.tell(0, BatchBegun{"Tern 9", "", true});
  const Id run = book.tell(
      10, RunBegun{RunKind::spirit, litres_at_20C(10), percent_at_20C(28), {}, {}, {}});
  book.tell(20, JarGauged{run, 1, litres_at_20C(1), percent_at_20C(70)});
  station.keep(book.entries);
  const std::string said =
      ask("GET", "/api/v1/runs/" + print(run) + "/cuts?purpose=" + std::string(5000, 'p'));
  EXPECT_THAT(said, HasSubstr(std::string(80, 'p') + "..."));
  EXPECT_LT(said.size(), 300U);
  const std::string key = post("gravity", R"({"":1,")" + std::string(5000, 'k') + "\":1}");
  EXPECT_THAT(key, HasSubstr("\"\" is not known here"));
  EXPECT_LT(key.size(), 1000U);
}

// ---- jars -----------------------------------------------------------------------------------

JarPoured poured_of(int jar, double hearts_L) {
  JarPoured pour;
  pour.jar = jar;
  pour.hearts = units::Volume::litres(hearts_L);
  return pour;
}

// Jars 1, 3 and 4 of a run; jar 3 gauged beyond any still.
ShelfJars misread_shelf() {
  RunState run;
  for (const auto& [number, percent] : {std::pair{1, 78.0}, {3, 98.2}, {4, 60.0}}) {
    JarState jar;
    jar.lot = spirit::lot(units::Volume::litres(0.5), units::VolumeStrength::percent(percent));
    run.jars.emplace(number, jar);
  }
  return shelf_jars(run);
}

std::string refusal_of(const std::vector<JarPoured>& pours) {
  try {
    static_cast<void>(poured(misread_shelf(), pours));
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}

TEST(AMisreadJar, KeepsNoOtherFromBeingPoured) {
  const ShelfJars shelf = misread_shelf();
  const PouredJars of = poured(shelf, {poured_of(1, 0.5), poured_of(4, 0.25)});
  EXPECT_NEAR(of.outcome.hearts.pure_alcohol.litres(), 0.5 * 0.78 + 0.25 * 0.60, 1e-9);
  // Wholly apart is not poured.
  EXPECT_EQ(refusal_of({poured_of(1, 0.5), poured_of(3, 0.0)}), "");
  EXPECT_THAT(wire::poured_json(shelf, of), HasSubstr("gauged at 98.2 %vol, which no still"));
}

TEST(AMisreadJar, IsToldByItsNumber) {
  EXPECT_EQ(refusal_of({poured_of(4, 0.1), poured_of(3, 0.1)}),
            "jars[1].jar is \"3, gauged at 98.2 %vol\"; accepted: a jar gauged above 0, to 97 "
            "%vol, as no still passes the azeotrope; gauge it again.");
  try {
    static_cast<void>(cuts(misread_shelf(), still::purpose("clean")));
    FAIL() << "a proposal is of the whole run";
  } catch (const base::InputError& error) {
    EXPECT_THAT(error.what(), HasSubstr("jar 3 is \"gauged at 98.2 %vol\""));
  }
}

}  // namespace
}  // namespace lynearm::station
