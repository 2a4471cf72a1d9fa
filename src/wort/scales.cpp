#include "wort/scales.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "spirit/refractometer.hpp"
#include "wort/gravity.hpp"

namespace lynearm::wort {
namespace {

using spirit::SpecificGravity60F;
using units::MassFraction;
using units::Plato;
using units::RefractiveIndex;
using units::SpecificGravity;
using units::Temperature;

// Air at 20 °C, sea level; the same as in wort/gravity.cpp.
constexpr double air_kgm3 = 1.2;
constexpr double spread = water_at_20C.kilograms_per_cubic_metre() /
                          (water_at_20C.kilograms_per_cubic_metre() - air_kgm3);

// SG 60/60 over SG 20/20: the wort shrinks a little more than the water.
double closer_at_60F(Plato extract) {
  const Plato at_least_water = std::max(extract, Plato::degrees(0.0));
  return 1.0 / relative_expansion(at_least_water, spirit::reference_60F);
}

Temperature checked(Temperature t) {
  if (!(t >= spirit::coldest_refracted && t <= spirit::warmest_refracted))
    throw base::InputError("temperature", fmt::format("{:.2f} °C", t.celsius()),
                           "0 to 40 °C, the range of the refractive index of wort");
  return t;
}

// The index along the extract at one temperature.
class IndexAt {
 public:
  explicit IndexAt(Temperature t)
      : t_(t),
        water_mL_per_g_(spirit::specific_refraction_mL_per_g(MassFraction::fraction(0.0), t)) {}

  [[nodiscard]] double operator()(double extract_P) const {
    const Plato extract = Plato::degrees(extract_P);
    const double share = extract_P / 100.0;
    const double refraction_mL_per_g =
        (1.0 - share) * water_mL_per_g_ + share * extract_refraction_mL_per_g(extract);
    return spirit::index_of_refraction(refraction_mL_per_g *
                                       density(extract, t_).grams_per_millilitre())
        .ratio();
  }

 private:
  Temperature t_;
  double water_mL_per_g_;
};

}  // namespace

ApparentGravity apparent_gravity(SpecificGravity gravity) {
  return ApparentGravity::ratio(1.0 + (gravity.ratio() - 1.0) * spread);
}

SpecificGravity specific_gravity(ApparentGravity gravity) {
  return SpecificGravity::ratio(1.0 + (gravity.ratio() - 1.0) / spread);
}

SpecificGravity60F specific_gravity_60F(Plato extract) {
  return SpecificGravity60F::ratio(specific_gravity(extract).ratio() * closer_at_60F(extract));
}

Plato plato(SpecificGravity60F gravity) {
  const double most = specific_gravity_60F(strongest).ratio();
  if (!(gravity.ratio() >= lightest.ratio() && gravity.ratio() <= most + 1e-12))
    throw base::InputError("gravity", fmt::format("{:.4f}", gravity.ratio()),
                           fmt::format("a specific gravity 60/60 °F of {:.3f} to {:.4f}, that "
                                       "of 40 °P",
                                       lightest.ratio(), most));
  // The factor is within 0.0008 of one: a few rounds settle.
  Plato extract = Plato::degrees(0.0);
  double step_P = 1.0;
  for (int i = 0; i < 20 && std::abs(step_P) > 1e-13; ++i) {
    const double at_20C = gravity.ratio() / closer_at_60F(extract);
    const Plato next = plato(SpecificGravity::ratio(at_20C));
    step_P = (next - extract).degrees();
    extract = next;
  }
  base::ensure(std::abs(step_P) < 1e-11, "extract of a gravity at 60 °F settles");
  return extract;
}

double extract_refraction_mL_per_g(Plato extract) {
  // Our fit to the ICUMSA scale, 5 to 40 % sucrose at 20 °C, over the density of plato().
  const double p = extract.degrees();
  return 0.20652715 + p * (1.358426e-5 + p * (-1.210926e-6 + p * 1.2468e-8));
}

RefractiveIndex refractive_index(Brix sucrose, Temperature t) {
  if (!(sucrose.degrees() >= 0.0 && sucrose.degrees() <= strongest.degrees()))
    throw base::InputError("extract", fmt::format("{:.3f} Bx", sucrose.degrees()),
                           "0 to 40 Bx");
  return RefractiveIndex::ratio(IndexAt(checked(t))(sucrose.degrees()));
}

Brix brix(RefractiveIndex index, Temperature t) {
  const IndexAt at(checked(t));
  const double water = at(0.0), most = at(strongest.degrees());
  const double n = index.ratio();
  if (!(n >= water - spirit::table_blur.ratio() && n <= most + 1e-12))
    throw base::InputError("index", fmt::format("{:.5f}", n),
                           fmt::format("a refractive index of {:.4f} (water) to {:.4f} (40 Bx) "
                                       "at {:.1f} °C",
                                       water, most, t.celsius()));
  const double inside = std::clamp(n, water, most);
  return Brix::degrees(numeric::root_between([&](double p) { return at(p) - inside; }, 0.0,
                                             strongest.degrees(), "Brix from refractive index",
                                             {1e-13, 100})
                           .value);
}

}  // namespace lynearm::wort
