// Spirit on its way from the head to the jar: a volume held in the coil and another in the
// parrot, each well mixed and always full once it has filled. What comes out is late and
// blunted. Amounts are kept, not rates: what is held and what has left sum to what came in.
#pragma once

#include <array>

#include "vapour/congener.hpp"

namespace lynearm::still {

/// A little of the stream: moles, and at either end its ethanol's mole fraction and its
/// congeners, grams to a mole.
struct Parcel {
  double ethanol_mol = 0.0, water_mol = 0.0;
  double z_from = 0.0, z_to = 0.0;
  std::array<double, vapour::congener_count> congener_g{};
  std::array<double, vapour::congener_count> trace_from{}, trace_to{};
  [[nodiscard]] double mol() const { return ethanol_mol + water_mol; }
};

/// One mixed volume.
class Tank {
 public:
  explicit Tank(double litres) : litres_(litres) {}

  /// Takes a parcel in and turns it into what flows over meanwhile.
  ///
  /// While it fills nothing flows over. Full, its composition follows the exact solution for a
  /// stream that changes in a straight line over the parcel, brought back to the volume.
  void pass(Parcel& parcel);

  /// Litres at 20 °C still missing; zero or less when full.
  [[nodiscard]] double missing_L() const;

  [[nodiscard]] double ethanol_mol() const { return ethanol_mol_; }
  [[nodiscard]] double water_mol() const { return water_mol_; }
  [[nodiscard]] double congener_g(std::size_t i) const { return congener_g_[i]; }

 private:
  void take(const Parcel& in);
  void flow_through(Parcel& parcel);
  [[nodiscard]] std::array<double, vapour::congener_count> traces() const;  // g/mol
  [[nodiscard]] double z() const { return ethanol_mol_ / (ethanol_mol_ + water_mol_); }

  double litres_;
  double ethanol_mol_ = 0.0, water_mol_ = 0.0;
  std::array<double, vapour::congener_count> congener_g_{};
};

}  // namespace lynearm::still
