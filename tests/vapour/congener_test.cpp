#include "vapour/congener.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <iomanip>
#include <iostream>
#include <set>
#include <string>

#include "base/error.hpp"
#include "spirit/strength.hpp"
#include "vapour/activity.hpp"
#include "vapour/equilibrium.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

using units::MoleFraction;
using units::Pressure;
using units::Temperature;

constexpr Pressure one_atmosphere = Pressure::kilopascals(101.325);

double beside_ethanol(const Congener& row, double x) {
  const auto liquid = MoleFraction::fraction(x);
  return relative_volatility(row, liquid, bubble_point(liquid, one_atmosphere).temperature);
}

TEST(Congeners, AreSixteenEachWithItsOwnId) {
  std::set<std::string_view> ids;
  for (const Congener& row : congeners()) ids.insert(row.id);
  EXPECT_EQ(congeners().size(), congener_count);
  EXPECT_EQ(ids.size(), congener_count);
  for (std::size_t i = 0; i < congener_count; ++i) {
    EXPECT_EQ(congener_index(congeners()[i].id), i);
  }
}

TEST(Congeners, NameTheNearestWhenAnIdIsNotKnown) {
  try {
    (void)congener("ethyl-acetat");
    FAIL() << "an unknown id was taken";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults()[0].field, "congener");
    EXPECT_THAT(error.faults()[0].accepted, testing::StartsWith("ethyl-acetate"));
  }
  EXPECT_THROW((void)congener("xyz"), base::InputError);
}

TEST(Congeners, BoilPureWhereHandbooksSay) {
  // The vapour-pressure equation at the listed boiling point gives one atmosphere: to 2.5 %,
  // which is 0.7 K. Rows that disagree, held to 6 %, 2 K: acetal, ethyl hexanoate and
  // 2-phenylethanol, of which handbooks list points as far apart; ethyl octanoate and
  // decanoate, whose equations end 65 K below.
  const std::set<std::string_view> apart{"acetal", "ethyl-hexanoate", "2-phenylethanol",
                                         "ethyl-octanoate", "ethyl-decanoate"};
  for (const Congener& row : congeners()) {
    const double kPa = std::exp(row.vapour_pressure.log_Pa(row.boils.value.kelvins())) * 1e-3;
    EXPECT_NEAR(kPa / 101.325, 1.0, apart.contains(row.id) ? 0.06 : 0.025) << row.id;
  }
}

TEST(Congeners, ComeWhenTheirVolatilityBesideEthanolSays) {
  const auto at = [](const Congener& row, double percent_vol) {
    const auto x = spirit::mole_fraction(
        spirit::mass_fraction(units::VolumeStrength::percent(percent_vol)));
    return beside_ethanol(row, x.fraction());
  };
  // A spirit run's charge of 28 %vol. The table of docs/accuracy.md is what this prints.
  for (const Congener& row : congeners()) {
    const double alpha = at(row, 28.0);
    const Comes said = alpha > 2.5 ? Comes::early : alpha > 0.6 ? Comes::middle : Comes::late;
    EXPECT_EQ(row.comes, said) << row.id << ' ' << alpha;
    std::cout << row.id << ": " << std::setprecision(2) << at(row, 8.0) << " at 8 %vol, "
              << alpha << " at 28, " << at(row, 60.0) << " at 60, " << at(row, 85.0)
              << " at 85\n";
  }
}

TEST(Congeners, MeetTheConstantInWaterToWhichTheyAreBrought) {
  for (const Congener& row : congeners()) {
    if (!row.brought) continue;
    const auto t = Temperature::kelvins(298.15);
    const double over_water = activity_coefficient(row, MoleFraction::fraction(0.0), t) *
                              std::exp(row.vapour_pressure.log_Pa(298.15));
    EXPECT_NEAR(over_water / row.henry_in_water->value.pascals(), 1.0, 1e-12) << row.id;
    // In ethanol alone the model is as it was.
    const auto ethanol = MoleFraction::fraction(1.0);
    EXPECT_NEAR(std::log(activity_coefficient(row, ethanol, t)),
                trace_log_gamma(row.model, group_molecule(row.model, row.groups), ethanol, t),
                1e-12)
        << row.id;
  }
}

TEST(Congeners, SpreadAtLeastAsFarAsTheModelsStandApart) {
  // Half the distance of two estimates is their standard deviation about the middle. Left out
  // where a model is known to fail: original UNIFAC for methanol and dimethyl sulphide,
  // Dortmund for ethyl lactate; and where the model was brought to a constant.
  for (const Congener& row : congeners()) {
    double sum = 0.0;
    if (row.id != "methanol" && row.id != "dimethyl-sulphide" && row.id != "ethyl-lactate") {
      constexpr double xs[] = {0.0, 0.05, 0.1, 0.2, 0.3, 0.6, 0.9};
      for (const double x : xs) {
        const auto liquid = MoleFraction::fraction(x);
        const auto t = bubble_point(liquid, one_atmosphere).temperature;
        const auto ln = [&](GroupModel model) {
          return trace_log_gamma(model, group_molecule(model, row.groups), liquid, t);
        };
        const double apart = ln(GroupModel::dortmund) - ln(GroupModel::original);
        sum += apart * apart / static_cast<double>(std::size(xs));
      }
    }
    const double half = 0.5 * std::sqrt(sum);
    std::cout << row.id << ": spread " << row.spread.value << ", models " << std::exp(half)
              << '\n';
    EXPECT_GE(std::log(row.spread.value), half) << row.id;
  }
}

RC_GTEST_PROP(Volatility, IsPositiveFiniteAndAsThePressure, ()) {
  const auto x = MoleFraction::fraction(*rc::gen::inRange(0, 1001) * 1e-3);
  const auto t = Temperature::celsius(*rc::gen::inRange(0, 1151) * 0.1);
  const double kPa = *rc::gen::inRange(20, 61);
  const auto all = volatilities(x, t, Pressure::kilopascals(kPa));
  for (std::size_t i = 0; i < congener_count; ++i) {
    const Congener& row = congeners()[i];
    const double k = volatility(row, x, t, Pressure::kilopascals(kPa));
    RC_ASSERT(std::isfinite(k) && k > 0.0);
    RC_ASSERT(std::abs(all[i] / k - 1.0) < 1e-12);
    const double thin = volatility(row, x, t, Pressure::kilopascals(2.0 * kPa));
    RC_ASSERT(std::abs(2.0 * thin / k - 1.0) < 1e-12);
    // Beside ethanol, times ethanol's own, is the same again.
    const double ethanol = activity_coefficients(x, t).ethanol *
                           vapour_pressure(Substance::ethanol, t).kilopascals() / kPa;
    RC_ASSERT(std::abs(relative_volatility(row, x, t) * ethanol / k - 1.0) < 1e-12);
  }
}

TEST(Volatility, MovesSmoothlyFromWaterToEthanol) {
  for (const Congener& row : congeners()) {
    double before = 0.0;
    for (int i = 0; i <= 1000; ++i) {
      const double ln = std::log(beside_ethanol(row, i * 1e-3));
      if (i > 0) {
        EXPECT_LT(std::abs(ln - before), 0.05) << row.id << " at " << i;
      }
      before = ln;
    }
  }
}

TEST(Volatility, OfAceticAcidCountsFromItsSingleMolecules) {
  // At 100 °C the pure acid's vapour is mostly pairs: about a third of its pressure is single
  // molecules, and a trace in water has a volatility of 0.6 to 0.75 (from memory; water is
  // about 1.5 times as volatile).
  const double k = volatility(congener("acetic-acid"), MoleFraction::fraction(0.0),
                              Temperature::celsius(100.0), one_atmosphere);
  EXPECT_GT(k, 0.6);
  EXPECT_LT(k, 0.75);
}

TEST(Volatility, RefusesWhatLiesOutsideItsRange) {
  const Congener& row = congener("methanol");
  const auto x = MoleFraction::fraction(0.5);
  const auto t = Temperature::celsius(80.0);
  EXPECT_THROW((void)volatility(row, MoleFraction::fraction(-0.1), t, one_atmosphere),
               base::InputError);
  EXPECT_THROW((void)volatility(row, x, Temperature::celsius(120.0), one_atmosphere),
               base::InputError);
  EXPECT_THROW((void)volatility(row, x, t, Pressure::kilopascals(200.0)), base::InputError);
  EXPECT_THROW((void)volatilities(x, t, Pressure::kilopascals(10.0)), base::InputError);
}

}  // namespace
}  // namespace lynearm::vapour
