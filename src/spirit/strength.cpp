#include "spirit/strength.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/density_kernel.hpp"

namespace lynearm::spirit {
namespace {

// % by volume at a reference temperature: the volume of the ethanol alone over that of the
// mixture, both at that temperature.
//
// The definition divides by the density of pure ethanol that the formula itself gives
// (789.239), so that 100 % by mass is 100 % by volume exactly; the document rounds to 789.24.
class VolumeScale {
 public:
  explicit VolumeScale(units::Temperature reference)
      : at_(reference.celsius()),
        pure_kgm3_(at_(1.0).density_kgm3),
        water_kgm3_(at_(0.0).density_kgm3) {}

  [[nodiscard]] double strength(double p) const { return p * at_(p).density_kgm3 / pure_kgm3_; }

  // Newton on q(p), which rises with p over the whole range.
  [[nodiscard]] double mass_fraction(double q) const {
    double low = 0.0;
    double high = 1.0;
    double p = q * (0.80 + 0.20 * q * q);
    for (int i = 0; i < 60; ++i) {
      const DensityAt::Value rho = at_(p);
      const double miss = p * rho.density_kgm3 / pure_kgm3_ - q;
      if (std::abs(miss) < 1e-15) return p;
      (miss < 0.0 ? low : high) = p;
      double next = p - miss * pure_kgm3_ / (rho.density_kgm3 + p * rho.slope);
      if (!(next >= low && next <= high)) next = 0.5 * (low + high);
      if (std::abs(next - p) < 1e-16) return next;
      p = next;
    }
    return p;  // the bracket is one rounding wide by now
  }

  // Density over that of water at the same temperature, and its inverse.
  [[nodiscard]] double gravity(double p) const { return at_(p).density_kgm3 / water_kgm3_; }
  [[nodiscard]] double mass_fraction_of_gravity(double gravity) const {
    const double least = pure_kgm3_ / water_kgm3_;
    constexpr double rounding = 1e-12;
    if (!(gravity >= least - rounding && gravity <= 1.0 + rounding)) {
      throw base::InputError("gravity", fmt::format("{:.5f}", gravity),
                             fmt::format("{:.4f} (pure ethanol) to 1 (water)", least));
    }
    return at_.mass_fraction(gravity * water_kgm3_, (1.0 - gravity) / (1.0 - least));
  }

 private:
  DensityAt at_;
  double pure_kgm3_, water_kgm3_;
};

const VolumeScale& scale_20C() {
  static const VolumeScale scale(reference_20C);
  return scale;
}

const VolumeScale& scale_15C() {
  static const VolumeScale scale(units::Temperature::celsius(15.0));
  return scale;
}

const VolumeScale& scale_60F() {
  static const VolumeScale scale(reference_60F);
  return scale;
}

// `unit` is the number of its units in the fraction: the words are made only for the refusal.
double checked(double value, double most, const char* unit, double shown_per_value) {
  if (!(value >= 0.0 && value <= most)) {
    throw base::InputError("strength", fmt::format("{:.4f}{}", value * shown_per_value, unit),
                           fmt::format("0 to {:.0f}{}", most * shown_per_value, unit));
  }
  return value;
}

}  // namespace

units::VolumeStrength volume_strength(units::MassFraction ethanol) {
  const double p = checked(ethanol.fraction(), 1.0, " % by mass", 100.0);
  return units::VolumeStrength::fraction(scale_20C().strength(p));
}

units::MassFraction mass_fraction(units::VolumeStrength strength) {
  const double q = checked(strength.fraction(), 1.0, " %vol", 100.0);
  return units::MassFraction::fraction(scale_20C().mass_fraction(q));
}

Proof proof(units::MassFraction ethanol) {
  const double p = checked(ethanol.fraction(), 1.0, " % by mass", 100.0);
  return Proof::degrees(200.0 * scale_60F().strength(p));
}

units::MassFraction mass_fraction(Proof proof) {
  const double degrees = checked(proof.degrees(), 200.0, " proof", 1.0);
  return units::MassFraction::fraction(scale_60F().mass_fraction(degrees / 200.0));
}

VolumeStrength15C volume_strength_15C(units::MassFraction ethanol) {
  const double p = checked(ethanol.fraction(), 1.0, " % by mass", 100.0);
  return VolumeStrength15C::fraction(scale_15C().strength(p));
}

VolumeStrength60F volume_strength_60F(units::MassFraction ethanol) {
  const double p = checked(ethanol.fraction(), 1.0, " % by mass", 100.0);
  return VolumeStrength60F::fraction(scale_60F().strength(p));
}

units::MassFraction mass_fraction(VolumeStrength15C strength) {
  const double q = checked(strength.fraction(), 1.0, " %vol at 15 °C", 100.0);
  return units::MassFraction::fraction(scale_15C().mass_fraction(q));
}

units::MassFraction mass_fraction(VolumeStrength60F strength) {
  const double q = checked(strength.fraction(), 1.0, " %vol at 60 °F", 100.0);
  return units::MassFraction::fraction(scale_60F().mass_fraction(q));
}

units::SpecificGravity specific_gravity(units::MassFraction ethanol) {
  const double p = checked(ethanol.fraction(), 1.0, " % by mass", 100.0);
  return units::SpecificGravity::ratio(scale_20C().gravity(p));
}

SpecificGravity60F specific_gravity_60F(units::MassFraction ethanol) {
  const double p = checked(ethanol.fraction(), 1.0, " % by mass", 100.0);
  return SpecificGravity60F::ratio(scale_60F().gravity(p));
}

units::MassFraction mass_fraction(units::SpecificGravity gravity) {
  return units::MassFraction::fraction(scale_20C().mass_fraction_of_gravity(gravity.ratio()));
}

units::MassFraction mass_fraction(SpecificGravity60F gravity) {
  return units::MassFraction::fraction(scale_60F().mass_fraction_of_gravity(gravity.ratio()));
}

units::MoleFraction mole_fraction(units::MassFraction ethanol) {
  const double e = ethanol.fraction() / ethanol_molar_mass_g_per_mol;
  const double w = (1.0 - ethanol.fraction()) / water_molar_mass_g_per_mol;
  return units::MoleFraction::fraction(e / (e + w));
}

units::MassFraction mass_fraction(units::MoleFraction ethanol) {
  const double e = ethanol.fraction() * ethanol_molar_mass_g_per_mol;
  const double w = (1.0 - ethanol.fraction()) * water_molar_mass_g_per_mol;
  return units::MassFraction::fraction(e / (e + w));
}

}  // namespace lynearm::spirit
