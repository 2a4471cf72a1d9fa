#include "wire/wort.hpp"

#include "wire/figure.hpp"
#include "wort/attenuation.hpp"
#include "wort/gravity.hpp"
#include "wort/scales.hpp"

namespace lynearm::wire {

std::string json(const WortReport& report) {
  const units::Plato apparent = wort::plato(report.gravity);
  Json object;
  object["specific_gravity_20C_20C"] = figure(report.gravity.ratio());
  object["specific_gravity_60F_60F"] = figure(wort::specific_gravity_60F(apparent).ratio());
  object["extract_plato"] = figure(apparent.degrees());
  object["brix"] = figure(wort::brix(apparent).degrees());
  if (report.fermented) {
    const Fermented& wash = *report.fermented;
    object["original_extract_plato"] = figure(wash.original.degrees());
    object["real_extract_plato"] = figure(wash.real_extract.degrees());
    object["alcohol_percent_vol_20C"] = figure(wash.alcohol.percent());
    object["alcohol_percent_mass"] = figure(wash.alcohol_by_mass.percent());
    object["apparent_attenuation_percent"] =
        figure(wort::apparent_attenuation(wash.original, apparent).percent());
    object["real_attenuation_percent"] =
        figure(wort::real_attenuation(wash.original, wash.real_extract).percent());
  }
  return object.dump();
}

}  // namespace lynearm::wire
