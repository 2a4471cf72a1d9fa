#include "still/allotment.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"

namespace lynearm::still {
namespace {

using units::Volume;
using PartOf = Volume Poured::*;

Volume total(const Poured& poured) {
  return poured.foreshots + poured.hearts + poured.feints + poured.apart;
}

void check_allotment(const std::vector<Jar>& jars, const Allotment& allotment) {
  if (allotment.size() != jars.size()) {
    throw base::InputError("allotment", fmt::format("{} parts", allotment.size()),
                           fmt::format("one for each of the {} jars", jars.size()));
  }
  for (std::size_t i = 0; i < jars.size(); ++i) {
    const Poured& p = allotment[i];
    const bool sound = p.foreshots >= Volume{} && p.hearts >= Volume{} &&
                       p.feints >= Volume{} && p.apart >= Volume{} &&
                       std::abs(total(p) / jars[i].volume - 1.0) <= 1e-9;
    if (!sound) {
      throw base::InputError(fmt::format("allotment[{}]", i),
                             fmt::format("{:.6g} L in all", total(p).litres()),
                             fmt::format("parts of zero or more that add to the jar's {:.6g} L",
                                         jars[i].volume.litres()));
    }
  }
}

// A jar's share is taken of its parts' sum, so that what was rounded in them is lost nowhere.
Vessel20C filled(const std::vector<Jar>& jars, const Allotment& allotment, PartOf part) {
  Vessel20C vessel;
  Volume parts;
  double marked = 0.0;
  for (std::size_t i = 0; i < jars.size(); ++i) {
    const double share = allotment[i].*part / total(allotment[i]);
    if (!(share > 0.0)) continue;
    const Jar& jar = jars[i];
    const spirit::Lot lot = lot_of(jar) * share;
    vessel.lot = vessel.lot + lot;
    parts += jar.volume * share;
    vessel.early = vessel.early + *jar.early * share;
    vessel.middle = vessel.middle + *jar.middle * share;
    vessel.late = vessel.late + *jar.late * share;
    marked += jar.fault * lot.ethanol.kilograms();
  }
  if (!(vessel.lot.mass() > units::Mass{})) return vessel;
  vessel.volume = spirit::volume(vessel.lot);
  vessel.strength = spirit::strength(vessel.lot);
  vessel.pure_alcohol = spirit::pure_alcohol(vessel.lot);
  vessel.contraction = parts - vessel.volume;
  vessel.fault = marked / vessel.lot.ethanol.kilograms();
  return vessel;
}

}  // namespace

Burden Vessel20C::per_alcohol(const Load& load) const {
  if (!(pure_alcohol > Volume{})) return {};
  const auto per = [&](units::Mass mass) {
    return units::MassConcentration::grams_per_litre(mass.grams() / pure_alcohol.litres());
  };
  return {per(load.mass), per(load.low), per(load.high)};
}

Outcome evaluate(const std::vector<Jar>& jars, const Allotment& allotment) {
  check(jars);
  require_loads(jars);
  check_allotment(jars, allotment);
  return {filled(jars, allotment, &Poured::foreshots), filled(jars, allotment, &Poured::hearts),
          filled(jars, allotment, &Poured::feints), filled(jars, allotment, &Poured::apart)};
}

}  // namespace lynearm::still
