#include "journal/pure_volume.hpp"

#include <cmath>

namespace lynearm::journal {

using units::Volume;

PureVolume operator+(PureVolume a, PureVolume b) {
  return {a.value + b.value, Volume::litres(std::hypot(a.sd.litres(), b.sd.litres()))};
}

PureVolume operator-(PureVolume a, PureVolume b) {
  return {a.value - b.value, Volume::litres(std::hypot(a.sd.litres(), b.sd.litres()))};
}

PureVolume pure_in(const spirit::Lot& lot, const Glass& glass) {
  const Volume pure = spirit::pure_alcohol(lot);
  const Volume volume = spirit::volume(lot);
  if (!(volume > Volume{})) return {pure, {}};
  const auto strength = units::VolumeStrength::fraction(pure / volume);
  const double by_volume = pure.litres() * volume_share_sd;
  const double by_strength = volume.litres() * reading_sd(glass, strength).fraction();
  return {pure, Volume::litres(std::hypot(by_volume, by_strength))};
}

PureVolume pure_in_wash(Volume volume, units::VolumeStrength strength) {
  const Volume pure = volume * strength.fraction();
  return {pure, Volume::litres(std::hypot(pure.litres() * volume_share_sd,
                                          pure.litres() * wash_yield_sd,
                                          volume.litres() * wash_strength_sd.fraction()))};
}

bool worth_asking(Volume difference, Volume of) {
  return difference > Volume::litres(0.05) && difference > of * 0.02;
}

}  // namespace lynearm::journal
