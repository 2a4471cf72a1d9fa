#include "station/gas_pitched.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "base/error.hpp"
#include "ferment/pace.hpp"
#include "station/fermenting.hpp"
#include "wort/gravity.hpp"
#include "wort/wash.hpp"

namespace lynearm::station {
namespace {

using journal::FermentState;
using units::Mass;

// What the page names of what is told by volume and holds no sugar to speak of (common
// practice, no source).
constexpr std::array<std::string_view, 2> without_sugar = {"backset", "water"};
constexpr double syrup_kg_per_litre = 1.2;
// So near where all its sugar is gone a wash is dry: two hydrometers apart, and 3 % of its
// sugar that the plan knows no better (our choice).
constexpr double near_dry = 0.003;
constexpr units::Duration apart = units::Duration::hours(10.0);  // evening and morning

bool since_pitch(const FermentState& ferment, const journal::AddedState& one) {
  return one.stage == journal::Stage::ferment && one.told.at > ferment.pitch->told.at &&
         !(ferment.racked && one.told.at > ferment.racked->told.at);
}

Mass sugar_of(const journal::Added& added) {
  if (added.mass) return *added.mass;
  const bool none =
      std::find(without_sugar.begin(), without_sugar.end(), added.what) != without_sugar.end();
  if (none || !added.volume) return Mass{};
  return Mass::kilograms(syrup_kg_per_litre * added.volume->litres());
}

// What counts as fed since: yeast food and finings are no second ferment.
constexpr Mass worth_gas = Mass::grams(100.0);

bool stands(const journal::BatchState& batch, units::SpecificGravity dry) {
  const FermentState& ferment = batch.ferment;
  if (!ferment.wash) return false;
  for (const journal::AddedState& one : batch.additions) {
    if (since_pitch(ferment, one) && one.told.at > ferment.wash->told.at &&
        sugar_of(one.added) > worth_gas) {
      return false;
    }
  }
  const auto near = [&](units::SpecificGravity gravity) {
    return gravity.ratio() <= dry.ratio() + near_dry;
  };
  // Alike far above that, it has not begun yet, or is stuck and may go on.
  if (!near(ferment.wash->gravity)) return false;
  return ferment.wash->stood ||
         std::any_of(ferment.points.begin(), ferment.points.end(),
                     [&](const journal::FermentPoint& before) {
                       return before.gravity && near(*before.gravity) &&
                              since(ferment.wash->told.at, before.told.at) >= apart;
                     });
}

}  // namespace

Mass sugar_fed(const journal::BatchState& batch) {
  Mass sum;
  if (!batch.ferment.pitch) return sum;
  for (const journal::AddedState& one : batch.additions) {
    if (since_pitch(batch.ferment, one)) sum += sugar_of(one.added);
  }
  return sum;
}

std::optional<plan::GasPitched> gas_pitched(const PlanMade& made,
                                            const journal::BatchState& batch) {
  if (!batch.ferment.pitch) return std::nullopt;
  const plan::Place& place = made.pair.kit.place;
  plan::GasPitched told;
  told.fed = sugar_fed(batch);
  told.room = place.ferment_room;
  ferment::Batch pitched = batch_pitched(made, *batch.ferment.pitch);
  if (batch.ferment.racked) {
    const ferment::Fermented whole =
        ferment::ferment(pitched.wort, pitched.sugars, pitched.yield);
    told.standing = stands(batch, wort::specific_gravity(whole.wash))
                        ? plan::GasStanding::stands
                        : plan::GasStanding::racked;
  }
  const double volume_L = wort::volume(pitched.wort).litres();
  pitched.yeast =
      std::clamp(pitched.yeast, Mass::grams(0.021 * volume_L), Mass::grams(9.9 * volume_L));
  pitched.sugars =
      ferment::mixed(pitched.wort.extract, pitched.sugars, told.fed,
                     {units::Share::fraction(1.0), ferment::hexose_per_disaccharide});
  pitched.wort.extract += told.fed;
  try {
    ferment::Kinetics kinetics;
    kinetics.vigour = made.pair.kit.constants.ferment_vigour.median.fraction();
    const ferment::Pace pace = ferment::pace(pitched, kinetics);
    const ferment::Fermented made_of =
        ferment::ferment(pitched.wort, pitched.sugars, pitched.yield, pace.done);
    told.gas = plan::room_gas(made_of.carbon_dioxide, pace, place);
    return told;
  } catch (const base::InputError& error) {
    told.no_pace = base::sentence(error.faults().front());
  } catch (const base::NotConverged&) {
    told.no_pace = "its pace does not come out";
  }
  const Mass most = ferment::hexose(pitched.wort, pitched.sugars) * pitched.yield.fraction() *
                    ferment::carbon_dioxide_per_hexose;
  told.gas = plan::room_gas(most, place);
  return told;
}

}  // namespace lynearm::station
