#include "wire/plan_json.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "wire/plan_documents.hpp"

namespace lynearm::wire {
namespace {

using Json = nlohmann::ordered_json;

// The documents are made once for all tests here.
const std::vector<std::string>& documents() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> made;
    for (const Case& one : cases()) made.push_back(document_of(one));
    return made;
  }();
  return all;
}

Json tern() { return Json::parse(documents().front()); }

// Each value that is no object and no list, with the key it stands under (a list's items stand
// under the list's key).
void each_leaf(const Json& value, const std::string& key,
               const std::function<void(const std::string&, const Json&)>& at) {
  if (value.is_object()) {
    for (const auto& item : value.items()) each_leaf(item.value(), item.key(), at);
  } else if (value.is_array()) {
    for (const Json& item : value) each_leaf(item, key, at);
  } else {
    at(key, value);
  }
}

TEST(PlanJson, aPlanIsOneLineOfJsonThatNamesItsFormat) {
  for (const std::string& text : documents()) {
    const Json document = Json::parse(text);
    EXPECT_EQ(document.begin().key(), "format");
    EXPECT_EQ(document["format"], plan_format);
    EXPECT_EQ(text.find('\n'), std::string::npos);
  }
}

TEST(PlanJson, theSamePlanIsTheSameText) {
  for (std::size_t i = 0; i < documents().size(); ++i) {
    EXPECT_TRUE(document_of(cases()[i]) == documents()[i]) << cases()[i].name;
  }
}

TEST(PlanJson, whatIsAbsentIsAnAbsentKeyAndNeverNull) {
  for (const std::string& text : documents()) {
    each_leaf(Json::parse(text), "", [](const std::string& key, const Json& value) {
      EXPECT_FALSE(value.is_null()) << key;
    });
  }
  EXPECT_TRUE(tern().contains("mash"));
  EXPECT_FALSE(Json::parse(documents()[1]).contains("wood"));
  EXPECT_EQ(tern()["kit"]["element_covered_above_L"], 6.0);
  EXPECT_EQ(Json::parse(documents()[1])["kit"]["boiler_heat"], "flame");
  EXPECT_FALSE(Json::parse(documents()[1])["kit"].contains("element_covered_above_L"));
  EXPECT_FALSE(Json::parse(documents()[2]).contains("mash"));
  EXPECT_FALSE(Json::parse(documents()[2])["figures"].contains("dough_in_temperature_C"));
  EXPECT_FALSE(Json::parse(documents()[3])["mash"].contains("draining"));
  EXPECT_FALSE(Json::parse(documents()[3])["figures"]["bottles"].contains("low"));
}

// A key's unit is what stands after the last figure of speech: "spout_percent_vol".
bool names_its_unit(const std::string& key) {
  static const std::vector<std::string> units = {"_kg",          "_g",
                                                 "_mL",          "_L",
                                                 "_L_20C",       "_C",
                                                 "_K",           "_min",
                                                 "_h",           "_days",
                                                 "_years",       "_percent_vol",
                                                 "_fraction",    "_ratio",
                                                 "_kWh",         "_kW",
                                                 "_kPa",         "_L_per_min",
                                                 "_L_per_h",     "_m3_per_h",
                                                 "_g_per_L",     "_mg_per_L",
                                                 "_cm2_per_L",   "_lintner",
                                                 "_plato",       "_pure_alcohol_L",
                                                 "proof_gallons"};
  return std::any_of(units.begin(), units.end(),
                     [&](const std::string& unit) { return key.ends_with(unit); });
}

TEST(PlanJson, everyNumberWithADimensionNamesItsUnitInItsKey) {
  // Counts, ratios that are their own unit, money (in "currency"), and the values of a figure,
  // whose unit is in the figure's own key and beside them.
  const std::set<std::string> bare = {"gravity",       "original_gravity",
                                      "final_gravity", "hexose_per_gram",
                                      "runs",          "bottles",
                                      "staves",        "members",
                                      "failed",        "decimals",
                                      "planned",       "low",
                                      "median",        "high",
                                      "amount",        "amount_per_bottle"};
  std::set<std::string> seen;
  for (const std::string& text : documents()) {
    each_leaf(Json::parse(text), "", [&](const std::string& key, const Json& value) {
      if (!value.is_number()) return;
      seen.insert(key);
      EXPECT_TRUE(names_its_unit(key) || bare.contains(key)) << key;
    });
  }
  for (const std::string& key : bare) EXPECT_TRUE(seen.contains(key)) << key << " is not used";
}

// The library prints a few doubles with 17 digits although ten name them, so the values are
// looked at and not the text.
TEST(PlanJson, figuresAreRoundedToTenSignificantDigits) {
  for (const std::string& text : documents()) {
    each_leaf(Json::parse(text), "", [](const std::string& key, const Json& value) {
      if (!value.is_number_float()) return;
      const double read = value.get<double>();
      ASSERT_TRUE(std::isfinite(read)) << key;
      EXPECT_EQ(std::strtod(fmt::format("{:.9e}", read).c_str(), nullptr), read) << key;
    });
  }
}

TEST(PlanJson, theLedgerSumsToItsTotalsAndCloses) {
  for (const std::string& text : documents()) {
    const Json ledger = Json::parse(text)["ledger"];
    std::map<std::string, double> sums;
    double sum_of_sizes = 0.0;
    for (const Json& entry : ledger["entries"]) {
      const double litres = entry["pure_alcohol_L"].get<double>();
      // 27 CFR 30.11 by way of a litre of pure alcohol, 0.525817 proof gallons (account.hpp).
      EXPECT_NEAR(entry["proof_gallons"].get<double>(), litres * 0.525817,
                  1e-6 * std::abs(litres) + 1e-11);
      sums[entry["flow"]] += litres;
      sum_of_sizes += std::abs(litres);
    }
    // Each entry is rounded to its tenth digit.
    const double rounding = 1e-9 * sum_of_sizes;
    for (const char* flow : {"in", "lost", "kept", "out"}) {
      EXPECT_NEAR(sums[flow],
                  ledger["totals"][std::string(flow) + "_pure_alcohol_L"].get<double>(),
                  rounding)
          << flow;
    }
    EXPECT_NEAR(sums["in"] - sums["lost"] - sums["kept"] - sums["out"], 0.0, rounding);
    EXPECT_NEAR(ledger["totals"]["unaccounted_pure_alcohol_L"].get<double>(), 0.0, rounding);
    EXPECT_GT(sums["out"], 0.0);
  }
}

TEST(PlanJson, theSumsOfOtherPartsAreTheirPartsToo) {
  const Json document = tern();
  double mass = 0.0;
  for (const Json& line : document["mash_bill"]["lines"]) mass += line["mass_kg"].get<double>();
  EXPECT_NEAR(mass, document["mash_bill"]["mass_kg"].get<double>(), 1e-8);
  double alcohol = 0.0;
  const Json spirit = document["spirit_run"];
  for (const auto& fraction : spirit["fractions"].items()) {
    alcohol += fraction.value()["pure_alcohol_L"].get<double>();
  }
  EXPECT_NEAR(alcohol, spirit["run"]["distillate"]["pure_alcohol_L"].get<double>(), 1e-8);
  double cost = 0.0;
  for (const Json& line : document["uses"]["costs"]["lines"]) {
    cost += line["amount"].get<double>();
  }
  EXPECT_NEAR(cost, document["uses"]["costs"]["amount"].get<double>(), 1e-7);
}

TEST(PlanJson, theDocumentIsThePlanItWasMadeFrom) {
  const Case one = cases().front();
  const plan::Plan plan = plan_of(one);
  const Json document = tern();
  const auto expect = [](const Json& json, double value) {
    EXPECT_NEAR(json.get<double>(), value, 1e-9 * (1.0 + std::abs(value)));
  };
  EXPECT_EQ(document["batch"]["name"], "Tern 8");
  EXPECT_EQ(document["mash_bill"]["lines"][0]["use"], "cook");
  expect(document["mash"]["landing"]["temperature_C"],
         plan.mash.mash->cook->landed.contents.temperature.celsius());
  expect(document["mash"]["rest"]["time_min"], 90.0);
  expect(document["wort"]["volume_L_20C"], plan.mash.wort.volume.litres());
  expect(document["ferment"]["strength_percent_vol"], plan.ferment.strength.percent());
  expect(document["strip"]["low_wines"]["volume_L_20C"], plan.strip.low_wines_volume.litres());
  expect(document["spirit_run"]["hearts"]["pure_alcohol_L"],
         spirit::pure_alcohol(plan.spirit.hearts_all).litres());
  expect(document["reduce"]["result"]["strength_percent_vol"], 55.0);
  EXPECT_EQ(document["bottle"]["bottles"], plan.finish.bottle.bottles);
  EXPECT_EQ(document["timeline"]["steps"].size(), plan.timeline.steps.size());
  EXPECT_EQ(document["findings"].size(), plan.findings.size());
}

TEST(PlanJson, theFiguresAreThoseOfThePlanWithTheirBands) {
  const Json figures = tern()["figures"];
  ASSERT_EQ(figures.size(), plan::figures().size());
  const plan::Plan plan = plan_of(cases().front());
  for (const plan::Figure& one : plan::figures()) {
    const Json& entry = figures[std::string(one.key)];
    EXPECT_NEAR(entry["planned"].get<double>(), one.of(plan),
                1e-9 * (1.0 + std::abs(one.of(plan))))
        << one.key;
    EXPECT_LE(entry["low"], entry["median"]) << one.key;
    EXPECT_LE(entry["median"], entry["high"]) << one.key;
  }
  EXPECT_EQ(tern()["ensemble"]["members"], 20);
}

TEST(PlanJson, aCurveIsThinnedButKeepsItsEnds) {
  const plan::Plan plan = plan_of(cases().front());
  for (const std::string& text : documents()) {
    const Json document = Json::parse(text);
    for (const char* stage : {"strip", "spirit_run"}) {
      const Json curve = document[stage]["run"]["curve"];
      EXPECT_LE(curve.size(), curve_points);
      EXPECT_TRUE(std::is_sorted(curve.begin(), curve.end(), [](const Json& a, const Json& b) {
        return a["collected_L_20C"] < b["collected_L_20C"];
      }));
    }
    EXPECT_LE(document["ferment"]["pace"]["course"].size(), curve_points);
    if (!document.contains("mash")) continue;
    EXPECT_LE(document["mash"]["course"].size(), curve_points);
  }
  const Json curve = tern()["strip"]["run"]["curve"];
  EXPECT_NEAR(curve.front()["spout_percent_vol"].get<double>(),
              plan.strip.one.run.first().spout.percent(), 1e-7);
  EXPECT_NEAR(curve.back()["spout_percent_vol"].get<double>(), 10.0, 1e-6);
}

// Thinning must not join the end of one phase with the middle of the next.
TEST(PlanJson, theCourseOfTheMashKeepsWhereItsPhasesMeet) {
  const plan::Plan plan = plan_of(cases().front());
  const mash::Course& whole = plan.mash.mash->course;
  const Json course = tern()["mash"]["course"];
  std::vector<double> borders;
  for (std::size_t i = 1; i < whole.size(); ++i) {
    if (whole[i].phase != whole[i - 1].phase) borders.push_back(whole[i].at.minutes());
  }
  std::vector<double> kept;
  for (std::size_t i = 1; i < course.size(); ++i) {
    if (course[i]["phase"] != course[i - 1]["phase"]) kept.push_back(course[i]["at_min"]);
  }
  EXPECT_GE(borders.size(), 4U);
  EXPECT_THAT(kept, ::testing::Pointwise(::testing::DoubleNear(1e-6), borders));
}

TEST(PlanJson, aNameThatIsNotUtf8DoesNotStopTheDocument) {
  Case one = cases()[2];
  one.recipe.name = "Tern \xFF";
  const Json document = Json::parse(document_of(one));
  EXPECT_EQ(document["batch"]["name"], "Tern \xEF\xBF\xBD");
}

}  // namespace
}  // namespace lynearm::wire
