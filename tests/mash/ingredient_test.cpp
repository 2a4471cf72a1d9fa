#include "mash/ingredient.hpp"

#include <gtest/gtest.h>

#include <set>

#include "base/error.hpp"

namespace lynearm::mash {
namespace {

template <class Q>
void expect_inside_its_range(const Figure<Q>& figure, const std::string& of) {
  EXPECT_LE(figure.low, figure.value) << of;
  EXPECT_LE(figure.value, figure.high) << of;
  EXPECT_FALSE(figure.source.document.empty()) << of;
}

TEST(Ingredient, every_figure_lies_inside_its_range_and_has_a_source) {
  for (const Ingredient& in : ingredients()) {
    expect_inside_its_range(in.extract, in.id);
    expect_inside_its_range(in.coarse_to_fine, in.id);
    expect_inside_its_range(in.moisture, in.id);
    expect_inside_its_range(in.starch, in.id);
    expect_inside_its_range(in.free_fermentable, in.id);
    expect_inside_its_range(in.fermentable, in.id);
    expect_inside_its_range(in.diastatic_power, in.id);
    if (in.gelatinisation) expect_inside_its_range(*in.gelatinisation, in.id);
  }
}

TEST(Ingredient, parts_of_an_extract_never_exceed_it) {
  for (const Ingredient& in : ingredients()) {
    EXPECT_LE(in.starch.value.fraction() + in.free_fermentable.value.fraction(), 1.0) << in.id;
    EXPECT_LE(in.fermentable.value.fraction(),
              in.starch.value.fraction() + in.free_fermentable.value.fraction() + 1e-12)
        << in.id << ": no more can ferment than is starch or sugar";
    if (in.basis == ExtractBasis::as_is) {
      EXPECT_LE(in.extract.value.fraction() + in.moisture.value.fraction(), 1.0 + 1e-9)
          << in.id;
    }
  }
}

TEST(Ingredient, only_raw_grain_and_malt_have_starch_to_gelatinise) {
  for (const Ingredient& in : ingredients()) {
    const bool may = in.sort == Sort::raw_grain || in.sort == Sort::malt;
    EXPECT_EQ(in.gelatinisation.has_value(), may) << in.id;
  }
}

TEST(Ingredient, is_found_by_its_id) {
  EXPECT_EQ(ingredient("rye-malt").name, "Rye malt");
  const auto ids = ingredient_ids();
  EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()).size(), ingredients().size());
  for (const std::string& id : ids) EXPECT_EQ(ingredient(id).id, id);
}

TEST(Ingredient, a_misspelt_id_is_refused_with_the_nearest_one) {
  try {
    (void)ingredient("rye-mald");
    FAIL() << "accepted";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().front().field, "ingredient");
    EXPECT_NE(error.faults().front().accepted.find("rye-malt"), std::string::npos);
  }
}

}  // namespace
}  // namespace lynearm::mash
