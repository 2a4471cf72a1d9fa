#include "units/print.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

namespace lynearm::units {
namespace {

TEST(Print, TellsTwoApartThatASentenceSetsAgainstEachOther) {
  using Both = std::pair<std::string, std::string>;
  const Volume needs = Volume::litres(6.0);
  EXPECT_EQ(print_apart(Volume::litres(5.4), needs), Both("5.4 L", "6.0 L"));
  EXPECT_EQ(print_apart(Volume::litres(5.97), needs), Both("5.97 L", "6.00 L"));
  EXPECT_EQ(print_apart(Volume::litres(5.9987), needs), Both("5.999 L", "6.000 L"));
  EXPECT_EQ(print_apart(needs, needs), Both("6.0 L", "6.0 L"));
}

TEST(Print, ShowsMetricUsOrBoth) {
  EXPECT_EQ(print(Mass::kilograms(4.5)), "4.50 kg");
  EXPECT_EQ(print(Mass::kilograms(4.5), System::us), "9.92 lb");
  EXPECT_EQ(print(Mass::kilograms(4.5), System::both), "4.50 kg (9.92 lb)");
  EXPECT_EQ(print(Temperature::celsius(66.0), System::both), "66.0 °C (150.8 °F)");
  EXPECT_EQ(print(TemperatureChange::kelvins(2.0), System::both), "2.0 K (3.6 °F)");
  EXPECT_EQ(print(Volume::litres(20.0), System::both), "20.0 L (5.28 gal)");
  EXPECT_EQ(print(Volume::millilitres(750.0), System::both), "750 mL (25.4 fl oz)");
  EXPECT_EQ(print(Pressure::hectopascals(1009.0), System::both), "1009 hPa (29.80 inHg)");
  EXPECT_EQ(print(VolumeFlow::litres_per_minute(4.0), System::both),
            "4.00 L/min (1.06 gal/min)");
  EXPECT_EQ(print(Length::millimetres(250.0), System::both), "25.0 cm (9.84 in)");
}

TEST(Print, WhatBothSystemsShareStandsOnce) {
  EXPECT_EQ(print(Power::kilowatts(3.0), System::both), "3.00 kW");
  EXPECT_EQ(print(Share::percent(75.0), System::both), "75.0 %");
  EXPECT_EQ(print(SpecificGravity::ratio(1.062), System::both), "1.062");
  EXPECT_EQ(print(Plato::degrees(15.2), System::both), "15.2 °P");
  EXPECT_EQ(print(Duration::minutes(70.0), System::both), "1 h 10 min");
}

TEST(Print, TheUnitFitsTheSize) {
  EXPECT_EQ(print(Mass::grams(350.0)), "350 g");
  EXPECT_EQ(print(Mass::grams(5.25)), "5.2 g");
  EXPECT_EQ(print(Mass::kilograms(104.26)), "104.3 kg");
  EXPECT_EQ(print(Mass::kilograms(0.0)), "0.00 kg");
  EXPECT_EQ(print(Volume::litres(-0.25)), "-250 mL");
  EXPECT_EQ(print(Volume::litres(482.13)), "482.1 L");
  EXPECT_EQ(print(Power::watts(750.0)), "750 W");
  EXPECT_EQ(print(Energy::kilojoules(20000.0)), "5.56 kWh");
  EXPECT_EQ(print(Mass::kilograms(4.5), System::metric, 3), "4.500 kg");
}

TEST(Print, ADurationHasTwoUnitsAtMost) {
  EXPECT_EQ(print(Duration::seconds(0.0)), "0 s");
  EXPECT_EQ(print(Duration::seconds(45.0)), "45 s");
  EXPECT_EQ(print(Duration::seconds(59.7)), "1 min");
  EXPECT_EQ(print(Duration::seconds(150.0)), "2 min 30 s");
  EXPECT_EQ(print(Duration::minutes(70.0)), "1 h 10 min");
  EXPECT_EQ(print(Duration::seconds(3599.0)), "1 h");
  EXPECT_EQ(print(Duration::seconds(86399.0)), "1 d");
  EXPECT_EQ(print(Duration::hours(76.0)), "3 d 4 h");
  EXPECT_EQ(print(Duration::days(13.99)), "14 d");
  EXPECT_EQ(print(Duration::days(45.2)), "45 d");
  EXPECT_EQ(print(Duration::months(6.0)), "6.0 months");
  EXPECT_EQ(print(Duration::years(2.5)), "2.5 years");
  EXPECT_EQ(print(Duration::minutes(-90.0)), "-1 h 30 min");
}

TEST(Print, NoZeroHasASign) {
  EXPECT_EQ(print(Temperature::celsius(-0.04)), "0.0 °C");
  EXPECT_EQ(print(Share::percent(-0.01)), "0.0 %");
  EXPECT_EQ(print(-Mass::kilograms(0.0)), "0.00 kg");
  EXPECT_EQ(print(Duration::seconds(-0.2)), "0 s");
  EXPECT_EQ(concise(Temperature::celsius(-1e-12)), "0 °C");
  EXPECT_EQ(concise(-Mass::kilograms(0.0)), "0 kg");
}

TEST(Print, WhatIsNotFiniteIsOurFault) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW((void)print(Mass::kilograms(nan)), base::BrokenInvariant);
  EXPECT_THROW((void)print(Duration::seconds(nan)), base::BrokenInvariant);
  EXPECT_THROW((void)concise(Mass::kilograms(nan)), base::BrokenInvariant);
  EXPECT_THROW((void)exact(Mass::kilograms(HUGE_VAL)), base::BrokenInvariant);
}

TEST(Print, AStrengthMayCarryItsProof) {
  const auto strength = VolumeStrength::percent(55.0);
  EXPECT_EQ(print(strength), "55.0 %vol");
  EXPECT_EQ(print(strength, 110.1, System::metric), "55.0 %vol");
  EXPECT_EQ(print(strength, 110.1, System::us), "110.1 proof");
  EXPECT_EQ(print(strength, 110.1, System::both), "55.0 %vol (110.1 proof)");
  EXPECT_EQ(print(StatedStrength{47.2, StrengthScale::percent_by_mass}), "47.2 %mass");
}

TEST(Print, LimitsAreConcise) {
  EXPECT_EQ(concise(Temperature::celsius(66.0)), "66 °C");
  EXPECT_EQ(concise(Mass::grams(500.0)), "500 g");
  EXPECT_EQ(concise(Share::percent(12.5)), "12.5 %");
  EXPECT_EQ(concise(Volume::litres(1000.0)), "1000 L");
  EXPECT_EQ(concise(Duration::minutes(90.0)), "1 h 30 min");
  // A limit of a room's air was told as "1e+08 L".
  EXPECT_EQ(concise(Volume::litres(1e8)), "100000000 L");
  EXPECT_EQ(concise(Volume::litres(-2345678.4)), "-2345678 L");
}

TEST(Print, PricesAndSpreads) {
  EXPECT_EQ(print(Price{1.2, PricedBy::kilogram}), "1.20 / kg");
  EXPECT_EQ(print(Price{0.9, PricedBy::piece}), "0.90 each");
  EXPECT_EQ(print(Spread<Share>{Share::percent(75.0), Share::percent(4.0)}), "75.0 % ± 4.0 %");
}

// A figure of a size met in a shed, from a ten-millionth to ten million.
double any_figure() {
  const double mantissa =
      *rc::gen::map(rc::gen::inRange(-999999, 1000000), [](int n) { return n / 100000.0; });
  return mantissa * std::pow(10.0, *rc::gen::inRange(-7, 7));
}

RC_GTEST_PROP(PrintProperty, AnyQuantityParsesBackFromItsExactText, ()) {
  for (const Kind* each : kinds()) {
    const double base = any_figure();
    const Parsed<double> back = parse_base_value(exact_base_value(base, *each), *each);
    RC_ASSERT(back);
    const bool percent = each->units.size() == 1 && each->units.front().factor == 1e-2;
    RC_ASSERT(std::abs(*back.value - base) <= (percent ? 1e-15 * std::abs(base) : 0.0));
  }
}

RC_GTEST_PROP(PrintProperty, AnyQuantityParsesBackFromItsPrintWithinTheRounding, ()) {
  for (const Kind* each : kinds()) {
    for (const System system : {System::metric, System::us}) {
      const double base = any_figure();
      const std::string text = print_base_value(base, *each, system, 6);
      const Parsed<double> back = parse_base_value(text, *each);
      RC_ASSERT(back);
      // Half of the sixth decimal in the unit printed, and the rounding of kelvins to degrees.
      const std::size_t space = text.find(' ');
      const Unit* unit = space == std::string::npos ? &each->units.front()
                                                    : each->find(text.substr(space + 1));
      RC_ASSERT(unit != nullptr);
      RC_ASSERT(std::abs(*back.value - base) <=
                0.5000001e-6 * unit->factor +
                    1e-14 * (std::abs(base) + 300.0 * (unit->point > 0)));
    }
  }
}

RC_GTEST_PROP(PrintProperty, AnyDurationParsesBackWithinItsSmallerUnit, ()) {
  const Duration duration = Duration::seconds(std::abs(any_figure()));
  const Duration back = parse<Duration>(print(duration));
  const double smaller = duration < Duration::minutes(10.0) ? 1.0
                         : duration < Duration::days(1.0)   ? 60.0
                         : duration < Duration::days(14.0)  ? 3600.0
                         : duration < Duration::days(90.0)  ? 86400.0
                         : duration < Duration::years(2.0)
                             ? 0.1 * Duration::months(1.0).seconds()
                             : 0.1 * Duration::years(1.0).seconds();
  RC_ASSERT(std::abs((back - duration).seconds()) <= 0.5001 * smaller);
}

}  // namespace
}  // namespace lynearm::units
