#include "still/hold_up.hpp"

#include <algorithm>
#include <cmath>

#include "still/run_state.hpp"

namespace lynearm::still {

double Tank::missing_L() const { return litres_ - litres_20C(ethanol_mol_, water_mol_); }

void Tank::take(const Parcel& in) {
  ethanol_mol_ += in.ethanol_mol;
  water_mol_ += in.water_mol;
  for (std::size_t i = 0; i < congener_g_.size(); ++i) congener_g_[i] += in.congener_g[i];
}

void Tank::pass(Parcel& parcel) {
  if (litres_ <= 0.0) return;
  const double parcel_L = litres_20C(parcel.ethanol_mol, parcel.water_mol);
  const double room_L = missing_L();
  const bool full = room_L <= 1e-7 * litres_;
  if (parcel_L <= 1e-12 * litres_ || (!full && parcel_L <= room_L)) {
    take(parcel);
    const double z_from = parcel.z_from;
    parcel = {};
    parcel.z_from = parcel.z_to = ethanol_mol_ > 0.0 ? z() : z_from;
    return;
  }
  Parcel rest = parcel;
  if (!full) {
    // What fills it, and then what flows through.
    const double filling = room_L / parcel_L;
    Parcel first = parcel;
    first.z_to = rest.z_from = std::lerp(parcel.z_from, parcel.z_to, filling);
    const double mol = parcel.mol() * filling;
    // By the parcel's own mean: by the ends alone, a rest of next to nothing would be left with
    // all that the mean lies off a straight line, and no spirit is like that.
    const double mean = parcel.ethanol_mol / parcel.mol();
    const double z = mean - 0.5 * (parcel.z_to - parcel.z_from) * (1.0 - filling);
    first.ethanol_mol = std::clamp(mol * z, 0.0, parcel.ethanol_mol);
    first.water_mol = std::clamp(mol - first.ethanol_mol, 0.0, parcel.water_mol);
    rest.ethanol_mol -= first.ethanol_mol;
    rest.water_mol -= first.water_mol;
    for (std::size_t i = 0; i < congener_g_.size(); ++i) {
      first.congener_g[i] = parcel.congener_g[i] * filling;
      rest.congener_g[i] -= first.congener_g[i];
      rest.trace_from[i] = std::lerp(parcel.trace_from[i], parcel.trace_to[i], filling);
    }
    take(first);
  }
  const double z_before = z();
  const auto traces_before = traces();
  flow_through(rest);
  parcel = rest;
  parcel.z_from = z_before;
  parcel.z_to = z();
  parcel.trace_from = traces_before;
  parcel.trace_to = traces();
}

std::array<double, vapour::congener_count> Tank::traces() const {
  std::array<double, vapour::congener_count> g_per_mol = congener_g_;
  for (double& g : g_per_mol) g /= ethanol_mol_ + water_mol_;
  return g_per_mol;
}

// rho tank volumes pass; of what was there exp(-rho) is left, and a stream of mean z that rises
// by g over the parcel leaves (1 - exp(-rho)) z + k g in the place of the rest. Mixing shrinks
// a little: back to the volume.
void Tank::flow_through(Parcel& parcel) {
  const Tank before = *this;
  const double rho = litres_20C(parcel.ethanol_mol, parcel.water_mol) / litres_;
  if (!(rho > 0.0)) return;
  const double replaced = -std::expm1(-rho);
  const double k = rho < 1e-3 ? rho * rho / 12.0 : 1.0 - replaced / rho - 0.5 * replaced;
  const double kept = 1.0 - replaced;
  const double added = replaced / rho;
  const double rise_mol = (parcel.z_to - parcel.z_from) * k / rho * parcel.mol();
  const double ethanol =
      std::fmax(ethanol_mol_ * kept + parcel.ethanol_mol * added + rise_mol, 0.0);
  const double water = std::fmax(water_mol_ * kept + parcel.water_mol * added - rise_mol, 0.0);
  const double to_volume = litres_ / litres_20C(ethanol, water);
  // A stream that swings from one end to the other within a parcel is no straight line by
  // volume: no more stays than there was.
  ethanol_mol_ = std::fmin(ethanol * to_volume, ethanol_mol_ + parcel.ethanol_mol);
  water_mol_ = std::fmin(water * to_volume, water_mol_ + parcel.water_mol);
  for (std::size_t i = 0; i < congener_g_.size(); ++i) {
    const double rise_g = (parcel.trace_to[i] - parcel.trace_from[i]) * k / rho *
                          (parcel.ethanol_mol + parcel.water_mol);
    congener_g_[i] =
        std::fmax(congener_g_[i] * kept + parcel.congener_g[i] * added + rise_g, 0.0) *
        to_volume;
    parcel.congener_g[i] += before.congener_g_[i] - congener_g_[i];
  }
  parcel.ethanol_mol += before.ethanol_mol_ - ethanol_mol_;
  parcel.water_mol += before.water_mol_ - water_mol_;
}

}  // namespace lynearm::still
