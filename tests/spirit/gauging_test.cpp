#include "spirit/gauging.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "numeric/ensemble.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Temperature;
using units::TemperatureChange;
using units::Volume;
using units::VolumeStrength;

GaugingInput jar_at_27C() {
  GaugingInput input;
  ByHydrometer by{Reading{62.4}};
  by.most_error = 0.5;
  by.read_to = 0.5;
  input.observation = by;
  input.at = Temperature::celsius(27.5);
  input.thermometer_error = TemperatureChange::kelvins(0.5);
  VolumeRead read{Volume::litres(4.2), {}, Volume::millilitres(30.0)};
  input.amount = read;
  return input;
}

bool has(const Gauging& gauging, GaugingNote note) {
  return std::find(gauging.notes.begin(), gauging.notes.end(), note) != gauging.notes.end();
}

TEST(Gauging, by_hydrometer_is_the_hydrometers_own) {
  const Gauging gauging = gauge(jar_at_27C());
  EXPECT_EQ(gauging.apparent, true_mass_fraction(Reading{62.4}, Temperature::celsius(27.5)));
  EXPECT_NEAR(gauging.ethanol.fraction(), gauging.apparent.fraction(), 1e-14);
  ASSERT_TRUE(gauging.lot.has_value());
  EXPECT_NEAR(gauging.lot->account.alcohol.litres(),
              gauging.lot->account.volume_20C.litres() * gauging.strength.fraction(), 1e-12);
}

// Every instrument pointed at one spirit says the same.
TEST(Gauging, agrees_between_all_instruments) {
  const Temperature t = Temperature::celsius(31.0);
  const units::MassFraction truth = mass_fraction(VolumeStrength::percent(58.0));
  const Flask flask{Volume::millilitres(500.0)};
  const Weighing weighing{units::Mass::grams(180.0)};
  const std::vector<Observation> observations{
      ByHydrometer{shown(truth, t, Scale::percent_vol)},
      ByHydrometer{shown(truth, t, Scale::us_proof)},
      ByHydrometer{shown(truth, t, Scale::density)},
      ByHydrometer{shown(truth, t, Scale::specific_gravity_60F)},
      ByDensity{density(truth, t)},
      ByFlask{flask_shows(truth, t, flask, weighing), flask, weighing},
      ByRefraction{refractive_index(truth, t), Side::weak},
      KnownStrength{VolumeStrength::percent(58.0)}};
  for (const Observation& observation : observations) {
    EXPECT_NEAR(gauge({observation, t}).strength.percent(), 58.0, 1e-7) << observation.index();
  }
}

struct Simulated {
  double strength, volume, alcohol;
};

// Every input drawn from its own uniform distribution, without any slope.
Simulated simulated(const GaugingInput& input, int draws) {
  numeric::Draw draw(11, 0);
  const auto off = [&](double half_width) { return half_width * (2.0 * draw.uniform() - 1.0); };
  double sum[3] = {};
  double squares[3] = {};
  const Gauging middle = gauge(input);
  const double base[3] = {middle.strength.fraction(), middle.lot->account.volume_20C.litres(),
                          middle.lot->account.alcohol.litres()};
  for (int i = 0; i < draws; ++i) {
    const auto& by = std::get<ByHydrometer>(input.observation);
    Reading reading = by.reading;
    reading.figure += off(by.most_error) + off(by.read_to / 2.0);
    const Temperature t =
        input.at + TemperatureChange::kelvins(off(input.thermometer_error.kelvins()));
    const units::Density shown =
        density_shown(reading, t) + units::Density::kilograms_per_cubic_metre(
                                        off(formula_error.kilograms_per_cubic_metre()));
    const units::MassFraction ethanol = mass_fraction_at(shown, t);
    const auto& read = std::get<VolumeRead>(*input.amount);
    const Lot lot = lot_at_mark(read.marked + Volume::litres(off(read.most_error.litres())),
                                ethanol, t, read.vessel);
    const double figures[3] = {volume_strength(ethanol).fraction(), volume(lot).litres(),
                               pure_alcohol(lot).litres()};
    for (int k = 0; k < 3; ++k) {
      const double d = figures[k] - base[k];
      sum[k] += d;
      squares[k] += d * d;
    }
  }
  const auto spread = [&](int k) {
    return std::sqrt(squares[k] / draws - sum[k] / draws * (sum[k] / draws));
  };
  return {spread(0), spread(1), spread(2)};
}

TEST(Gauging, uncertainty_agrees_with_a_simulation) {
  for (const double reading : {12.0, 40.0, 62.4, 88.0}) {
    GaugingInput input = jar_at_27C();
    std::get<ByHydrometer>(input.observation).reading.figure = reading;
    const Gauging gauging = gauge(input);
    const Simulated by_draws = simulated(input, 200'000);
    EXPECT_NEAR(gauging.standard.fraction() / by_draws.strength, 1.0, 0.03) << reading;
    EXPECT_NEAR(gauging.lot->volume_standard.litres() / by_draws.volume, 1.0, 0.03) << reading;
    EXPECT_NEAR(gauging.lot->alcohol_standard.litres() / by_draws.alcohol, 1.0, 0.03)
        << reading;
  }
}

TEST(Gauging, contributions_make_up_the_uncertainty) {
  const Gauging gauging = gauge(jar_at_27C());
  double squares = 0.0;
  for (const Contribution& each : gauging.contributions) {
    squares += each.strength.fraction() * each.strength.fraction();
  }
  EXPECT_NEAR(std::sqrt(squares), gauging.standard.fraction(), 1e-12);
  ASSERT_EQ(gauging.contributions.size(), 5U);
  EXPECT_EQ(gauging.contributions[0].input, "the instrument");
  EXPECT_EQ(gauging.contributions[2].input, "the thermometer");
  EXPECT_LT(gauging.contributions[2].strength,
            VolumeStrength{});  // warmer than thought: weaker
}

TEST(Gauging, without_limits_has_only_the_formulas_own) {
  const Gauging gauging = gauge({ByHydrometer{Reading{62.4}}, Temperature::celsius(20.0)});
  ASSERT_EQ(gauging.contributions.size(), 1U);
  EXPECT_EQ(gauging.contributions[0].input, "the density formula");
  EXPECT_LT(gauging.standard.percent(), 0.02);
}

TEST(Gauging, at_the_ends_of_the_scale_stays_inside) {
  for (const double figure : {0.0, 100.0}) {
    GaugingInput input = jar_at_27C();
    input.at = Temperature::celsius(20.0);
    std::get<ByHydrometer>(input.observation).reading.figure = figure;
    const Gauging gauging = gauge(input);
    EXPECT_NEAR(gauging.strength.percent(), figure, 1e-9);
    EXPECT_GT(gauging.standard.percent(), 0.2);
  }
}

TEST(Gauging, an_index_with_two_strengths_asks_which) {
  const ByRefraction by{units::RefractiveIndex::ratio(1.3650)};
  try {
    static_cast<void>(gauge({by}));
    FAIL() << "1.3650 is the index of two strengths";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "side");
    EXPECT_NE(error.faults().at(0).accepted.find("weak or strong"), std::string::npos);
  }
  const Gauging weak = gauge({ByRefraction{by.index, Side::weak}});
  const Gauging strong = gauge({ByRefraction{by.index, Side::strong}});
  EXPECT_LT(weak.strength, strong.strength);
  EXPECT_EQ(weak.other_side, strong.apparent);
  EXPECT_EQ(strong.other_side, weak.apparent);
}

TEST(Gauging, of_a_wooded_spirit_is_stronger_than_it_reads) {
  GaugingInput input = jar_at_27C();
  input.residue = units::MassConcentration::grams_per_litre(1.5);
  const Gauging wooded = gauge(input);
  const Gauging clear = gauge(jar_at_27C());
  EXPECT_EQ(wooded.apparent, clear.apparent);
  EXPECT_GT(wooded.strength, clear.strength);
  EXPECT_EQ(wooded.lot->account.volume_20C, clear.lot->account.volume_20C);
  EXPECT_GT(wooded.lot->account.alcohol, clear.lot->account.alcohol);
  EXPECT_TRUE(has(wooded, GaugingNote::obscured));
}

TEST(Gauging, warns_of_ice_and_of_warmth) {
  EXPECT_TRUE(
      has(gauge({KnownStrength{VolumeStrength::percent(20.0)}, Temperature::celsius(-15.0)}),
          GaugingNote::may_be_frozen));
  EXPECT_FALSE(
      has(gauge({KnownStrength{VolumeStrength::percent(50.0)}, Temperature::celsius(-15.0)}),
          GaugingNote::may_be_frozen));
  EXPECT_TRUE(
      has(gauge({KnownStrength{VolumeStrength::percent(50.0)}, Temperature::celsius(38.0)}),
          GaugingNote::near_warmest));
}

TEST(Gauging, refuses_a_temperature_outside_the_standard) {
  for (const double t_C : {-20.5, 40.5, std::nan("")}) {
    EXPECT_THROW(static_cast<void>(gauge({KnownStrength{VolumeStrength::percent(50.0)},
                                          Temperature::celsius(t_C)})),
                 base::InputError);
  }
}

TEST(Gauging, names_its_hydrometer_classes) {
  EXPECT_EQ(hydrometer_class("class-2").division_percent, 0.2);
  EXPECT_THROW(static_cast<void>(hydrometer_class("class-9")), base::InputError);
}

}  // namespace
}  // namespace lynearm::spirit
