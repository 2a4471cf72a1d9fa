#include "ferment/pitch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"

namespace lynearm::ferment {
namespace {

using units::Mass;
using units::MassConcentration;

constexpr double need_mg_per_g_hexose = 1.0;

void accept_volume(units::Volume wash) {
  if (!(wash.litres() > 0.0 && std::isfinite(wash.litres())))
    throw base::InputError("wash", fmt::format("{} L", wash.litres()), "above zero");
}

double accepted_grams(const char* field, Mass mass) {
  if (!(mass.grams() >= 0.0 && std::isfinite(mass.grams())))
    throw base::InputError(field, fmt::format("{} kg", mass.kilograms()), "zero or more");
  return mass.grams();
}

}  // namespace

Mass dry_yeast(units::Volume wash, MassConcentration dose) {
  accept_volume(wash);
  if (!(dose.grams_per_litre() >= 0.05 && dose.grams_per_litre() <= 5.0))
    throw base::InputError("dose", fmt::format("{} g/L", dose.grams_per_litre()),
                           "0.05 to 5 g/L");
  return Mass::grams(dose.grams_per_litre() * wash.litres());
}

Nutrition nutrition(units::Volume wash, Mass hexose, const ExtractOrigin& origin,
                    const NitrogenPerExtract& content) {
  accept_volume(wash);
  const double hexose_g = accepted_grams("hexose", hexose);
  const double supply_mg =
      accepted_grams("malt", origin.malt) * content.malt_mg_per_g +
      accepted_grams("raw_grain", origin.raw_grain) * content.raw_grain_mg_per_g +
      accepted_grams("sugar", origin.sugar) * content.sugar_mg_per_g;
  const double need_mg = need_mg_per_g_hexose * hexose_g;
  const double short_mg = std::max(0.0, need_mg - supply_mg);
  const auto per_litre = [&](double mg) {
    return MassConcentration::milligrams_per_litre(mg / wash.litres());
  };
  return {per_litre(need_mg), per_litre(supply_mg), per_litre(short_mg),
          Mass::milligrams(supply_mg),
          Mass::milligrams(short_mg / nitrogen_in_diammonium_phosphate.fraction())};
}

}  // namespace lynearm::ferment
