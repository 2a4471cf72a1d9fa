// Quantities with their kind in the type: named factory in, named accessor out.
//
// An Amount adds, subtracts and scales. A Temperature is a point on a scale: two of them
// subtract to a TemperatureChange, and do not add. Kinds that share a unit differ in type
// (MassFraction, MoleFraction, VolumeStrength). Changing a unit is arithmetic and lives here;
// changing a reference temperature (20 °C strength, 60 °F proof) is physics: see spirit/.
// Products (power times duration) are written where they are used, not as a general algebra.
#pragma once

#include <compare>

namespace lynearm::units {

/// What every additive quantity has in common. `Self` keeps one double in its base unit.
template <class Self>
class Amount {
 public:
  constexpr Amount() = default;
  friend constexpr auto operator<=>(const Amount&, const Amount&) = default;
  friend constexpr Self operator+(Self a, Self b) { return Self::raw(a.base_ + b.base_); }
  friend constexpr Self operator-(Self a, Self b) { return Self::raw(a.base_ - b.base_); }
  friend constexpr Self operator-(Self a) { return Self::raw(-a.base_); }
  friend constexpr Self operator*(Self a, double k) { return Self::raw(a.base_ * k); }
  friend constexpr Self operator*(double k, Self a) { return Self::raw(a.base_ * k); }
  friend constexpr Self operator/(Self a, double k) { return Self::raw(a.base_ / k); }
  /// Ratio of two amounts of one kind: a pure number.
  friend constexpr double operator/(Self a, Self b) { return a.base_ / b.base_; }
  constexpr Self& operator+=(Self b) { return base_ += b.base_, static_cast<Self&>(*this); }
  constexpr Self& operator-=(Self b) { return base_ -= b.base_, static_cast<Self&>(*this); }

 protected:
  constexpr explicit Amount(double base) : base_(base) {}
  double base_ = 0.0;
};

// Each kind states its base unit, then a factory and an accessor per unit it is met in.
#define LYNEARM_KIND(Kind)                                      \
 public:                                                        \
  constexpr Kind() = default;                                   \
  static constexpr Kind raw(double base) { return Kind(base); } \
                                                                \
 private:                                                       \
  constexpr explicit Kind(double base) : Amount<Kind>(base) {}  \
                                                                \
 public:
#define LYNEARM_UNIT(Kind, unit, in_base)                                   \
  static constexpr Kind unit(double v) { return Kind::raw(v * (in_base)); } \
  constexpr double unit() const { return base_ / (in_base); }

/// Base kilogram. Pound and ounce avoirdupois: exact by definition (0.45359237 kg).
class Mass : public Amount<Mass> {
  LYNEARM_KIND(Mass)
  LYNEARM_UNIT(Mass, kilograms, 1.0)
  LYNEARM_UNIT(Mass, grams, 1e-3)
  LYNEARM_UNIT(Mass, milligrams, 1e-6)
  LYNEARM_UNIT(Mass, pounds, 0.45359237)
  LYNEARM_UNIT(Mass, ounces, 0.45359237 / 16.0)
};

/// Base litre. US liquid gallon: 231 cubic inches, exact.
class Volume : public Amount<Volume> {
  LYNEARM_KIND(Volume)
  LYNEARM_UNIT(Volume, litres, 1.0)
  LYNEARM_UNIT(Volume, millilitres, 1e-3)
  LYNEARM_UNIT(Volume, cubic_metres, 1e3)
  LYNEARM_UNIT(Volume, us_gallons, 3.785411784)
  LYNEARM_UNIT(Volume, us_quarts, 3.785411784 / 4.0)
  LYNEARM_UNIT(Volume, us_pints, 3.785411784 / 8.0)
  LYNEARM_UNIT(Volume, us_cups, 3.785411784 / 16.0)
  LYNEARM_UNIT(Volume, us_fluid_ounces, 3.785411784 / 128.0)
};

/// Base second.
class Duration : public Amount<Duration> {
  LYNEARM_KIND(Duration)
  LYNEARM_UNIT(Duration, seconds, 1.0)
  LYNEARM_UNIT(Duration, minutes, 60.0)
  LYNEARM_UNIT(Duration, hours, 3600.0)
  LYNEARM_UNIT(Duration, days, 86400.0)
  LYNEARM_UNIT(Duration, weeks, 604800.0)
  /// Mean Gregorian month and year.
  LYNEARM_UNIT(Duration, months, 86400.0 * 365.2425 / 12.0)
  LYNEARM_UNIT(Duration, years, 86400.0 * 365.2425)
};

/// A difference between two temperatures. Base kelvin.
class TemperatureChange : public Amount<TemperatureChange> {
  LYNEARM_KIND(TemperatureChange)
  LYNEARM_UNIT(TemperatureChange, kelvins, 1.0)
  LYNEARM_UNIT(TemperatureChange, fahrenheit_degrees, 5.0 / 9.0)
};

/// Base pascal.
class Pressure : public Amount<Pressure> {
  LYNEARM_KIND(Pressure)
  LYNEARM_UNIT(Pressure, pascals, 1.0)
  LYNEARM_UNIT(Pressure, hectopascals, 1e2)
  LYNEARM_UNIT(Pressure, kilopascals, 1e3)
  LYNEARM_UNIT(Pressure, bars, 1e5)
  LYNEARM_UNIT(Pressure, atmospheres, 101325.0)
  LYNEARM_UNIT(Pressure, millimetres_of_mercury, 133.322387415)
  LYNEARM_UNIT(Pressure, inches_of_mercury, 25.4 * 133.322387415)
  LYNEARM_UNIT(Pressure, pounds_per_square_inch, 6894.757293168)
};

/// Base watt. BTU: International Table.
class Power : public Amount<Power> {
  LYNEARM_KIND(Power)
  LYNEARM_UNIT(Power, watts, 1.0)
  LYNEARM_UNIT(Power, kilowatts, 1e3)
  LYNEARM_UNIT(Power, btu_per_hour, 1055.05585262 / 3600.0)
};

/// Base joule.
class Energy : public Amount<Energy> {
  LYNEARM_KIND(Energy)
  LYNEARM_UNIT(Energy, joules, 1.0)
  LYNEARM_UNIT(Energy, kilojoules, 1e3)
  LYNEARM_UNIT(Energy, megajoules, 1e6)
  LYNEARM_UNIT(Energy, kilowatt_hours, 3.6e6)
};

/// Base metre.
class Length : public Amount<Length> {
  LYNEARM_KIND(Length)
  LYNEARM_UNIT(Length, metres, 1.0)
  LYNEARM_UNIT(Length, centimetres, 1e-2)
  LYNEARM_UNIT(Length, millimetres, 1e-3)
  LYNEARM_UNIT(Length, inches, 0.0254)
  LYNEARM_UNIT(Length, feet, 0.3048)
};

/// Base square metre.
class Area : public Amount<Area> {
  LYNEARM_KIND(Area)
  LYNEARM_UNIT(Area, square_metres, 1.0)
  LYNEARM_UNIT(Area, square_centimetres, 1e-4)
  LYNEARM_UNIT(Area, square_inches, 0.0254 * 0.0254)
};

/// Wood surface met by a volume of spirit. Base square metre per litre.
class AreaPerVolume : public Amount<AreaPerVolume> {
  LYNEARM_KIND(AreaPerVolume)
  LYNEARM_UNIT(AreaPerVolume, square_metres_per_litre, 1.0)
  LYNEARM_UNIT(AreaPerVolume, square_centimetres_per_litre, 1e-4)
};

/// Base kilogram per cubic metre.
class Density : public Amount<Density> {
  LYNEARM_KIND(Density)
  LYNEARM_UNIT(Density, kilograms_per_cubic_metre, 1.0)
  LYNEARM_UNIT(Density, grams_per_millilitre, 1e3)
};

/// Dissolved mass in a volume. Base gram per litre.
class MassConcentration : public Amount<MassConcentration> {
  LYNEARM_KIND(MassConcentration)
  LYNEARM_UNIT(MassConcentration, grams_per_litre, 1.0)
  LYNEARM_UNIT(MassConcentration, milligrams_per_litre, 1e-3)
};

/// Base litre per second.
class VolumeFlow : public Amount<VolumeFlow> {
  LYNEARM_KIND(VolumeFlow)
  LYNEARM_UNIT(VolumeFlow, litres_per_second, 1.0)
  LYNEARM_UNIT(VolumeFlow, litres_per_minute, 1.0 / 60.0)
  LYNEARM_UNIT(VolumeFlow, litres_per_hour, 1.0 / 3600.0)
  LYNEARM_UNIT(VolumeFlow, us_gallons_per_minute, 3.785411784 / 60.0)
};

/// Heat lost to the room for each kelvin above it. Base watt per kelvin.
class HeatLoss : public Amount<HeatLoss> {
  LYNEARM_KIND(HeatLoss)
  LYNEARM_UNIT(HeatLoss, watts_per_kelvin, 1.0)
};

/// Heat to warm a body by one kelvin. Base joule per kelvin.
class HeatCapacity : public Amount<HeatCapacity> {
  LYNEARM_KIND(HeatCapacity)
  LYNEARM_UNIT(HeatCapacity, joules_per_kelvin, 1.0)
  LYNEARM_UNIT(HeatCapacity, kilojoules_per_kelvin, 1e3)
};

/// A part of a whole without a kind of its own: an efficiency, a loss, a moisture.
class Share : public Amount<Share> {
  LYNEARM_KIND(Share)
  LYNEARM_UNIT(Share, fraction, 1.0)
  LYNEARM_UNIT(Share, percent, 1e-2)
};

/// Ethanol by mass in ethanol and water, 0 to 1.
class MassFraction : public Amount<MassFraction> {
  LYNEARM_KIND(MassFraction)
  LYNEARM_UNIT(MassFraction, fraction, 1.0)
  LYNEARM_UNIT(MassFraction, percent, 1e-2)
};

/// Ethanol by amount of substance in ethanol and water, 0 to 1.
class MoleFraction : public Amount<MoleFraction> {
  LYNEARM_KIND(MoleFraction)
  LYNEARM_UNIT(MoleFraction, fraction, 1.0)
  LYNEARM_UNIT(MoleFraction, percent, 1e-2)
};

/// Alcoholic strength by volume at 20 °C (OIML R 22): the litres of pure alcohol in a
/// hundred litres of the mixture, both at 20 °C, 0 to 1.
class VolumeStrength : public Amount<VolumeStrength> {
  LYNEARM_KIND(VolumeStrength)
  LYNEARM_UNIT(VolumeStrength, fraction, 1.0)
  LYNEARM_UNIT(VolumeStrength, percent, 1e-2)
};

/// Starch-splitting power of a malt, degrees Lintner.
class DiastaticPower : public Amount<DiastaticPower> {
  LYNEARM_KIND(DiastaticPower)
  LYNEARM_UNIT(DiastaticPower, lintner, 1.0)
};

/// Dissolved extract, % by mass (degrees Plato; Balling and Brix count the same thing).
class Plato : public Amount<Plato> {
  LYNEARM_KIND(Plato)
  LYNEARM_UNIT(Plato, degrees, 1.0)
};

/// Density of a liquid at 20 °C over that of water at 20 °C, in vacuum (SG 20/20).
class SpecificGravity : public Amount<SpecificGravity> {
  LYNEARM_KIND(SpecificGravity)
  LYNEARM_UNIT(SpecificGravity, ratio, 1.0)
};

/// Refractive index against air, sodium D line (589.3 nm).
class RefractiveIndex : public Amount<RefractiveIndex> {
  LYNEARM_KIND(RefractiveIndex)
  LYNEARM_UNIT(RefractiveIndex, ratio, 1.0)
};

#undef LYNEARM_UNIT
#undef LYNEARM_KIND

/// A point on the temperature scale. Default: 0 K, so that a forgotten one is noticed.
class Temperature {
 public:
  constexpr Temperature() = default;
  static constexpr Temperature kelvins(double v) { return Temperature(v); }
  static constexpr Temperature celsius(double v) { return Temperature(v + 273.15); }
  static constexpr Temperature fahrenheit(double v) {
    return Temperature((v - 32.0) * (5.0 / 9.0) + 273.15);
  }
  constexpr double kelvins() const { return kelvin_; }
  constexpr double celsius() const { return kelvin_ - 273.15; }
  constexpr double fahrenheit() const { return (kelvin_ - 273.15) * 1.8 + 32.0; }

  friend constexpr auto operator<=>(const Temperature&, const Temperature&) = default;
  friend constexpr TemperatureChange operator-(Temperature a, Temperature b) {
    return TemperatureChange::kelvins(a.kelvin_ - b.kelvin_);
  }
  friend constexpr Temperature operator+(Temperature a, TemperatureChange d) {
    return Temperature(a.kelvin_ + d.kelvins());
  }
  friend constexpr Temperature operator-(Temperature a, TemperatureChange d) {
    return Temperature(a.kelvin_ - d.kelvins());
  }

 private:
  constexpr explicit Temperature(double kelvin) : kelvin_(kelvin) {}
  double kelvin_ = 0.0;
};

}  // namespace lynearm::units
