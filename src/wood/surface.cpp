#include "wood/surface.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "base/error.hpp"

namespace lynearm::wood {
namespace {

using units::Area;
using units::AreaPerVolume;
using units::Length;
using units::Volume;

constexpr double pi = std::numbers::pi;
constexpr double reference_cm2_per_L = 96.0;
constexpr double reference_L = 200.0;

void accept_length(const char* field, Length length) {
  if (!(length.metres() > 0.0 && length.metres() < 10.0))
    throw base::InputError(field, fmt::format("{} mm", length.millimetres()),
                           "above zero, under 10 m");
}

void accept(const Cask& cask) {
  accept_length("cask.length", cask.length);
  accept_length("cask.bilge", cask.bilge);
  accept_length("cask.head", cask.head);
  if (cask.head > cask.bilge)
    throw base::InputError("cask.head", fmt::format("{} mm", cask.head.millimetres()),
                           "at most the bilge");
}

void accept(const Stave& stave) {
  accept_length("stave.length", stave.length);
  accept_length("stave.width", stave.width);
  accept_length("stave.thickness", stave.thickness);
}

}  // namespace

AreaPerVolume cask_surface(Volume cask) {
  if (!(cask.litres() >= 1.0 && cask.litres() <= 700.0))
    throw base::InputError("cask", fmt::format("{} L", cask.litres()), "1 to 700 L");
  return AreaPerVolume::square_centimetres_per_litre(reference_cm2_per_L *
                                                     std::cbrt(reference_L / cask.litres()));
}

Volume volume(const Cask& cask) {
  accept(cask);
  const double D = cask.bilge.metres(), d = cask.head.metres();
  return Volume::cubic_metres(pi * cask.length.metres() *
                              (8.0 * D * D + 4.0 * D * d + 3.0 * d * d) / 60.0);
}

Area inner_area(const Cask& cask) {
  accept(cask);
  const double L = cask.length.metres(), D = cask.bilge.metres(), d = cask.head.metres();
  // r(z) = D/2 - (D - d)/2 (2 z/L)², half the length from the bilge to a head.
  const auto ring = [&](double z) {
    const double u = 2.0 * z / L;
    const double r = 0.5 * D - 0.5 * (D - d) * u * u;
    const double slope = -2.0 * (D - d) * u / L;
    return 2.0 * pi * r * std::sqrt(1.0 + slope * slope);
  };
  constexpr int parts = 64;
  const double h = 0.5 * L / parts;
  double sum = ring(0.0) + ring(0.5 * L);
  for (int i = 1; i < parts; ++i) sum += ring(i * h) * (i % 2 == 1 ? 4.0 : 2.0);
  return Area::square_metres(2.0 * sum * h / 3.0 + 2.0 * pi * d * d / 4.0);
}

AreaPerVolume surface(const Cask& cask) {
  return AreaPerVolume::square_metres_per_litre(inner_area(cask).square_metres() /
                                                volume(cask).litres());
}

Area area(const Stave& stave) {
  accept(stave);
  const double l = stave.length.metres(), w = stave.width.metres(),
               t = stave.thickness.metres();
  return Area::square_metres(2.0 * (l * w + l * t + w * t));
}

Area end_grain(const Stave& stave) {
  accept(stave);
  return Area::square_metres(2.0 * stave.width.metres() * stave.thickness.metres());
}

Volume wood_volume(const Stave& stave) {
  accept(stave);
  return Volume::cubic_metres(stave.length.metres() * stave.width.metres() *
                              stave.thickness.metres());
}

AreaPerVolume surface(const Stave& stave, double count, Volume spirit) {
  if (!(count >= 0.0 && std::isfinite(count)))
    throw base::InputError("staves", fmt::format("{}", count), "zero or more");
  if (!(spirit.litres() > 0.0 && std::isfinite(spirit.litres())))
    throw base::InputError("spirit", fmt::format("{} L", spirit.litres()), "above zero");
  return AreaPerVolume::square_metres_per_litre(area(stave).square_metres() * count /
                                                spirit.litres());
}

double times_a_200L_cask(AreaPerVolume surface) {
  return surface.square_centimetres_per_litre() / reference_cm2_per_L;
}

}  // namespace lynearm::wood
