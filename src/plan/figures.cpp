#include "plan/figures.hpp"

#include <fmt/format.h>

#include <exception>
#include <optional>

#include "base/error.hpp"
#include "spirit/strength.hpp"

namespace lynearm::plan {

const std::vector<Figure>& figures() {
  // clang-format off
  static const std::vector<Figure> all = {
      {"extract_potential_kg", "Mash bill", "extract in the bill", "kg", 2,
       [](const Plan& p) { return p.mash.bill.potential.extract.kilograms(); }},
      {"landing_temperature_C", "Mash", "cooked grain lands at", "°C", 1,
       [](const Plan& p) { return p.mash.mash->cook->landed.contents.temperature.celsius(); },
       [](const Plan& p) { return p.mash.mash && p.mash.mash->cook; }},
      {"dough_in_temperature_C", "Mash", "malts go in at", "°C", 1,
       [](const Plan& p) { return p.mash.mash->dough_in.celsius(); },
       [](const Plan& p) { return p.mash.mash.has_value(); }},
      {"wort_volume_L_20C", "Mash", "wort in the fermenter", "L", 1,
       [](const Plan& p) { return p.mash.wort.volume.litres(); }},
      {"original_gravity", "Ferment", "original gravity", "", 4,
       [](const Plan& p) { return p.ferment.original_gravity.ratio(); }},
      {"final_gravity", "Ferment", "final gravity", "", 4,
       [](const Plan& p) { return p.ferment.final_gravity.ratio(); }},
      {"wash_percent_vol", "Ferment", "wash", "%vol", 2,
       [](const Plan& p) { return p.ferment.strength.percent(); }},
      {"days_to_dry", "Ferment", "dry after", "d", 1,
       [](const Plan& p) { return p.ferment.dry_after.days(); }},
      {"low_wines_volume_L_20C", "Strip", "low wines", "L", 1,
       [](const Plan& p) { return p.strip.low_wines_volume.litres(); }},
      {"low_wines_percent_vol", "Strip", "low wines' strength", "%vol", 1,
       [](const Plan& p) { return p.strip.low_wines_strength.percent(); }},
      {"strip_run_hours", "Strip", "one strip, cold to end", "h", 1,
       [](const Plan& p) { return p.strip.one.length.hours(); }},
      {"hearts_volume_L_20C", "Spirit run", "hearts", "L", 2,
       [](const Plan& p) { return spirit::volume(p.spirit.hearts_all).litres(); }},
      {"hearts_percent_vol", "Spirit run", "hearts' strength", "%vol", 1,
       [](const Plan& p) { return spirit::strength(p.spirit.hearts_all).percent(); }},
      {"hearts_pure_alcohol_L", "Spirit run", "pure alcohol in the hearts", "L", 2,
       [](const Plan& p) { return spirit::pure_alcohol(p.spirit.hearts_all).litres(); }},
      {"feints_kept_volume_L_20C", "Spirit run", "feints kept", "L", 2,
       [](const Plan& p) { return spirit::volume(p.spirit.feints_kept).litres(); }},
      {"spirit_run_hours", "Spirit run", "the run, cold to end", "h", 1,
       [](const Plan& p) { return p.spirit.one.length.hours(); }},
      {"maturing_volume_L_20C", "Reduce", "spirit at maturing strength", "L", 2,
       [](const Plan& p) { return p.finish.reduce.volume.litres(); }},
      {"bottled_volume_L_20C", "Bottle", "spirit at bottling strength", "L", 2,
       [](const Plan& p) { return p.finish.bottle.volume.litres(); }},
      {"bottles", "Bottle", "bottles", "", 0,
       [](const Plan& p) { return static_cast<double>(p.finish.bottle.bottles); }},
  };
  // clang-format on
  return all;
}

std::vector<const Figure*> figures_of(const Plan& plan) {
  std::vector<const Figure*> those;
  for (const Figure& figure : figures()) {
    if (figure.applies == nullptr || figure.applies(plan)) those.push_back(&figure);
  }
  return those;
}

Bands bands(const Recipe& recipe, const Kit& kit, const Plan& plan, int members,
            std::uint64_t seed, const numeric::Executor& executor) {
  if (members < 1 || members > 100000) {
    throw base::InputError("members", fmt::format("{}", members), "1 to 100000");
  }
  const vapour::BoilingCurve curve(kit.place.pressure);
  const std::vector<const Figure*> all = figures_of(plan);
  std::vector<std::vector<double>> drawn(static_cast<std::size_t>(members));
  std::vector<std::exception_ptr> errors(drawn.size());
  executor(drawn.size(), [&](std::size_t member) {
    numeric::Draw stream(seed, member);
    try {
      const Plan one = make(recipe, kit, draw(kit, stream), curve);
      for (const Figure* figure : all) drawn[member].push_back(figure->of(one));
    } catch (const base::InputError&) {
      errors[member] = std::current_exception();
    } catch (const base::NotConverged&) {
      errors[member] = std::current_exception();
    }
  });

  Bands result;
  std::exception_ptr first;
  for (const std::exception_ptr& error : errors) {
    if (!error) continue;
    ++result.failed;
    if (!first) first = error;
  }
  result.members = members - result.failed;
  // A few members that cannot be carried through (a spout that never falls so low) are told as
  // a count; many mean that the bands would describe another batch.
  if (result.failed * 10 > members) std::rethrow_exception(first);
  for (std::size_t i = 0; i < all.size(); ++i) {
    std::vector<double> values;
    for (const std::vector<double>& one : drawn) {
      if (!one.empty()) values.push_back(one[i]);
    }
    result.figures.push_back({all[i], all[i]->of(plan), numeric::band(std::move(values))});
  }
  return result;
}

}  // namespace lynearm::plan
