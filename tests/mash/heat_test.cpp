#include "mash/heat.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>

#include "base/error.hpp"
#include "mash/cooling.hpp"

namespace lynearm::mash {
namespace {

using units::Duration;
using units::HeatCapacity;
using units::HeatLoss;
using units::Mass;
using units::Power;
using units::Share;
using units::Temperature;
using units::Volume;

TEST(Heat, a_mash_at_3_4_litres_a_kilogram_holds_3_6_to_3_7_kJ_per_kg_and_kelvin) {
  // A usual figure (computed, not measured) is 3.6 to 3.7. At 3 L/kg and 4 % moisture the
  // mass-weighted mean is 3.55, 2 % under it; from 3.3 L/kg on it lies inside.
  Contents mash;
  mash.water = Mass::kilograms(3.4);
  mash.grain = Mass::kilograms(1.0);
  mash.moisture = Share::percent(4.0);
  EXPECT_NEAR(heat_capacity(mash).kilojoules_per_kelvin() / mash.mass().kilograms(), 3.65,
              0.06);
}

TEST(Heat, water_keeps_its_mass_and_changes_its_volume) {
  const Contents cold = water(Volume::litres(20.0), Temperature::celsius(20.0));
  EXPECT_NEAR(cold.water.kilograms(), 19.964, 0.001);  // 998.2 kg/m³
  Contents hot = cold;
  hot.temperature = Temperature::celsius(100.0);
  // 958.36 kg/m³ at 100 °C: CRC Handbook, from memory.
  EXPECT_NEAR(volume(hot).litres(), 19.964 / 0.95836, 0.002);
}

RC_GTEST_PROP(Heat, mixing_keeps_the_heat_and_lies_between, ()) {
  std::vector<Body> bodies;
  const int count = *rc::gen::inRange(1, 6);
  double low = 1e9, high = -1e9, capacity = 0.0, heat = 0.0;
  for (int i = 0; i < count; ++i) {
    const double c = 0.1 * *rc::gen::inRange(1, 10000);
    const double t = 0.1 * *rc::gen::inRange(0, 1000);
    bodies.push_back({HeatCapacity::joules_per_kelvin(c), Temperature::celsius(t)});
    low = std::min(low, t);
    high = std::max(high, t);
    capacity += c;
    heat += c * t;
  }
  const double mixed = mixing_temperature(bodies).celsius();
  RC_ASSERT(mixed >= low - 1e-9);
  RC_ASSERT(mixed <= high + 1e-9);
  RC_ASSERT(std::abs(mixed * capacity - heat) < 1e-8 * (heat + 1.0));
}

TEST(Heat, drier_grain_gives_more_hydration_heat) {
  double before = 1e9;
  for (double moisture = 0.0; moisture <= 20.0; moisture += 1.0) {
    const double now =
        hydration_heat(Mass::kilograms(1.0), Share::percent(moisture)).kilojoules();
    EXPECT_LT(now, before) << moisture;
    before = now;
  }
  EXPECT_EQ(before, 0.0);
}

TEST(Heat, silly_input_is_refused) {
  EXPECT_THROW((void)hydration_heat(Mass::kilograms(1), Share::percent(31)), base::InputError);
  EXPECT_THROW((void)water(Volume::litres(1), Temperature::celsius(101)), base::InputError);
  EXPECT_THROW((void)mixing_temperature({}), base::InputError);
}

struct BareVessel {
  double litres, W_per_K;
};

TEST(Cooling, bare_vessels_lose_what_the_textbook_figure_gives) {
  // Computed: cylinders as high as wide at 9 W/(m² K), rounded.
  for (const BareVessel& row : {BareVessel{20, 3.7}, {50, 6.8}, {100, 10.7}, {200, 17.0}}) {
    EXPECT_NEAR(bare_heat_loss(Volume::litres(row.litres)).watts_per_kelvin(), row.W_per_K,
                0.06)
        << row.litres << " L";
  }
}

TEST(Cooling, a_full_bare_50_L_vessel_at_65_C_falls_5_to_6_K_in_the_first_hour) {
  const Contents body = water(Volume::litres(50.0), Temperature::celsius(65.0));
  const Cooling cooling{
      bare_heat_loss(Volume::litres(50.0)), Temperature::celsius(20.0), {}, {}};
  const double fall = 65.0 - temperature_after(body.temperature, Duration::hours(1.0),
                                               heat_capacity(body), cooling)
                                 .celsius();
  EXPECT_GE(fall, 5.0);
  EXPECT_LE(fall, 6.0);
}

RC_GTEST_PROP(Cooling, time_to_cool_is_the_inverse_of_temperature_after, ()) {
  const Cooling cooling{HeatLoss::watts_per_kelvin(0.1 * *rc::gen::inRange(1, 300)),
                        Temperature::celsius(*rc::gen::inRange(0, 30)),
                        HeatLoss::watts_per_kelvin(*rc::gen::inRange(0, 200)),
                        Temperature::celsius(*rc::gen::inRange(5, 20))};
  const HeatCapacity body = HeatCapacity::kilojoules_per_kelvin(*rc::gen::inRange(10, 500));
  const Temperature start = Temperature::celsius(*rc::gen::inRange(60, 100));
  const Temperature end = Temperature::celsius(*rc::gen::inRange(35, 60));
  const Duration time = time_to_cool(start, end, body, cooling);
  RC_ASSERT(std::abs((temperature_after(start, time, body, cooling) - end).kelvins()) < 1e-9);
}

RC_GTEST_PROP(Cooling, a_test_finds_the_loss_it_was_made_with, ()) {
  const double loss = 0.1 * *rc::gen::inRange(5, 500);
  const Cooling cooling{HeatLoss::watts_per_kelvin(loss), Temperature::celsius(18.0), {}, {}};
  const HeatCapacity body = HeatCapacity::kilojoules_per_kelvin(100.0);
  const Temperature start = Temperature::celsius(80.0);
  const Duration time = Duration::minutes(*rc::gen::inRange(1, 200));
  const Temperature end = temperature_after(start, time, body, cooling);
  RC_ASSERT(
      std::abs(heat_loss_from_test(start, end, time, body, cooling.ambient).watts_per_kelvin() -
               loss) < 1e-8 * loss);
}

TEST(Cooling, a_coil_shortens_the_wait_and_reaches_below_the_room) {
  const HeatCapacity body = HeatCapacity::kilojoules_per_kelvin(100.0);
  Cooling cooling{HeatLoss::watts_per_kelvin(5.0), Temperature::celsius(20.0), {}, {}};
  const Temperature from = Temperature::celsius(88.0), to = Temperature::celsius(69.0);
  const Duration without = time_to_cool(from, to, body, cooling);
  cooling.coil = HeatLoss::watts_per_kelvin(20.0);
  cooling.coil_water = Temperature::celsius(12.0);
  EXPECT_LT(time_to_cool(from, to, body, cooling), without / 4.0);
  EXPECT_LT(settling_temperature(cooling), Temperature::celsius(20.0));
}

TEST(Cooling, where_it_cannot_cool_to_is_refused) {
  const Cooling cooling{HeatLoss::watts_per_kelvin(5.0), Temperature::celsius(20.0), {}, {}};
  const HeatCapacity body = HeatCapacity::kilojoules_per_kelvin(100.0);
  EXPECT_THROW(
      (void)time_to_cool(Temperature::celsius(80), Temperature::celsius(20), body, cooling),
      base::InputError);
  EXPECT_THROW(
      (void)time_to_cool(Temperature::celsius(60), Temperature::celsius(70), body, cooling),
      base::InputError);
}

TEST(Heating, without_losses_it_is_energy_over_power) {
  const Duration time = time_to_heat(Temperature::celsius(20), Temperature::celsius(100),
                                     HeatCapacity::kilojoules_per_kelvin(100.0),
                                     Power::kilowatts(2.0), {}, Temperature::celsius(20));
  EXPECT_NEAR(time.seconds(), 4000.0, 1e-6);
}

TEST(Heating, a_power_below_the_losses_is_refused_with_what_is_needed) {
  EXPECT_THROW((void)time_to_heat(Temperature::celsius(20), Temperature::celsius(100),
                                  HeatCapacity::kilojoules_per_kelvin(100.0), Power::watts(300),
                                  HeatLoss::watts_per_kelvin(5), Temperature::celsius(20)),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::mash
