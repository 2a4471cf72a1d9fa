// What the types of quantity.hpp forbid is tested by what does not compile.
#include "units/quantity.hpp"

#include <gtest/gtest.h>

#include <concepts>
#include <type_traits>

namespace lynearm::units {
namespace {

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Subtractable = requires(A a, B b) {
  a - b;
};
template <class A, class B>
concept Multipliable = requires(A a, B b) {
  a* b;
};
template <class A, class B>
concept Divisible = requires(A a, B b) {
  a / b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
  a < b;
};

static_assert(Addable<Mass, Mass>);
static_assert(!Addable<Mass, Volume>);
static_assert(!Subtractable<Mass, Volume>);
static_assert(!Comparable<Mass, Volume>);
static_assert(!Addable<Mass, double>);
static_assert(!std::convertible_to<double, Mass>);
static_assert(!std::constructible_from<Mass, double>);
static_assert(!std::convertible_to<Mass, double>);
static_assert(Multipliable<Mass, double> && Multipliable<double, Mass>);
static_assert(!Multipliable<Mass, Mass>);
static_assert(Divisible<Mass, double> && Divisible<Mass, Mass>);
static_assert(!Divisible<Mass, Volume> && !Divisible<double, Mass>);

static_assert(!Addable<Temperature, Temperature>);
static_assert(!Multipliable<Temperature, double>);
static_assert(!Divisible<Temperature, Temperature>);
static_assert(Addable<Temperature, TemperatureChange>);
static_assert(std::same_as<decltype(Temperature{} - Temperature{}), TemperatureChange>);
static_assert(!std::convertible_to<TemperatureChange, Temperature>);

// Shares of different wholes are different kinds.
static_assert(!Addable<MassFraction, VolumeStrength>);
static_assert(!Comparable<MassFraction, MoleFraction>);
static_assert(!Addable<Share, MassFraction>);
static_assert(!Addable<Plato, SpecificGravity>);
static_assert(!Comparable<Power, Energy>);

static_assert(std::is_trivially_copyable_v<Mass> && sizeof(Mass) == sizeof(double));
static_assert(Mass::kilograms(1.0) > Mass::grams(999.0));

TEST(Quantity, AFactoryAndItsAccessorAreInverse) {
  EXPECT_DOUBLE_EQ(Mass::pounds(12.0).pounds(), 12.0);
  EXPECT_DOUBLE_EQ(Volume::us_fluid_ounces(25.4).us_fluid_ounces(), 25.4);
  EXPECT_DOUBLE_EQ(Duration::months(6.0).months(), 6.0);
  EXPECT_DOUBLE_EQ(Pressure::inches_of_mercury(29.92).inches_of_mercury(), 29.92);
  EXPECT_NEAR(Temperature::fahrenheit(158.0).fahrenheit(), 158.0, 1e-12);
  EXPECT_NEAR(Temperature::celsius(66.0).celsius(), 66.0, 1e-12);
}

TEST(Quantity, AmountsScaleAndAccumulate) {
  Mass total = Mass::kilograms(4.5);
  total += Mass::grams(500.0);
  total -= Mass::kilograms(1.0);
  EXPECT_DOUBLE_EQ(total.kilograms(), 4.0);
  EXPECT_DOUBLE_EQ((total * 0.25 + 2.0 * total).kilograms(), 9.0);
  EXPECT_DOUBLE_EQ((-total / 2.0).kilograms(), -2.0);
  EXPECT_DOUBLE_EQ(total / Mass::kilograms(8.0), 0.5);
}

TEST(Quantity, TemperaturesDifferByAChange) {
  const TemperatureChange change = Temperature::celsius(66.0) - Temperature::celsius(20.0);
  EXPECT_NEAR(change.kelvins(), 46.0, 1e-12);
  EXPECT_NEAR(change.fahrenheit_degrees(), 82.8, 1e-12);
  EXPECT_NEAR((Temperature::celsius(20.0) + change).celsius(), 66.0, 1e-12);
}

// Fixed points of the scales, exact by definition of the Fahrenheit scale in use.
TEST(Quantity, FahrenheitMeetsCelsiusAtMinusForty) {
  EXPECT_NEAR(Temperature::fahrenheit(-40.0).celsius(), -40.0, 1e-12);
  EXPECT_NEAR(Temperature::fahrenheit(32.0).kelvins(), 273.15, 1e-12);
  EXPECT_NEAR(Temperature::fahrenheit(212.0).celsius(), 100.0, 1e-12);
}

}  // namespace
}  // namespace lynearm::units
