#include "station/charging.hpp"

#include "base/error.hpp"
#include "base/field_names.hpp"
#include "recipe/read_kit.hpp"

namespace lynearm::station {

plan::ChargeLeft charge_left(Station& station, const journal::HouseState& house,
                             const journal::BatchState& batch, const wire::ChargeAsked& asked) {
  const plan::ChargeFilled charge{asked.run == journal::RunKind::spirit, asked.volume,
                                  asked.strength};
  if (batch.plan) {
    const auto made = station.plan(batch.plan->recipe, batch.plan->kit, 0);
    return base::with_names({{"strength", "strength_percent_vol"},
                             {"volume", "volume_L_20C"},
                             {"boiler.power", "kit.boiler.power"},
                             {"head.spirit_power", "kit.head.spirit_power"}},
                            [&] {
                              return plan::charge_left(charge, made->pair.recipe,
                                                       made->pair.kit, made->plan);
                            });
  }
  if (!house.kit) return {};
  try {
    return plan::charge_left(charge, recipe::read_kit(house.kit->kit, "kit"));
  } catch (const base::InputError&) {
    return {};  // a kit that does not read says nothing of its element
  }
}

}  // namespace lynearm::station
