#include <gtest/gtest.h>

#include <thread>
#include <vector>

#include "base/error.hpp"
#include "plan/figures.hpp"
#include "plan/tern.hpp"

namespace lynearm::plan {
namespace {

numeric::Executor backwards() {
  return [](std::size_t count, const std::function<void(std::size_t)>& task) {
    for (std::size_t i = count; i-- > 0;) task(i);
  };
}

numeric::Executor two_threads() {
  return [](std::size_t count, const std::function<void(std::size_t)>& task) {
    std::thread even([&] {
      for (std::size_t i = 0; i < count; i += 2) task(i);
    });
    for (std::size_t i = 1; i < count; i += 2) task(i);
    even.join();
  };
}

TEST(Bands, do_not_depend_on_order_or_threads) {
  const Recipe recipe = tern::recipe_8();
  const Kit kit = tern::kit_8();
  const Plan plan = make(recipe, kit);
  const Bands one = bands(recipe, kit, plan, 40, 7, numeric::one_after_another());
  for (const numeric::Executor& executor : {backwards(), two_threads()}) {
    const Bands other = bands(recipe, kit, plan, 40, 7, executor);
    for (std::size_t i = 0; i < one.figures.size(); ++i) {
      EXPECT_EQ(one.figures[i].band.low, other.figures[i].band.low);
      EXPECT_EQ(one.figures[i].band.median, other.figures[i].band.median);
      EXPECT_EQ(one.figures[i].band.high, other.figures[i].band.high);
    }
  }
}

TEST(Bands, hold_the_plan_and_are_not_empty) {
  const Plan plan = make(tern::recipe_8(), tern::kit_8());
  const Bands result =
      bands(tern::recipe_8(), tern::kit_8(), plan, 200, 1, numeric::one_after_another());
  EXPECT_EQ(result.failed, 0);
  for (const Banded& banded : result.figures) {
    EXPECT_LE(banded.band.low, banded.band.median) << banded.figure->key;
    EXPECT_LE(banded.band.median, banded.band.high) << banded.figure->key;
    if (banded.figure->key == "wash_percent_vol") {
      EXPECT_LT(banded.band.low, banded.planned);
      EXPECT_GT(banded.band.high, banded.planned);
    }
  }
}

TEST(Bands, narrow_to_the_plan_when_every_constant_is_known) {
  Kit known = tern::kit_8();
  Constants& c = known.constants;
  for (units::Spread<units::Share>* constant :
       {&c.conversion, &c.drained_moisture, &c.squeezed_moisture, &c.sparge_mixing,
        &c.fermentable_factor, &c.alcohol_yield, &c.ferment_vigour, &c.lees, &c.still_loss,
        &c.transfer_loss, &c.heat_loss_factor, &c.evaporation_factor,
        &known.still.head_reflux_strip, &known.still.head_reflux_spirit}) {
    constant->half_width_80 = {};
  }
  known.instruments.thermometer = {};
  known.instruments.alcoholmeter = {};
  Recipe analysed = tern::recipe_8();
  for (BillLine& line : analysed.bill) line.analysis.extract = units::Share::percent(80.0);
  const Plan plan = make(analysed, known);
  for (const Banded& banded :
       bands(analysed, known, plan, 20, 3, numeric::one_after_another()).figures) {
    EXPECT_DOUBLE_EQ(banded.band.low, banded.planned) << banded.figure->key;
    EXPECT_DOUBLE_EQ(banded.band.high, banded.planned) << banded.figure->key;
  }
}

TEST(Bands, of_no_members_are_refused) {
  const Plan plan = make(tern::recipe_8(), tern::kit_8());
  EXPECT_THROW(static_cast<void>(bands(tern::recipe_8(), tern::kit_8(), plan, 0, 1,
                                       numeric::one_after_another())),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::plan
