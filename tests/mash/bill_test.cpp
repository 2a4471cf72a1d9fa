#include "mash/bill.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "mash/bills.hpp"

namespace lynearm::mash {
namespace {

using units::Mass;
using units::Temperature;

bool wants(const Verdict& verdict, Want want) {
  return std::any_of(verdict.findings.begin(), verdict.findings.end(),
                     [want](const Finding& finding) { return finding.want == want; });
}

TEST(Bill, extract_is_dry_mass_times_analysis_times_grind) {
  const Potential potential = extract_potential({line("barley-malt-pale", 10.0)});
  EXPECT_NEAR(potential.extract.kilograms(), 10.0 * (1 - 0.043) * 0.805 * 0.98, 1e-12);
  EXPECT_LT(potential.least, potential.extract);
  EXPECT_GT(potential.most, potential.extract);
}

TEST(Bill, sugar_counts_as_it_comes) {
  const Potential potential = extract_potential({line("honey", 2.0, Role::as_sugar)});
  EXPECT_NEAR(potential.extract.kilograms(), 1.62, 1e-12);
  EXPECT_EQ(potential.insoluble, Mass());
  EXPECT_EQ(potential.grain, Mass());
}

RC_GTEST_PROP(Bill, mass_is_moisture_extract_and_insoluble_and_shares_add_up, ()) {
  Bill bill;
  const int count = *rc::gen::inRange(1, 6);
  for (int i = 0; i < count; ++i) {
    const auto& in = *rc::gen::elementOf(ingredients());
    const double kg = 0.01 * *rc::gen::inRange(1, 5000);
    bill.push_back({in, Mass::kilograms(kg), is_grain(in) ? Role::dough_in : Role::as_sugar});
  }
  const Potential potential = extract_potential(bill);
  double of_mass = 0.0, of_extract = 0.0;
  for (std::size_t i = 0; i < bill.size(); ++i) {
    const LinePotential& part = potential.lines[i];
    const Mass sum = part.moisture + part.extract + part.insoluble;
    RC_ASSERT(std::abs(sum / bill[i].mass - 1.0) < 1e-12);
    RC_ASSERT(part.insoluble >= Mass());
    of_mass += part.of_mass.fraction();
    of_extract += part.of_extract.fraction();
  }
  RC_ASSERT(std::abs(of_mass - 1.0) < 1e-12);
  RC_ASSERT(std::abs(of_extract - 1.0) < 1e-12);
}

TEST(Bill, cooked_maize_with_strong_malts_converts) {
  const Verdict found = verdict(maize_and_malts(), Temperature::celsius(65.0));
  EXPECT_EQ(found.converts, Converts::yes);
  EXPECT_TRUE(found.findings.empty());
}

TEST(Bill, raw_maize_alone_is_refused_for_cooking_and_for_enzymes) {
  const Verdict found = verdict({line("maize-cracked", 5.0)}, Temperature::celsius(65.0));
  EXPECT_EQ(found.converts, Converts::no);
  EXPECT_TRUE(wants(found, Want::cooking));
  EXPECT_TRUE(wants(found, Want::enzymes));
}

TEST(Bill, raw_rye_needs_a_malt_but_no_cooking) {
  // Common practice, no source: raw rye is not relied on to convert itself.
  const Verdict found = verdict({line("rye-raw", 5.0)}, Temperature::celsius(65.0));
  EXPECT_EQ(found.converts, Converts::no);
  EXPECT_TRUE(wants(found, Want::more_enzymes));
  EXPECT_FALSE(wants(found, Want::cooking));
}

TEST(Bill, cooked_malt_brings_no_enzymes) {
  const Verdict found =
      verdict({line("barley-malt-pale", 5.0, Role::cooked)}, Temperature::celsius(65.0));
  EXPECT_EQ(found.converts, Converts::no);
  EXPECT_TRUE(wants(found, Want::uncooked_malt));
}

TEST(Bill, little_malt_converts_weakly) {
  const Verdict found = verdict({line("maize-flaked", 4.2), line("barley-malt-pale", 5.8)},
                                Temperature::celsius(65.0));
  EXPECT_EQ(found.converts, Converts::weakly);
}

TEST(Bill, sugar_alone_needs_no_mash) {
  EXPECT_EQ(verdict({line("sugar", 5.0, Role::as_sugar)}, Temperature::celsius(65.0)).converts,
            Converts::yes);
}

TEST(Bill, added_malt_reaches_the_wanted_power_exactly) {
  Bill bill = {line("maize-cracked", 8.0, Role::cooked), line("barley-malt-pale", 2.0)};
  const Ingredient& malt = ingredient("barley-malt-distillers");
  const Mass more = malt_to_reach(bill, malt, comfortable_power);
  EXPECT_GT(more, Mass());
  bill.push_back({malt, more, Role::dough_in});
  EXPECT_NEAR(enzyme_power(bill).has.lintner(), 60.0, 1e-12);
  EXPECT_NEAR(malt_to_reach(bill, malt, needed_power).kilograms(), 0.0, 1e-12);
  EXPECT_THROW((void)malt_to_reach(bill, ingredient("oat-malt"), comfortable_power),
               base::InputError);
}

TEST(Bill, silly_lines_are_refused) {
  EXPECT_THROW((void)extract_potential({}), base::InputError);
  EXPECT_THROW((void)extract_potential({line("rye-malt", 0.0)}), base::InputError);
  EXPECT_THROW((void)extract_potential({line("rye-malt", std::nan(""))}), base::InputError);
  EXPECT_THROW((void)extract_potential({line("sugar", 1.0)}), base::InputError);
  EXPECT_THROW((void)extract_potential({line("rye-malt", 1.0, Role::as_sugar)}),
               base::InputError);
  EXPECT_THROW((void)verdict(all_malt(), Temperature::celsius(20.0)), base::InputError);
}

}  // namespace
}  // namespace lynearm::mash
