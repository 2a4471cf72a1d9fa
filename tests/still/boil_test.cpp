// A boiling pot and its head at one moment: the heat must add up, and the head must do what
// makers say of it.
#include "still/boil.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "still/runs.hpp"

namespace lynearm::still {
namespace {

using units::MoleFraction;
using units::Share;
using units::Temperature;

constexpr Temperature room = Temperature::celsius(20.0);

Head losing(double W_per_K, int plates = 0) {
  Head head;
  head.loss = units::HeatLoss::watts_per_kelvin(W_per_K);
  head.plates = plates;
  return head;
}

Boil boil_of(const Head& head, double x, double net_W, double warmed_J_per_K = 4000.0) {
  const BoilingPot pot(at_one_atmosphere(), head, room, warmed_J_per_K);
  BoilingPot::Guess guess;
  return pot.at(700.0, x, net_W, guess);
}

double vapour_J(double liquid) {
  return at_one_atmosphere().vapour_enthalpy(MoleFraction::fraction(liquid)).joules_per_mole();
}
double liquid_J(double x) {
  return at_one_atmosphere().liquid_enthalpy(MoleFraction::fraction(x)).joules_per_mole();
}

RC_GTEST_PROP(Head, TakesTheHeatThatItLoses, ()) {
  const double x = *rc::gen::inRange(1, 800) * 1e-3;
  const double loss = *rc::gen::inRange(1, 40) * 0.1;
  const double net_W = *rc::gen::inRange(400, 5000);
  const int plates = *rc::gen::inRange(0, 4);
  const Boil boil = boil_of(losing(loss, plates), x, net_W);
  RC_ASSERT(!boil.stalled);
  const double lost_W = loss * (boil.passage.top.temperature - room).kelvins();
  RC_ASSERT(std::abs(boil.head_W / lost_W - 1.0) < 1e-9);
  // V H_V = D H_D + L h_b + what the head gives off.
  const double over = boil.on_mol_s / (1.0 - boil.share);
  const double back = over - boil.on_mol_s;
  const double balance_W = over * vapour_J(x) - boil.on_mol_s * vapour_J(boil.passage.top_x) -
                           back * liquid_J(boil.passage.back_x) - boil.head_W;
  RC_ASSERT(std::abs(balance_W) < 1e-7 * net_W);
  // And its ethanol: V y_V = D y_D + L x_b.
  const double ethanol = over * boil.pot.here.vapour.fraction() -
                         boil.on_mol_s * boil.passage.leaving_y - back * boil.passage.back_x;
  RC_ASSERT(std::abs(ethanol) < 1e-10 * over);
}

TEST(Head, SendsMoreBackOverAGentlerFireSoThatTheSpiritIsStronger) {
  double share = 1.0;
  double strength = 1.0;
  for (const double W : {300.0, 600.0, 1200.0, 2400.0, 4800.0}) {
    const Boil boil = boil_of(losing(1.5), 0.1, W);
    EXPECT_LT(boil.share, share);
    EXPECT_LT(boil.passage.leaving_y, strength);
    share = boil.share;
    strength = boil.passage.leaving_y;
  }
}

TEST(Head, OfABareSmallStillSendsSomePercentBack) {
  // 0.15 m² at 12 W/(m² K) over a pot boiled by 3 kW: computed elsewhere, 0.04.
  EXPECT_NEAR(boil_of(losing(0.15 * 12.0), 0.09, 3000.0).share, 0.04, 0.003);
}

TEST(Head, ThatTakesAllTheHeatLetsNothingPass) {
  EXPECT_TRUE(boil_of(losing(10.0), 0.1, 500.0).stalled);
  EXPECT_FALSE(boil_of(losing(10.0), 0.1, 900.0).stalled);
  // Just above what it takes, nearly all runs back.
  const Boil boil = boil_of(losing(10.0), 0.1, 650.0);
  EXPECT_GT(boil.share, 0.9);
}

TEST(Head, StallsJustBelowWhatItTakesWhenVapourBeginsToPass) {
  for (const int plates : {0, 1, 4}) {
    const Head head = losing(5.0, plates);
    const BoilingPot pot(at_one_atmosphere(), head, room, 4000.0);
    const double takes_W = pot.given_off_W(pot.passing_K(0.1));
    EXPECT_TRUE(boil_of(head, 0.1, takes_W * 0.999).stalled) << plates;
    EXPECT_FALSE(boil_of(head, 0.1, takes_W * 1.001).stalled) << plates;
  }
}

TEST(Head, WithoutLossIsThePotAlone) {
  const Boil boil = boil_of(losing(0.0), 0.1, 2000.0);
  EXPECT_EQ(boil.share, 0.0);
  EXPECT_EQ(boil.passage.leaving_y, boil.pot.here.vapour.fraction());
}

TEST(Head, WithCoolingSendsBackWhatTheCoolingIsWorth) {
  Head head = losing(0.0);
  head.cooling = units::Power::watts(1000.0);
  const Boil boil = boil_of(head, 0.1, 2000.0);
  EXPECT_NEAR(boil.head_W, 1000.0, 1e-6);
  EXPECT_NEAR(boil.share, 0.5, 0.02);
}

TEST(Plates, NearTotalRefluxAreAsManyStagesOneAboveTheOther) {
  // At total reflux each ideal stage boils what the one above sends down: the vapour's
  // composition climbs the equilibrium line stage by stage (McCabe and Thiele 1925). The head
  // is one stage and the pot another.
  const auto& curve = at_one_atmosphere();
  for (const int plates : {0, 1, 2, 3}) {
    const Rectifier rectifier(curve, plates, Share::percent(100.0));
    const double x = 0.05;
    const Passage passage =
        rectifier.pass(x, curve.at(MoleFraction::fraction(x)), 1.0 - 1e-9, x);
    double y = x;
    for (int stage = 0; stage < plates + 2; ++stage) {
      y = curve.vapour(MoleFraction::fraction(y)).fraction();
    }
    EXPECT_NEAR(passage.leaving_y, y, 1e-7) << plates;
  }
}

TEST(Plates, MakeTheSpiritStrongerTheMoreTheyAreAndTheBetter) {
  double last = 0.0;
  for (const int plates : {0, 1, 2, 4, 8}) {
    const double y = boil_of(losing(5.0, plates), 0.1, 1500.0).passage.leaving_y;
    EXPECT_GT(y, last);
    last = y;
  }
  Head poor = losing(5.0, 3);
  poor.plate_efficiency = Share::percent(20.0);
  Head good = poor;
  good.plate_efficiency = Share::percent(90.0);
  EXPECT_GT(boil_of(good, 0.1, 1500.0).passage.leaving_y,
            boil_of(poor, 0.1, 1500.0).passage.leaving_y);
}

TEST(Plates, AddNothingToAnAzeotrope) {
  const double x = at_one_atmosphere().azeotrope().fraction();
  const Boil boil = boil_of(losing(2.0, 3), x, 1500.0);
  // The curve's own crossing lies within its accuracy, 5e-8, of the azeotrope.
  EXPECT_NEAR(boil.passage.leaving_y, x, 5e-8);
}

TEST(Congeners, OfATraceThatBehavesAsTheVapourPassUnchanged) {
  // A trace is carried by the same stages as ethanol: with no reflux by the pot's volatility
  // alone, with reflux more for what is more volatile in the head and less for what is less.
  const auto& curve = at_one_atmosphere();
  const vapour::CongenerCurve volatility(curve);
  const double x = 0.1;
  std::array<double, vapour::congener_count> pot{}, plain{}, gentle{};
  volatility.at(MoleFraction::fraction(x), pot);
  const BoilingPot still(curve, losing(2.0), room, 0.0);
  const Boil boil = boil_of(losing(2.0), x, 600.0);
  const Boil none = boil_of(losing(0.0), x, 600.0);
  still.rectifier().pass_congeners(volatility, x, 0.0, none.passage, plain);
  still.rectifier().pass_congeners(volatility, x, boil.share, boil.passage, gentle);
  std::array<double, vapour::congener_count> head{};
  volatility.at(MoleFraction::fraction(boil.passage.top_x), head);
  for (std::size_t i = 0; i < pot.size(); ++i) {
    EXPECT_EQ(plain[i], pot[i]);
    EXPECT_EQ(head[i] > 1.0, gentle[i] > pot[i]) << i;
    // V K_pot x = D y + L y / K_head, by hand.
    EXPECT_NEAR((1.0 - boil.share) * gentle[i] + boil.share * gentle[i] / head[i], pot[i],
                1e-12 * pot[i]);
  }
}

TEST(Head, ThatCannotBeIsRefused) {
  const auto refused = [](Head head, const char* field) {
    try {
      (void)boil_of(head, 0.1, 1000.0);
      ADD_FAILURE() << field;
    } catch (const base::InputError& error) {
      EXPECT_EQ(error.faults().front().field, field);
    }
  };
  Head head;
  head.fixed_reflux = Share::percent(91.0);
  refused(head, "run.head_reflux");
  refused(losing(-1.0), "head.loss");
  refused(losing(1.0, 13), "head.plates");
  refused(losing(1.0, -1), "head.plates");
  head = losing(1.0);
  head.plate_efficiency = Share::percent(0.0);
  refused(head, "head.plate_efficiency");
  head = losing(1.0);
  head.cooling = units::Power::watts(-5.0);
  refused(head, "head.cooling");
}

}  // namespace
}  // namespace lynearm::still
