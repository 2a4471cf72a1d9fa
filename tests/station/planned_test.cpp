// Plans by their texts: what a page is told of two texts that it shows as one form.
#include "station/planned.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/error.hpp"
#include "numeric/ensemble.hpp"
#include "station/demo.hpp"

namespace lynearm::station {
namespace {

using ::testing::ElementsAre;

std::vector<std::string> fields_of(const std::string& recipe, const std::string& kit) {
  std::vector<std::string> fields;
  try {
    static_cast<void>(Planned(numeric::one_after_another()).of(recipe, kit, 0));
  } catch (const base::InputError& error) {
    for (const base::Fault& fault : error.faults()) fields.push_back(fault.field);
  }
  return fields;
}

std::string with(std::string_view text, std::string_view old, std::string_view other) {
  std::string made(text);
  EXPECT_NE(made.find(old), std::string::npos) << old;
  return made.replace(made.find(old), old.size(), other);
}

// A fault of the kit came without the prefix when its own text was at fault, and with it when
// the plan was.
TEST(Planned, faultsOfTheKitStandUnderKitWhateverFoundThem) {
  const wire::Example tern = demo_examples().front();
  EXPECT_THAT(
      fields_of(tern.recipe, with(tern.kit, "[boiler]\ntotal = \"", "[boiler]\ntotal = \"x")),
      ElementsAre("kit.boiler.total"));
  EXPECT_THAT(
      fields_of(with(tern.recipe, "[ferment]\nvessel = \"", "[ferment]\nvessel = \"no "),
                tern.kit),
      ElementsAre("ferment.vessel"));
  EXPECT_THAT(fields_of(tern.recipe, "x = = 3"), ElementsAre("the text"));
}

}  // namespace
}  // namespace lynearm::station
