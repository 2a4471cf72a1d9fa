#include "base/error.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/unknown_key.hpp"

namespace lynearm::base {
namespace {

using ::testing::HasSubstr;

TEST(Fault, IsASentenceWithItsPlace) {
  EXPECT_EQ(sentence({"boiler.power", "3 kg", R"(a power such as "3 kW")", "kit.toml", 12, 9}),
            R"(kit.toml:12:9: boiler.power is "3 kg"; accepted: a power such as "3 kW".)");
}

TEST(Fault, NamesOnlyAsMuchOfThePlaceAsIsKnown) {
  EXPECT_EQ(sentence({"a", "b", "c", "kit.toml", 12, 0}),
            R"(kit.toml:12: a is "b"; accepted: c.)");
  EXPECT_EQ(sentence({"a", "b", "c", "kit.toml", 0, 0}), R"(kit.toml: a is "b"; accepted: c.)");
  EXPECT_EQ(sentence({"a", "b", "c", "", 0, 0}), R"(a is "b"; accepted: c.)");
}

TEST(Fault, OfAMissingFieldSaysSo) {
  EXPECT_EQ(sentence({"mash.mass", "", "a mass", "recipe.toml", 3, 1}),
            "recipe.toml:3:1: mash.mass is missing; accepted: a mass.");
}

TEST(Fault, OfAKeyThatIsNotKnownSaysSoAndNamesTheNearest) {
  EXPECT_EQ(sentence({"second_rest.tiem", std::string(unknown_key),
                      accepted_keys("tiem", {"temperature", "time"}), "r.toml", 4, 1}),
            "r.toml:4:1: second_rest.tiem is not known here; did you mean \"time\"? Accepted "
            "are the keys temperature, time.");
  EXPECT_EQ(
      sentence({"x", std::string(unknown_key), accepted_keys("x", {"temperature"}), "", 0, 0}),
      "x is not known here; accepted are the keys temperature.");
}

TEST(InputError, CarriesOneFault) {
  const InputError error("kit.condenser.inlet_temperature", "180 °C", "0 to 60 °C");
  ASSERT_EQ(error.faults().size(), 1U);
  EXPECT_EQ(error.faults()[0],
            (Fault{"kit.condenser.inlet_temperature", "180 °C", "0 to 60 °C", "", 0, 0}));
  EXPECT_STREQ(error.what(),
               R"(kit.condenser.inlet_temperature is "180 °C"; accepted: 0 to 60 °C.)");
}

TEST(InputError, TellsSeveralFaultsTogetherInTheirOrder) {
  const InputError error(
      {Fault{"a", "1", "x", "f.toml", 2, 1}, Fault{"b", "", "y", "f.toml", 5, 1}});
  EXPECT_EQ(error.faults().size(), 2U);
  EXPECT_STREQ(error.what(),
               "f.toml:2:1: a is \"1\"; accepted: x.\nf.toml:5:1: b is missing; accepted: y.");
}

TEST(InputError, WithoutAFaultIsOurOwnMistake) {
  EXPECT_THROW(InputError(std::vector<Fault>{}), BrokenInvariant);
}

TEST(NotConverged, NamesProcedureAndDetail) {
  EXPECT_STREQ(NotConverged("bubble point", "residual 0.1").what(),
               "bubble point did not converge: residual 0.1");
}

TEST(Ensure, IsSilentWhenThePromiseHolds) { EXPECT_NO_THROW(ensure(true, "holds")); }

TEST(Ensure, ThrowsThePlaceAndThePromise) {
  try {
    ensure(false, "mass is kept");
    FAIL() << "nothing thrown";
  } catch (const BrokenInvariant& broken) {
    EXPECT_THAT(broken.what(), HasSubstr("error_test.cpp:"));
    EXPECT_THAT(broken.what(), HasSubstr("does not hold: mass is kept"));
  }
}

TEST(NearestName, FindsASlipOfThePen) {
  const std::vector<std::string> keys{"rest_temperature", "rest_time", "mass", "kind"};
  EXPECT_EQ(nearest_name("rest_temprature", keys), "rest_temperature");
  EXPECT_EQ(nearest_name("rest_tiem", keys), "rest_time");
  EXPECT_EQ(nearest_name("mas", keys), "mass");
  EXPECT_EQ(nearest_name("mass", keys), "mass");
}

TEST(NearestName, FindsASwapOfNeighboursInAShortWord) {
  EXPECT_EQ(nearest_name("ryte", {"rye", "rytte", "oats"}), "rye");
  EXPECT_EQ(nearest_name("amss", {"mass"}), "mass");
}

TEST(NearestName, OffersNothingFarOff) {
  EXPECT_EQ(nearest_name("colour", {"mass", "kind"}), "");
  EXPECT_EQ(nearest_name("", {"mass"}), "");
  EXPECT_EQ(nearest_name("mass", {}), "");
}

}  // namespace
}  // namespace lynearm::base
