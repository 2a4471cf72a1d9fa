#include "wort/attenuation.hpp"

#include <fmt/format.h>

#include <string>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "wort/gravity.hpp"

namespace lynearm::wort {
namespace {

using units::Plato;
using units::Share;

constexpr double extract_per_alcohol = 2.0665;
constexpr double loss_per_alcohol = 1.0665;  // gas and yeast: what leaves the wort

void accept(const char* field, double value_P, double low_P, double high_P) {
  if (!(value_P >= low_P && value_P <= high_P + 1e-9))
    throw base::InputError(field, fmt::format("{:.3f} °P", value_P),
                           fmt::format("{:.3f} to {:.3f} °P", low_P, high_P));
}

void accept_original(Plato original) {
  accept("original_extract", original.degrees(), 0.0, strongest.degrees());
}

double q(Plato original) { return 0.22 + 0.001 * original.degrees(); }

}  // namespace

Share alcohol_by_mass(Plato original, Plato real) {
  accept_original(original);
  accept("real_extract", real.degrees(), 0.0, original.degrees());
  const double oe = original.degrees(), re = real.degrees();
  return Share::percent((oe - re) / (extract_per_alcohol - loss_per_alcohol / 100.0 * oe));
}

Plato original_extract(Share alcohol, Plato real) {
  const double a = alcohol.percent(), re = real.degrees();
  if (!(a >= 0.0 && a <= 20.0))
    throw base::InputError("alcohol", fmt::format("{:.3f} % by mass", a), "0 to 20 % by mass");
  accept("real_extract", re, 0.0, strongest.degrees());
  const double oe = 100.0 * (extract_per_alcohol * a + re) / (100.0 + loss_per_alcohol * a);
  return Plato::degrees(oe);
}

Plato real_extract(Plato original, Plato apparent) {
  accept_original(original);
  accept("apparent_extract", apparent.degrees(), -7.0, original.degrees());
  const double share = q(original);
  return (original * share + apparent) / (1.0 + share);
}

Plato apparent_extract(Plato original, Plato real) {
  accept_original(original);
  accept("real_extract", real.degrees(), -2.0, original.degrees());
  const double share = q(original);
  return real * (1.0 + share) - original * share;
}

Share real_attenuation(Plato original, Plato real) {
  accept_original(original);
  accept("real_extract", real.degrees(), -2.0, original.degrees());
  if (original.degrees() == 0.0) return {};
  return Share::fraction((original - real) / original / (1.0 - 0.005161 * real.degrees()));
}

Share apparent_attenuation(Plato original, Plato apparent) {
  accept_original(original);
  accept("apparent_extract", apparent.degrees(), -7.0, original.degrees());
  if (original.degrees() == 0.0) return {};
  return Share::fraction((original - apparent) / original);
}

units::VolumeStrength alcohol_by_volume(Share alcohol, units::SpecificGravity final) {
  if (!(alcohol.fraction() >= 0.0 && alcohol.fraction() <= 1.0))
    throw base::InputError("alcohol", fmt::format("{:.3f} % by mass", alcohol.percent()),
                           "0 to 100 % by mass");
  static const units::Density ethanol =
      spirit::density(units::MassFraction::fraction(1.0), spirit::reference_20C);
  return units::VolumeStrength::fraction(alcohol.fraction() * final.ratio() *
                                         (water_at_20C / ethanol));
}

}  // namespace lynearm::wort
