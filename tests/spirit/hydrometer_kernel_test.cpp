#include "spirit/hydrometer_kernel.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <limits>
#include <optional>
#include <string>

#include "base/error.hpp"
#include "spirit/exact_formula.hpp"

namespace lynearm::spirit {
namespace {

using units::MassFraction;
using units::Temperature;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double inf = std::numeric_limits<double>::infinity();

constexpr std::array<Scale, 8> scales = {Scale::percent_vol,      Scale::percent_vol_15C,
                                         Scale::percent_vol_60F,  Scale::percent_mass,
                                         Scale::us_proof,         Scale::density,
                                         Scale::specific_gravity, Scale::specific_gravity_60F};

std::string scientific(long double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1Le", value);
  return text;
}

Temperature celsius(double t_C) { return Temperature::celsius(t_C); }

// The glasses tried: each scale true where it should be, and some made otherwise.
const std::array<Hydrometer, 4> glasses = {Hydrometer{},
                                           Hydrometer{Temperature::celsius(15.0), 0.0},
                                           Hydrometer{Temperature::celsius(-20.0), 6e-5},
                                           Hydrometer{Temperature::celsius(40.0), 1e-3}};

// The density of a mark by the formula as printed and by halving.
class ExactMarks {
 public:
  ExactMarks(Scale scale, const Hydrometer& glass)
      : scale_(scale),
        own_(reference_of(scale).celsius()),
        glass_(glass.reference.value_or(reference_of(scale)).celsius()) {}

  [[nodiscard]] long double density_kgm3(long double figure) const {
    if (scale_ == Scale::density) return figure;
    if (of_density(scale_)) return figure * glass_.density_kgm3(0.0L);
    const long double share = figure / ends_of(scale_).last;
    return glass_.density_kgm3(
        scale_ == Scale::percent_mass ? share : own_.mass_fraction_of_volume(share));
  }

 private:
  Scale scale_;
  ExactFormula own_, glass_;
};

// So many figures over a scale: of densities, those that some spirit has.
double figure_of(Scale scale, double share) {
  if (scale == Scale::density) return 760.0 + 250.0 * share;
  if (of_density(scale)) return 0.76 + 0.25 * share;
  return ends_of(scale).last * share;
}

// Worst error over a scale against the formula in exact arithmetic.
struct Worst {
  long double everywhere = 0.0L, from_minus_10_C = 0.0L;
  int compared = 0;

  void look(const HydrometerKernel& kernel, const ExactMarks& marks, Scale scale,
            const Hydrometer& glass, int figures, double step_K) {
    const long double reference_C = glass.reference.value_or(reference_of(scale)).celsius();
    for (double t_C = -20.0; t_C <= 40.0; t_C += step_K) {
      const ExactFormula exact(t_C);
      const long double grown =
          1.0L + glass.glass_expansion_per_K * (static_cast<long double>(t_C) - reference_C);
      for (int i = 0; i <= figures; ++i) {
        const double figure = figure_of(scale, static_cast<double>(i) / figures);
        const Found found = kernel.mass_fraction(figure, t_C);
        if (found.fit != Fit::mixture) continue;
        const long double off = std::abs(
            found.mass_fraction - exact.mass_fraction(marks.density_kgm3(figure) / grown));
        everywhere = std::max(everywhere, off);
        if (t_C >= -10.0) from_minus_10_C = std::max(from_minus_10_C, off);
        ++compared;
      }
    }
  }
};

TEST(HydrometerKernel, is_the_formula_in_exact_arithmetic_on_every_scale) {
  Worst worst;
  for (const Scale scale : scales) {
    worst.look(HydrometerKernel(scale), ExactMarks(scale, {}), scale, {}, 100, 1.0);
  }
  // The scale of most glasses, densely.
  worst.look(HydrometerKernel(Scale::percent_vol), ExactMarks(Scale::percent_vol, {}),
             Scale::percent_vol, {}, 400, 0.5);
  EXPECT_LT(worst.everywhere, 1e-13L);
  EXPECT_LT(worst.from_minus_10_C, 2e-14L);
  EXPECT_GT(worst.compared, 60'000);
  RecordProperty("worst_mass_fraction", scientific(worst.everywhere));
  RecordProperty("worst_from_minus_10_C", scientific(worst.from_minus_10_C));
}

TEST(HydrometerKernel, is_as_exact_for_a_glass_made_otherwise) {
  Worst worst;
  for (const Hydrometer& glass : glasses) {
    for (const Scale scale : scales) {
      worst.look(HydrometerKernel(scale, glass), ExactMarks(scale, glass), scale, glass, 40,
                 5.0);
    }
  }
  EXPECT_LT(worst.everywhere, 1e-13L);
  RecordProperty("worst_mass_fraction", scientific(worst.everywhere));
}

TEST(HydrometerKernel, reads_each_mark_as_it_was_made) {
  long double worst = 0.0L;
  for (const Hydrometer& glass : glasses) {
    for (const Scale scale : scales) {
      const Marks marks(scale, glass);
      const MarkCurve curve(marks);
      const ScaleEnds ends = ends_of(scale);
      for (int i = 0; i <= 3000; ++i) {
        const double figure = ends.first + (ends.last - ends.first) * (i / 3000.0);
        worst = std::max<long double>(
            worst, std::abs(curve.density_kgm3(figure) - marks.density_kgm3(figure)));
      }
    }
  }
  EXPECT_LT(worst, 1e-12L);
  RecordProperty("worst_kgm3", scientific(worst));
}

// What true_mass_fraction() says, or nothing when it refuses.
std::optional<double> one_by_one(double figure, Scale scale, double t_C,
                                 const Hydrometer& glass) {
  try {
    return true_mass_fraction({figure, scale}, celsius(t_C), glass).fraction();
  } catch (const base::InputError&) {
    return std::nullopt;
  }
}

TEST(HydrometerKernel, says_what_a_reading_one_by_one_says) {
  int found = 0;
  int refused = 0;
  for (const Hydrometer& glass : glasses) {
    for (const Scale scale : scales) {
      const HydrometerKernel kernel(scale, glass);
      for (double t_C = -22.5; t_C <= 42.5; t_C += 2.5) {
        for (int i = -2; i <= 52; ++i) {
          const double figure = figure_of(scale, i / 50.0);
          const std::optional<double> slow = one_by_one(figure, scale, t_C, glass);
          const Found quick = kernel.mass_fraction(figure, t_C);
          ASSERT_EQ(slow.has_value(), quick.fit == Fit::mixture)
              << figure << " " << words(scale) << " at " << t_C;
          EXPECT_NEAR(quick.mass_fraction, slow.value_or(quick.mass_fraction), 1e-13);
          ++(slow ? found : refused);
        }
      }
    }
  }
  EXPECT_GT(found, 20'000);
  EXPECT_GT(refused, 5'000);
}

TEST(HydrometerKernel, names_the_border_that_stands_against_a_reading) {
  const HydrometerKernel glass(Scale::percent_vol);
  const auto fit = [&](double figure, double t_C) {
    return glass.mass_fraction(figure, t_C).fit;
  };
  EXPECT_EQ(fit(0.0, 20.0), Fit::mixture);
  EXPECT_EQ(fit(100.0, 20.0), Fit::mixture);
  EXPECT_EQ(fit(0.0, 35.0), Fit::denser_than_water);
  EXPECT_EQ(fit(100.0, 5.0), Fit::lighter_than_ethanol);
  for (const double figure : {-1e-9, 100.0000001, -inf, inf, nan, 1e300}) {
    EXPECT_EQ(fit(figure, 20.0), Fit::off_the_scale) << figure;
  }
  for (const double t_C : {-20.0000001, 40.0000001, -inf, inf, nan, 1e300}) {
    EXPECT_EQ(fit(40.0, t_C), Fit::off_the_formula) << t_C;
    EXPECT_THROW(static_cast<void>(glass.column(t_C)), base::InputError);
    EXPECT_THROW(static_cast<void>(glass.shown_figure(0.5, t_C)), base::InputError);
  }
  for (const double p : {-1e-9, 1.0000001, nan}) {
    EXPECT_THROW(static_cast<void>(glass.shown_figure(p, 20.0)), base::InputError) << p;
  }
}

TEST(HydrometerKernel, refuses_a_glass_that_cannot_be) {
  for (const double reference_C : {-20.1, 40.1, nan}) {
    EXPECT_THROW(HydrometerKernel(Scale::density, {celsius(reference_C), 25e-6}),
                 base::InputError);
  }
  for (const double expansion : {-1e-9, 1.1e-3, nan, inf}) {
    EXPECT_THROW(HydrometerKernel(Scale::density, {{}, expansion}), base::InputError);
  }
}

TEST(HydrometerKernel, shows_back_what_it_was_read_as) {
  double worst_share = 0.0;
  for (const Hydrometer& glass : glasses) {
    for (const Scale scale : scales) {
      const HydrometerKernel kernel(scale, glass);
      for (double t_C = -20.0; t_C <= 40.0; t_C += 1.0) {
        for (int i = 0; i <= 100; ++i) {
          const double figure = figure_of(scale, i / 100.0);
          const Found found = kernel.mass_fraction(figure, t_C);
          if (found.fit != Fit::mixture) continue;
          const double off = kernel.shown_figure(found.mass_fraction, t_C) - figure;
          worst_share = std::max(worst_share, std::abs(off) / ends_of(scale).last);
        }
      }
    }
  }
  EXPECT_LT(worst_share, 1e-13);
  RecordProperty("worst_share_of_scale", scientific(worst_share));
}

TEST(HydrometerKernel, shows_what_shown_says_also_past_the_ends) {
  for (const Scale scale : scales) {
    const HydrometerKernel kernel(scale);
    for (double t_C = -20.0; t_C <= 40.0; t_C += 2.5) {
      const HydrometerKernel::Column column = kernel.column(t_C);
      for (int i = 0; i <= 50; ++i) {
        const double p = i / 50.0;
        const double one = shown(MassFraction::fraction(p), celsius(t_C), scale).figure;
        EXPECT_NEAR(kernel.shown_figure(p, t_C), one, 1e-12 * ends_of(scale).last);
        EXPECT_EQ(column.shown_figure(p), kernel.shown_figure(p, t_C));
      }
    }
  }
}

TEST(HydrometerKernel, a_column_says_the_same_as_its_readings) {
  for (const Scale scale : scales) {
    const HydrometerKernel kernel(scale);
    for (double t_C = -20.0; t_C <= 40.0; t_C += 2.5) {
      const HydrometerKernel::Column column = kernel.column(t_C);
      for (int i = -1; i <= 51; ++i) {
        const double figure = figure_of(scale, i / 50.0);
        const Found one = kernel.mass_fraction(figure, t_C);
        const Found of_column = column.mass_fraction(figure);
        EXPECT_EQ(one.fit, of_column.fit);
        EXPECT_EQ(one.mass_fraction, of_column.mass_fraction);
      }
    }
  }
}

TEST(HydrometerKernel, a_higher_reading_means_more_ethanol_also_across_the_stretches) {
  for (const Scale scale : scales) {
    const HydrometerKernel kernel(scale);
    const double sign = of_density(scale) ? -1.0 : 1.0;
    for (double t_C = -20.0; t_C <= 40.0; t_C += 2.5) {
      std::optional<double> before;
      for (int i = 0; i <= 12'800; ++i) {
        const Found found = kernel.mass_fraction(figure_of(scale, i / 12'800.0), t_C);
        if (found.fit != Fit::mixture) continue;
        if (before) {
          ASSERT_GT(sign * (found.mass_fraction - *before), 0.0)
              << words(scale) << " " << i << " at " << t_C;
        }
        before = found.mass_fraction;
      }
    }
  }
}

// Warmer at the same reading means weaker, save where the liquid shrinks when it warms, as
// water does below 4 °C, or swells less than the glass (water below 5.5 °C): weak spirit in the
// cold.
TEST(HydrometerKernel, warmer_at_the_same_reading_means_weaker_where_the_liquid_swells) {
  const HydrometerKernel kernel(Scale::percent_vol);
  constexpr double step_K = 0.25;
  double warmest_other_C = -inf;
  double strongest_other = 0.0;
  for (int q = 0; q <= 200; ++q) {
    for (double t_C = -20.0; t_C < 40.0; t_C += step_K) {
      const Found cold = kernel.mass_fraction(q / 2.0, t_C);
      const Found warm = kernel.mass_fraction(q / 2.0, t_C + step_K);
      if (cold.fit != Fit::mixture || warm.fit != Fit::mixture) continue;
      if (warm.mass_fraction < cold.mass_fraction) continue;
      warmest_other_C = std::max(warmest_other_C, t_C);
      strongest_other = std::max(strongest_other, cold.mass_fraction);
      // The same mixture, heavier when warmer, glass and all.
      EXPECT_LT(kernel.shown_figure(cold.mass_fraction, t_C + step_K), q / 2.0 + 1e-9)
          << q / 2.0 << " at " << t_C;
    }
  }
  EXPECT_LE(warmest_other_C, 5.5);
  EXPECT_LT(strongest_other, 0.19);
  RecordProperty("warmest_other_C", std::to_string(warmest_other_C));
  RecordProperty("strongest_other_mass_fraction", std::to_string(strongest_other));
}

RC_GTEST_PROP(HydrometerKernel, any_answer_weighs_what_the_float_displaces, ()) {
  const Scale scale = scales[*rc::gen::inRange<std::size_t>(0, scales.size())];
  const Hydrometer glass{celsius(*rc::gen::inRange(-2000, 4001) / 100.0),
                         *rc::gen::inRange(0, 1001) * 1e-6};
  const double t_C = *rc::gen::inRange(-2000, 4001) / 100.0;
  const double figure = figure_of(scale, *rc::gen::inRange(0, 1'000'001) / 1e6);
  const Found found = HydrometerKernel(scale, glass).mass_fraction(figure, t_C);
  if (found.fit != Fit::mixture) return;
  RC_ASSERT(found.mass_fraction >= 0.0 && found.mass_fraction <= 1.0);
  const double floats = density(MassFraction::fraction(found.mass_fraction), celsius(t_C))
                            .kilograms_per_cubic_metre();
  const double displaces =
      density_shown({figure, scale}, celsius(t_C), glass).kilograms_per_cubic_metre();
  RC_ASSERT(std::abs(floats - displaces) < 2e-9);
}

}  // namespace
}  // namespace lynearm::spirit
