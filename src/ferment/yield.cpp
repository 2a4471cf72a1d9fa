#include "ferment/yield.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"

namespace lynearm::ferment {
namespace {

using units::Mass;
using units::Share;

constexpr double glycerol_of_by_products = 0.50;
constexpr double yeast_of_by_products = 0.38;

void accept_share(const char* field, Share share, double low) {
  if (!(share.fraction() >= low && share.fraction() <= 1.0))
    throw base::InputError(field, fmt::format("{}", share.fraction()),
                           fmt::format("a share of {} to 1", low));
}

void accept_sugars(const Sugars& sugars) {
  accept_share("fermentable", sugars.fermentable, 0.0);
  if (!(sugars.hexose_per_gram >= 1.0 && sugars.hexose_per_gram <= 1.1112))
    throw base::InputError("hexose_per_gram", fmt::format("{}", sugars.hexose_per_gram),
                           "1 (hexose) to 1.1112 (starch)");
}

}  // namespace

Sugars mixed(Mass extract_a, const Sugars& a, Mass extract_b, const Sugars& b) {
  accept_sugars(a);
  accept_sugars(b);
  const Mass fermentable_a = extract_a * a.fermentable.fraction();
  const Mass fermentable_b = extract_b * b.fermentable.fraction();
  const Mass fermentable = fermentable_a + fermentable_b;
  if (fermentable.kilograms() <= 0.0) return {Share{}, a.hexose_per_gram};
  return {
      Share::fraction(fermentable / (extract_a + extract_b)),
      (fermentable_a * a.hexose_per_gram + fermentable_b * b.hexose_per_gram) / fermentable};
}

Mass hexose(const wort::Wort& wort, const Sugars& sugars) {
  accept_sugars(sugars);
  return wort.extract * (sugars.fermentable.fraction() * sugars.hexose_per_gram);
}

Fermented ferment(const wort::Wort& wort, const Sugars& sugars, Share yield, Share done) {
  accept_sugars(sugars);
  accept_share("yield", yield, 0.5);
  accept_share("done", done, 0.0);
  const Mass sugar = wort.extract * sugars.fermentable.fraction();
  const Mass eaten = sugar * done.fraction();
  Fermented out;
  out.hexose_fermented = eaten * sugars.hexose_per_gram;
  out.water_taken_up = out.hexose_fermented - eaten;
  if (out.water_taken_up > wort.water)
    throw base::InputError("wort", fmt::format("{:.2f} kg water", wort.water.kilograms()),
                           "at least the water that splits the sugars");
  const Mass to_alcohol = out.hexose_fermented * yield.fraction();
  const Mass by_products = out.hexose_fermented - to_alcohol;
  out.carbon_dioxide = to_alcohol * carbon_dioxide_per_hexose;
  out.glycerol = by_products * glycerol_of_by_products;
  out.yeast = by_products * yeast_of_by_products;
  out.acids = by_products - out.glycerol - out.yeast;
  out.sugar_left = sugar - eaten;
  out.wash.water = wort.water - out.water_taken_up;
  out.wash.ethanol = to_alcohol - out.carbon_dioxide;
  out.wash.extract = wort.extract - eaten + out.glycerol + out.acids;
  base::ensure(
      std::abs((wort.mass() - out.wash.mass() - out.carbon_dioxide - out.yeast).kilograms()) <=
          1e-9 * (1.0 + wort.mass().kilograms()),
      "fermentation keeps mass");
  return out;
}

}  // namespace lynearm::ferment
