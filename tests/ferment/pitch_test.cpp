#include "ferment/pitch.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "ferment/warmth.hpp"
#include "ferment/yeast.hpp"

namespace lynearm::ferment {
namespace {

using units::HeatLoss;
using units::Mass;
using units::MassConcentration;
using units::Power;
using units::Volume;

Mass kg(double v) { return Mass::kilograms(v); }

TEST(Pitch, the_usual_dose_is_half_a_gram_a_litre) {
  EXPECT_NEAR(dry_yeast(Volume::litres(100.0)).grams(), 50.0, 1e-9);
}

TEST(Pitch, an_all_malt_wort_feeds_its_yeast_and_a_sugar_wash_does_not) {
  const Volume wash = Volume::litres(100.0);
  const Nutrition malt = nutrition(wash, kg(11.0), {kg(12.57), {}, {}});
  EXPECT_NEAR(malt.supply.milligrams_per_litre(), 185.0, 0.5);
  EXPECT_EQ(malt.shortfall.milligrams_per_litre(), 0.0);
  EXPECT_EQ(malt.diammonium_phosphate.grams(), 0.0);
  const Nutrition sugar = nutrition(wash, kg(16.0), {{}, {}, kg(15.2)});
  EXPECT_EQ(sugar.supply.milligrams_per_litre(), 0.0);
  EXPECT_NEAR(sugar.shortfall.milligrams_per_litre(), 160.0, 1e-9);
}

TEST(Pitch, a_gram_of_diammonium_phosphate_a_litre_adds_212_mg_of_nitrogen) {
  EXPECT_NEAR(nitrogen_in_diammonium_phosphate.fraction(), 0.212, 5e-4);
  const Nutrition n = nutrition(Volume::litres(10.0), kg(2.0), {{}, {}, kg(1.9)});
  EXPECT_NEAR(n.diammonium_phosphate.grams() * nitrogen_in_diammonium_phosphate.fraction(),
              n.shortfall.grams_per_litre() * 10.0, 1e-12);
}

TEST(Pitch, more_malt_in_place_of_sugar_never_feeds_less) {
  double before = -1.0;
  for (double malt = 0.0; malt <= 15.0; malt += 1.0) {
    const auto n = nutrition(Volume::litres(100.0), kg(14.0), {kg(malt), {}, kg(15.0 - malt)});
    EXPECT_GT(n.supply.milligrams_per_litre(), before);
    before = n.supply.milligrams_per_litre();
  }
}

TEST(Pitch, silly_amounts_are_refused) {
  EXPECT_THROW((void)dry_yeast(Volume::litres(100), MassConcentration::grams_per_litre(50)),
               base::InputError);
  EXPECT_THROW((void)dry_yeast(Volume::litres(0)), base::InputError);
  EXPECT_THROW((void)nutrition(Volume::litres(1), kg(-1), {}), base::InputError);
}

TEST(Warmth, one_degree_plato_fermented_lifts_a_sealed_wash_by_about_1_3_kelvin) {
  // By hand: 10 g/L times 560 kJ/kg over 4.2 kJ/(L K).
  const wort::Wort w = wort::wort(Volume::litres(100.0), units::Plato::degrees(15.0));
  EXPECT_NEAR(adiabatic_rise(kg(1.0), heat_capacity(w)).kelvins(), 1.35, 0.1);
}

TEST(Warmth, the_worked_vessel_runs_six_kelvin_above_its_room) {
  // By hand: 65 W at the peak of 100 L of SG 1.060, 11 W/K.
  EXPECT_NEAR(steady_rise(Power::watts(65.0), HeatLoss::watts_per_kelvin(11.0)).kelvins(), 5.9,
              0.05);
  EXPECT_NEAR(usual_heat_loss(Volume::litres(100.0)).watts_per_kelvin(), 11.7, 0.1);
  EXPECT_NEAR(usual_heat_loss(Volume::litres(20.0)).watts_per_kelvin(), 5.0, 1e-9);
  EXPECT_NEAR(usual_heat_loss(Volume::litres(200.0)).watts_per_kelvin(), 17.0, 1e-9);
}

TEST(Warmth, a_heat_outside_the_literature_is_refused) {
  EXPECT_THROW((void)heat(kg(1.0), 100.0), base::InputError);
  EXPECT_THROW((void)steady_rise(Power::watts(1.0), {}), base::InputError);
}

TEST(Yeast, every_row_has_an_ordered_range_and_is_found_by_its_id) {
  for (const Yeast& row : yeasts()) {
    EXPECT_LT(row.coolest.value, row.warmest.value) << row.id;
    EXPECT_GT(row.reach.value.fraction(), 0.5) << row.id;
    EXPECT_LE(row.reach.value.fraction(), 1.0) << row.id;
    EXPECT_EQ(yeast(row.id).name, row.name);
  }
}

TEST(Yeast, an_unknown_yeast_is_refused_with_the_known_ids) {
  try {
    (void)yeast("moonbeam");
    FAIL();
  } catch (const base::InputError& e) {
    EXPECT_NE(e.faults().front().accepted.find("distillers-dry"), std::string::npos);
  }
}

}  // namespace
}  // namespace lynearm::ferment
