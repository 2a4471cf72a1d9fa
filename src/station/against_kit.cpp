#include "station/against_kit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "ferment/follow.hpp"
#include "journal/meaning.hpp"
#include "journal/pure_volume.hpp"
#include "plan/house.hpp"

namespace lynearm::station {
namespace {

using journal::Stage;
using units::Mass;
using units::Volume;

constexpr double litres_per_kg = 1.0;        // of a bill: sugar takes 0.62, water 1
constexpr double solids_kg_per_litre = 1.2;  // of syrup or honey; nothing put in holds more

/// Dry matter that a wort may hold: of the bill and of all that was put in. No grain gives more
/// extract than it is dry (malt gives some 80 % of that: common practice, no source).
struct Dry {
  Mass bill, all;
};

Dry most_dry(const PlanMade& made, const journal::BatchState& batch) {
  Dry dry{made.plan.mash.bill.potential.dry, made.plan.mash.bill.potential.dry};
  for (const journal::AddedState& one : batch.additions) {
    if (one.added.mass) {
      dry.all += *one.added.mass;
    } else if (one.added.volume) {
      dry.all += Mass::kilograms(solids_kg_per_litre * one.added.volume->litres());
    }
  }
  return dry;
}

// How far off an extract may be told: its volume at a mark, its gravity by a hydrometer.
double extract_sd_kg(Volume volume, units::SpecificGravity gravity) {
  const auto above = units::SpecificGravity::ratio(gravity.ratio() + ferment::hydrometer_sd);
  const double by_gravity =
      (journal::extract_in(volume, above) - journal::extract_in(volume, gravity)).kilograms();
  return std::hypot(
      by_gravity, journal::volume_share_sd * journal::extract_in(volume, gravity).kilograms());
}

std::string of_dry(const Dry& dry, const PlanMade& made) {
  const bool more = dry.all > dry.bill;
  return fmt::format(
      "the {:.2f} kg of the bill are {:.2f} kg dry{}",
      made.plan.mash.bill.potential.mass.kilograms(), dry.bill.kilograms(),
      more ? fmt::format(", and with what was put in {:.2f} kg", dry.all.kilograms())
           : std::string{});
}

// The first that was not upheld; the worts after one that was, by themselves.
std::optional<journal::Puzzle> asked_of_worts(const PlanMade& made,
                                              const journal::BatchState& batch,
                                              const Dry& dry) {
  const MostWort most = most_wort(made, batch);
  Volume drawn;
  Mass extract;
  double variance_kg2 = 0.0;
  for (const journal::WortState& wort : batch.mash.worts) {
    drawn += wort.volume;
    extract += wort.extract;
    variance_kg2 += std::pow(extract_sd_kg(wort.volume, wort.gravity), 2);
    std::optional<journal::Puzzle> asked;
    if (journal::cannot_be(drawn, most.most())) {
      const std::string tub = most.tub > Volume{}
                                  ? fmt::format(", and the {} holds {:.1f} L to its brim",
                                                made.pair.recipe.mash.vessel, most.tub.litres())
                                  : std::string{};
      asked = journal::Puzzle{
          wort.told.entry,
          fmt::format("With this {:.1f} L of wort were drawn off; all the water planned or "
                      "told, and the bill, are {:.1f} L{}.",
                      drawn.litres(), most.of_water.litres(), tub)};
      if (!is_upheld(batch.upheld, *asked)) return asked;
      drawn = {};
    }
    if ((extract - dry.all).kilograms() >
        journal::impossible_deviations * std::sqrt(variance_kg2)) {
      asked = journal::Puzzle{wort.told.entry,
                              fmt::format("With this the worts hold {:.2f} kg of extract; {}.",
                                          extract.kilograms(), of_dry(dry, made))};
      if (!is_upheld(batch.upheld, *asked)) return asked;
      extract = {};
      variance_kg2 = 0.0;
    }
  }
  return std::nullopt;
}

std::optional<journal::Puzzle> asked_of_pitch(const PlanMade& made,
                                              const journal::BatchState& batch,
                                              const Dry& dry) {
  const auto& pitch = batch.ferment.pitch;
  if (!pitch) return std::nullopt;
  const plan::Vessel& vessel =
      plan::vessel_named(made.pair.kit, made.pair.recipe.ferment.vessel);
  if (journal::cannot_be(pitch->volume, vessel.total)) {
    journal::Puzzle asked{
        pitch->told.entry,
        fmt::format("{:.1f} L were pitched; the {} holds {:.1f} L to its brim.",
                    pitch->volume.litres(), vessel.name, vessel.total.litres())};
    if (!is_upheld(batch.upheld, asked)) return asked;
  }
  if ((pitch->extract - dry.all).kilograms() >
      journal::impossible_deviations * extract_sd_kg(pitch->volume, pitch->gravity)) {
    return journal::Puzzle{pitch->told.entry,
                           fmt::format("The wort pitched holds {:.2f} kg of extract; {}.",
                                       pitch->extract.kilograms(), of_dry(dry, made))};
  }
  return std::nullopt;
}

}  // namespace

MostWort most_wort(const PlanMade& made, const journal::BatchState& batch) {
  const plan::Recipe& recipe = made.pair.recipe;
  MostWort most;
  if (made.plan.mash.mash) {
    most.of_water = recipe.mash.water;
    if (recipe.mash.cook) most.of_water += recipe.mash.cook->water;
    for (const plan::Sparge& sparge : recipe.mash.sparges) most.of_water += sparge.water;
    most.tub = plan::vessel_named(made.pair.kit, recipe.mash.vessel).total;
    most.drainings =
        static_cast<int>(std::max(recipe.mash.sparges.size() + 1, batch.mash.worts.size()));
  }
  // What is told is what went in besides; where it was planned after all, the bound is wider.
  for (const journal::MashWaterState& water : batch.mash.waters) {
    most.of_water += water.volume;
  }
  for (const journal::AddedState& one : batch.additions) {
    if (one.stage != Stage::mash) continue;
    const auto by_mass =
        Volume::litres(one.added.mass ? litres_per_kg * one.added.mass->kilograms() : 0.0);
    most.of_water += std::max(by_mass, one.added.volume.value_or(Volume{}));
  }
  if (recipe.sugar_boil) most.of_water += recipe.sugar_boil->water;
  const mash::TopUp& top_up = made.plan.mash.wort.top_up;
  most.of_water +=
      top_up.cold + top_up.hot +
      Volume::litres(litres_per_kg * made.plan.mash.bill.potential.mass.kilograms());
  return most;
}

std::vector<journal::Puzzle> asked_by_kit(const PlanMade& made,
                                          const journal::BatchState& batch) {
  const Dry dry = most_dry(made, batch);
  std::vector<journal::Puzzle> asked;
  if (auto of = asked_of_worts(made, batch, dry)) asked.push_back(*std::move(of));
  if (auto of = asked_of_pitch(made, batch, dry)) asked.push_back(*std::move(of));
  return asked;
}

}  // namespace lynearm::station
