#include <gtest/gtest.h>

#include "cli/json.hpp"
#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

Json reduced(const std::string& volume, const std::string& strength, const std::string& to) {
  return answer({"reduce", "--volume", volume, "--strength", strength, "--to", to});
}

TEST(Reduce, of4LitresFrom70To55) {
  const auto object = reduced("4 L", "70 %vol", "55 %vol");
  // Alcohol stays: 4 L x 0.70 / 0.55. Water: the difference of the masses.
  EXPECT_NEAR(object["final_volume_L_20C"].get<double>(), 4.0 * 0.70 / 0.55, 1e-8);
  EXPECT_NEAR(object["final_volume_L_20C"].get<double>(), 5.091, 0.0005);
  EXPECT_NEAR(object["water_mass_kg"].get<double>(), 1.141, 0.0005);
  // Water at 20 °C has 998.201 kg/m³ (OIML R 22), so the litres follow from the kilograms.
  EXPECT_NEAR(object["water_volume_L_20C"].get<double>(),
              object["water_mass_kg"].get<double>() / 0.99820123, 1e-8);
  EXPECT_NEAR(object["contraction_L"].get<double>(),
              4.0 + object["water_volume_L_20C"].get<double>() -
                  object["final_volume_L_20C"].get<double>(),
              1e-8);
}

TEST(Reduce, theFirstKeysAreFixed) {
  const std::vector<std::string> fixed{"water_mass_kg", "water_volume_L_20C",
                                       "final_volume_L_20C", "contraction_L"};
  EXPECT_EQ(first_keys(reduced("4 L", "70 %vol", "55 %vol"), fixed.size()), fixed);
}

TEST(Reduce, toItsOwnStrengthAddsNothing) {
  const auto object = reduced("4 L", "55 %vol", "55 %vol");
  EXPECT_EQ(object["water_mass_kg"], 0.0);
  EXPECT_EQ(object["contraction_L"], 0.0);
  EXPECT_EQ(object["final_volume_L_20C"], 4.0);
}

TEST(Reduce, scalesMayBeMixed) {
  const auto object = reduced("1 gal", "150 proof", "40 %mass");
  EXPECT_NEAR(object["spirit_volume_L_20C"].get<double>(), 3.785411784, 1e-8);
  // Ethanol by mass stays: 40 % of what comes out is what went in.
  const double ethanol_kg = object["pure_alcohol_L_20C"].get<double>() * 0.789239;
  EXPECT_NEAR(ethanol_kg / object["final_mass_kg"].get<double>(), 0.40, 1e-5);
}

TEST(Reduce, waterCannotStrengthen) {
  const Ran ran =
      lynearm({"reduce", "--volume", "4 L", "--strength", "55 %vol", "--to", "70 %vol"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err,
            "--to is \"70 %vol\"; accepted: above 0 and at most the spirit's own 55.00 %vol; "
            "water cannot strengthen it.\n");
}

TEST(Reduce, unitsChooseWhatIsShown) {
  const std::vector<std::string> asked{"reduce",  "--volume", "4 L",     "--strength",
                                       "70 %vol", "--to",     "55 %vol", "--units"};
  const auto with = [&](const std::string& units) {
    std::vector<std::string> all = asked;
    all.push_back(units);
    return lynearm(all).out;
  };
  EXPECT_NE(with("metric").find("1.14 kg of water"), std::string::npos);
  EXPECT_NE(with("us").find("2.52 lb of water"), std::string::npos);
  EXPECT_NE(with("both").find("1.14 kg (2.52 lb) of water"), std::string::npos);
}

TEST(Reduce, theWayBackGivesWhatWentIn) {
  const auto forward = reduced("4 L", "70 %vol", "55 %vol");
  const std::string water =
      std::to_string(forward["water_mass_kg"].get<double>() * 1000.0) + " g";
  const auto after =
      answer({"reduce", "--volume", "4 L", "--strength", "70 %vol", "--water", water});
  EXPECT_NEAR(after["final_strength_percent_vol_20C"].get<double>(), 55.0, 1e-5);
  const std::string result = std::to_string(forward["final_volume_L_20C"].get<double>()) + " L";
  const auto before =
      answer({"reduce", "--volume", result, "--strength", "55 %vol", "--had-water", water});
  EXPECT_NEAR(before["spirit_volume_L_20C"].get<double>(), 4.0, 1e-5);
  EXPECT_NEAR(before["spirit_strength_percent_vol_20C"].get<double>(), 70.0, 1e-4);
  const auto made =
      answer({"reduce", "--make", result, "--strength", "70 %vol", "--to", "55 %vol"});
  EXPECT_NEAR(made["spirit_volume_L_20C"].get<double>(), 4.0, 1e-5);
}

TEST(Reduce, stepsAddUpToTheWhole) {
  const auto object = answer({"reduce", "--volume", "4 L", "--strength", "70 %vol", "--to",
                              "46 %vol", "--steps", "4"});
  double water = 0.0;
  for (const auto& step : object["steps"]) water += step["water_mass_kg"].get<double>();
  EXPECT_EQ(object["steps"].size(), 4U);
  EXPECT_NEAR(water, object["water_mass_kg"].get<double>(), 1e-8);
}

TEST(Reduce, theScaleShowsVesselSpiritAndWaterInAir) {
  const auto object = answer({"reduce", "--weight", "5.8 kg", "--tare", "2.1 kg", "--strength",
                              "70 %vol", "--to", "46 %vol"});
  // A spirit of 0.94 kg/L weighs 0.11 % less in air of 1.2 kg/m³ than its mass (OIML D 28).
  const double mass = object["final_mass_kg"];
  EXPECT_NEAR(object["scale_shows_kg"].get<double>(),
              2.1 + mass * (1.0 - 1.2 / 937.7 + 1.2 / 8000), 1e-4);
}

TEST(Reduce, warmSpiritHasLessInALitre) {
  const auto warm = answer({"reduce", "--volume", "4 L", "--at", "30 C", "--strength",
                            "70 %vol", "--to", "55 %vol"});
  EXPECT_LT(warm["water_mass_kg"].get<double>(),
            reduced("4 L", "70 %vol", "55 %vol")["water_mass_kg"].get<double>());
  EXPECT_NEAR(warm["spirit_volume_L"].get<double>(), 4.0, 1e-9);
}

TEST(Reduce, whatWasFoundIsMended) {
  const auto strong = answer({"reduce", "--volume", "4 L", "--strength", "70 %vol", "--to",
                              "55 %vol", "--found", "55.5 %vol"});
  EXPECT_EQ(strong["remedy"], "add_water");
  const auto weak = answer({"reduce", "--volume", "4 L", "--strength", "70 %vol", "--to",
                            "55 %vol", "--found", "54.2 %vol"});
  EXPECT_EQ(weak["remedy"], "add_spirit");
  EXPECT_NEAR(weak["final_strength_percent_vol_20C"].get<double>(), 55.0, 1e-8);
}

TEST(Reduce, teaObscuresWhatIsTrue) {
  const auto object =
      answer({"reduce", "--volume", "4 L", "--strength", "62 %vol", "--to", "46 %vol",
              "--residue", "1.5 g/L", "--tea", "0.3 L @ 0 %vol", "--tea-residue", "8 g/L"});
  EXPECT_NEAR(object["obscured"]["true_strength_percent_vol_20C"].get<double>(), 46.0, 1e-8);
  EXPECT_LT(object["obscured"]["apparent_strength_percent_vol_20C"].get<double>(), 46.0);
  // What was dissolved is still there.
  EXPECT_NEAR(object["obscured"]["residue_g_L"].get<double>() *
                  object["final_volume_L_20C"].get<double>(),
              4.0 * 1.5 + 0.3 * 8.0, 1e-6);
}

}  // namespace
}  // namespace lynearm::cli
