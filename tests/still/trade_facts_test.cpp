// Facts that every maker of a small pot knows, from the still the commands take when no kit is
// given: 20 L, bare copper head by its estimated heat loss. All common practice, no source,
// unless said otherwise; the bands are what "about" and "near" are taken to mean.
#include <gtest/gtest.h>

#include <cmath>

#include "cli/still_options.hpp"
#include "plan/still_setting.hpp"
#include "spirit/strength.hpp"
#include "still/congeners_of_run.hpp"
#include "still/cuts.hpp"
#include "still/runs.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::still {
namespace {

using units::Power;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

constexpr double boiler_L = 20.0;
constexpr double fill_L = 14.0;  // 70 %
constexpr double wash_L = 13.5;  // 67.5 %

const vapour::CongenerCurve& volatility() {
  static const vapour::CongenerCurve curve(at_one_atmosphere());
  return curve;
}

Run run_at(double watts, double litres, double percent, double stop_percent,
           std::optional<units::HeatLoss> head = std::nullopt) {
  plan::Kit kit = cli::usual_still(Volume::litres(fill_L));
  EXPECT_NEAR(kit.still.boiler.total.litres(), boiler_L, 1e-9);
  if (head) kit.still.head_loss = units::Spread<units::HeatLoss>{*head, {}};
  RunSetting setting = plan::run_setting(kit, Power::watts(watts), true);
  Charge charge = charge_of(litres, percent);
  charge.congeners = usual_amounts(spirit::pure_alcohol(charge.spirit));
  return distil(charge, setting, at_one_atmosphere(), spout_at(stop_percent), &volatility());
}

Point at_strength(const Run& run, double percent) {
  const auto found = when_spout_falls_to(run, VolumeStrength::percent(percent));
  EXPECT_TRUE(found.has_value()) << percent;
  return found.value_or(run.first());
}

TEST(TradeFacts, ThreeStripsOfOneBoilerGiveAboutOneSpiritCharge) {
  // 8 % wash to 10 % at the spout, hard driven. The three low wines, watered to the 28 % that a
  // spirit charge has, fill the boiler half to 70 %, which is how full it may be.
  const still::Run strip = run_at(2000.0, wash_L, 8.0, 10.0);
  const double pure_L = 3.0 * strip.last().pure_alcohol.litres();
  const double charge_L = pure_L / 0.28;
  EXPECT_GE(charge_L, 0.5 * boiler_L);
  EXPECT_LE(charge_L, 0.7 * boiler_L);
  // Undiluted they are 25 to 35 %, and nearly half of the boiler.
  EXPECT_GE(strip.last().cumulative.percent(), 25.0);
  EXPECT_LE(strip.last().cumulative.percent(), 35.0);
  EXPECT_NEAR(3.0 * strip.last().collected.litres(), 0.47 * boiler_L, 0.05 * boiler_L);
  // Four would not fit with the feints of the run before; two would leave the pot half empty.
  EXPECT_LT(2.0 / 3.0 * charge_L, 0.5 * boiler_L);
}

TEST(TradeFacts, HeadAtNinetyDegreesMeansSixtyFivePercentAtTheSpout) {
  for (const double watts : {800.0, 1200.0, 2000.0}) {
    const still::Run run = run_at(watts, fill_L, 28.0, 10.0);
    const auto ninety = when_head_rises_to(run, Temperature::celsius(90.0));
    ASSERT_TRUE(ninety.has_value());
    EXPECT_NEAR(ninety->spout.percent(), 65.0, 1.0) << watts;
    // 56 % follows at 92 to 93 °C, after some more of it.
    const Point later = at_strength(run, 56.0);
    EXPECT_GE(later.head_temperature.celsius(), 92.0) << watts;
    EXPECT_LE(later.head_temperature.celsius(), 93.0) << watts;
    EXPECT_GT(later.collected, ninety->collected);
  }
}

TEST(TradeFacts, AGentlerFireStartsStrongerAndEndsSharper) {
  // Sharper: less is collected, of all that has come by then, while the spout falls from 65 to
  // 30 %vol.
  double first = 0.0;
  double smearing = 1.0;
  double smearing_of_3_kW = 0.0;
  double stronger_L = 0.0;
  for (const double watts : {3000.0, 2000.0, 1500.0, 1200.0, 1000.0, 800.0, 600.0}) {
    const still::Run run = run_at(watts, fill_L, 28.0, 10.0);
    const double upper_L = at_strength(run, 65.0).collected.litres();
    const double lower_L = at_strength(run, 30.0).collected.litres();
    EXPECT_GT(run.first().spout.percent(), first) << watts;
    EXPECT_LT((lower_L - upper_L) / lower_L, smearing) << watts;
    // And more of it comes above 65 %, although the whole is less.
    EXPECT_GT(upper_L, stronger_L) << watts;
    first = run.first().spout.percent();
    smearing = (lower_L - upper_L) / lower_L;
    stronger_L = upper_L;
    if (watts == 3000.0) smearing_of_3_kW = smearing;
  }
  // From 3 kW to 600 W: some five more %vol at first, and nearly a third less smeared.
  EXPECT_GT(first, run_at(3000.0, fill_L, 28.0, 10.0).first().spout.percent() + 4.0);
  EXPECT_LT(smearing, 0.75 * smearing_of_3_kW);
}

TEST(TradeFacts, TheReasonIsWhatTheHeadLosesToTheRoom) {
  // The head gives off nearly the same heat at any fire, so of less vapour a greater share
  // falls back; a head that loses nothing makes no difference between fires.
  const still::Run gentle = run_at(800.0, fill_L, 28.0, 10.0);
  const still::Run fierce = run_at(2000.0, fill_L, 28.0, 10.0);
  EXPECT_GT(gentle.first().back.fraction(), 2.5 * fierce.first().back.fraction());
  const auto lagged = units::HeatLoss{};
  EXPECT_NEAR(run_at(800.0, fill_L, 28.0, 10.0, lagged).first().spout.percent(),
              run_at(2000.0, fill_L, 28.0, 10.0, lagged).first().spout.percent(), 1e-6);
}

TEST(TradeFacts, ASpiritRunWithDefaultsCutsAsUsual) {
  // Begins at 75 to 80 %; hearts 73 to 62 % are 63 to 71 % strong and hold a third to two
  // thirds of the alcohol; the run lasts some hours.
  const still::Run run = run_at(1200.0, fill_L, 28.0, 10.0);
  EXPECT_GE(run.first().spout.percent(), 75.0);
  EXPECT_LE(run.first().spout.percent(), 80.0);
  const Cuts cuts = cut(run, {Volume::litres(0.01 * fill_L), VolumeStrength::percent(73.0),
                              VolumeStrength::percent(62.0)});
  EXPECT_GE(cuts.hearts.strength.percent(), 63.0);
  EXPECT_LE(cuts.hearts.strength.percent(), 71.0);
  const double share = cuts.hearts.lot.ethanol / run.charge.spirit.ethanol;
  EXPECT_GE(share, 0.30);
  EXPECT_LE(share, 0.67);
  EXPECT_GE(run.last().since_boiling.hours(), 2.0);
  EXPECT_LE(run.last().since_boiling.hours(), 8.0);
}

// Come over first third of a run's volume, of what was charged, over the same of alcohol.
double first_third(const Run& run, std::string_view id) {
  const std::size_t c = vapour::congener_index(id);
  const Volume third = run.last().collected / 3.0;
  const double congener = congeners_to(run, third).grams[c] / run.charge.congeners->grams[c];
  const double alcohol =
      point_at_volume(run, third).pure_alcohol / spirit::pure_alcohol(run.charge.spirit);
  return congener / alcohol;
}

TEST(TradeFacts, HigherAlcoholsRunAheadInAStrip) {
  // Over weak wash they are more volatile than ethanol: 1.5 to 2.2 times, 1-propanol 0.9 to 1.2
  // (from memory, within 40 %); so the first third carries more than its share of them.
  const still::Run strip = run_at(2000.0, wash_L, 8.0, 10.0);
  for (const char* id : {"isobutanol", "active-amyl-alcohol", "isoamyl-alcohol"}) {
    EXPECT_GE(first_third(strip, id), 1.2) << id;
    EXPECT_LE(first_third(strip, id), 2.05) << id;
  }
  EXPECT_NEAR(first_third(strip, "1-propanol"), 1.05, 0.2);
}

TEST(TradeFacts, InASpiritRunTheyComeWithTheHearts) {
  // Not tails-like at these strengths: most have come when the spout is at 60 %.
  const still::Run run = run_at(1200.0, fill_L, 28.0, 10.0);
  const CongenerAmounts by_then = congeners_to(run, at_strength(run, 60.0).collected);
  for (const char* id :
       {"1-propanol", "isobutanol", "active-amyl-alcohol", "isoamyl-alcohol"}) {
    const std::size_t c = vapour::congener_index(id);
    EXPECT_GT(by_then.grams[c] / run.charge.congeners->grams[c], 0.6) << id;
  }
}

TEST(TradeFacts, MethanolRunsThroughTheWholeRun) {
  // It does not gather in the heads of a charge this weak: by alcohol it stays as it began, and
  // rises in the tails. So no cut takes it out.
  for (const still::Run& run :
       {run_at(2000.0, wash_L, 8.0, 10.0), run_at(1200.0, fill_L, 28.0, 10.0)}) {
    const double first = first_third(run, "methanol");
    EXPECT_GE(first, 0.6);
    EXPECT_LE(first, 1.0);
    const std::size_t c = vapour::congener_index("methanol");
    double at_first = 0.0;
    double before = 0.0;
    for (int i = 1; i <= 10; ++i) {
      const Volume from = run.last().collected * ((i - 1) / 10.0);
      const Volume to = run.last().collected * (i / 10.0);
      const double grams = congeners_to(run, to).grams[c] - congeners_to(run, from).grams[c];
      const double by_alcohol = grams / (point_at_volume(run, to).pure_alcohol -
                                         point_at_volume(run, from).pure_alcohol)
                                            .litres();
      if (i == 1) at_first = by_alcohol;
      EXPECT_GT(by_alcohol, 0.95 * at_first) << i;
      if (i > 5) {
        EXPECT_GT(by_alcohol, before) << i;
      }
      before = by_alcohol;
    }
    EXPECT_GT(before, 1.3 * at_first);
  }
}

TEST(TradeFacts, FurfuralPhenylethanolAndAcidsRiseInTheTails) {
  const still::Run run = run_at(1200.0, fill_L, 28.0, 5.0);
  const Volume hearts = at_strength(run, 65.0).collected;
  const Volume end = run.last().collected;
  const double in_hearts = point_at_volume(run, hearts).pure_alcohol.litres();
  const double in_tails = run.last().pure_alcohol.litres() - in_hearts;
  for (const char* id : {"furfural", "2-phenylethanol", "acetic-acid", "ethyl-lactate"}) {
    const std::size_t c = vapour::congener_index(id);
    const double early = congeners_to(run, hearts).grams[c] / in_hearts;
    const double late =
        (congeners_to(run, end).grams[c] - congeners_to(run, hearts).grams[c]) / in_tails;
    // Per litre of pure alcohol, at least three times as much after 65 % as before.
    EXPECT_GT(late, 3.0 * early) << id;
  }
}

TEST(TradeFacts, LightOnesAndLongEstersComeFirst) {
  const still::Run run = run_at(1200.0, fill_L, 28.0, 10.0);
  for (const char* id : {"acetaldehyde", "ethyl-acetate", "dimethyl-sulphide",
                         "ethyl-hexanoate", "ethyl-octanoate", "ethyl-decanoate"}) {
    EXPECT_GT(first_third(run, id), 1.5) << id;
  }
}

TEST(TradeFacts, AParrotShowsTheHeartsLate) {
  plan::Kit kit = cli::usual_still(Volume::litres(fill_L));
  kit.still.parrot_holds = Volume::millilitres(300.0);
  const RunSetting setting = plan::run_setting(kit, Power::watts(1200.0), true);
  const still::Run late =
      distil(charge_of(fill_L, 28.0), setting, at_one_atmosphere(), spout_at(10.0));
  const still::Run prompt = run_at(1200.0, fill_L, 28.0, 10.0);
  const auto head = Temperature::celsius(91.0);
  EXPECT_GT(when_head_rises_to(late, head)->spout, when_head_rises_to(prompt, head)->spout);
}

}  // namespace
}  // namespace lynearm::still
