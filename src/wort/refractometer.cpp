#include "wort/refractometer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "spirit/refractometer.hpp"
#include "wort/attenuation.hpp"
#include "wort/gravity.hpp"

namespace lynearm::wort {
namespace {

using units::Mass;
using units::MassFraction;
using units::Plato;
using units::RefractiveIndex;
using units::Share;
using units::SpecificGravity;
using units::Temperature;

constexpr double least_factor = 0.9, greatest_factor = 1.2;
// More than any yeast makes.
constexpr double most_alcohol = 0.20;

void accept(const BrixRefractometer& instrument) {
  if (!(instrument.wort_factor >= least_factor && instrument.wort_factor <= greatest_factor))
    throw base::InputError("wort_factor", fmt::format("{:.4g}", instrument.wort_factor),
                           "a reading over extract of 0.9 to 1.2");
}

void accept_reading(Brix reading) {
  if (!(reading.degrees() >= 0.0 && reading.degrees() <= strongest.degrees()))
    throw base::InputError("reading", fmt::format("{:.2f} Bx", reading.degrees()),
                           "0 to 40 Bx");
}

void accept_reading_between(Brix reading, double low_Bx, const char* low_is, double high_Bx,
                            const char* high_is) {
  constexpr double rounding = 1e-9;
  if (!(reading.degrees() >= low_Bx - rounding && reading.degrees() <= high_Bx + rounding))
    throw base::InputError(
        "reading", fmt::format("{:.2f} Bx", reading.degrees()),
        fmt::format("{:.2f} Bx ({}) to {:.2f} Bx ({})", low_Bx, low_is, high_Bx, high_is));
}

// The mark of the scale at an index, true at 20 °C; carried straight on past either end.
double mark_Bx(RefractiveIndex index) {
  struct End {
    double n, rise_per_Bx;
  };
  static const auto end = [](double at_Bx, double inward_Bx) {
    const double n = refractive_index(Brix::degrees(at_Bx)).ratio();
    return End{n, (refractive_index(Brix::degrees(at_Bx + inward_Bx)).ratio() - n) / inward_Bx};
  };
  static const End water = end(0.0, 0.01), last = end(strongest.degrees(), -0.01);
  const double n = index.ratio();
  if (n < water.n) return (n - water.n) / water.rise_per_Bx;
  if (n > last.n) return strongest.degrees() + (n - last.n) / last.rise_per_Bx;
  return brix(index).degrees();
}

Wash wash_of(double alcohol, double extract) {
  return {Mass::kilograms(1.0 - alcohol - extract), Mass::kilograms(alcohol),
          Mass::kilograms(extract)};
}

// Where a rising function is zero; the end it has reached already when that is by a rounding.
template <class F>
double root_of(const F& rising, double low, double high) {
  if (rising(low) >= 0.0) return low;
  if (rising(high) <= 0.0) return high;
  return numeric::root_between(rising, low, high, "wash from a refractometer", {1e-13, 100})
      .value;
}

RefractedWash found(Plato original, double alcohol, double extract) {
  const Wash wash = wash_of(alcohol, extract);
  return {original, Plato::degrees(100.0 * extract), Share::fraction(alcohol), strength(wash),
          specific_gravity(wash)};
}

}  // namespace

double wort_factor(Brix shown, Plato extract) {
  if (!(shown.degrees() > 0.0 && shown.degrees() <= strongest.degrees()))
    throw base::InputError("reading", fmt::format("{:.2f} Bx", shown.degrees()),
                           "above 0, to 40 Bx");
  if (!(extract.degrees() > 0.0 && extract <= strongest))
    throw base::InputError("extract", fmt::format("{:.2f} °P", extract.degrees()),
                           "above 0, to 40 °P");
  const double factor = shown.degrees() / extract.degrees();
  accept(BrixRefractometer{true, factor});
  return factor;
}

RefractiveIndex refractive_index(const Wash& wash, Temperature t) {
  const double spirit_g = (wash.ethanol + wash.water).grams();
  double refraction_mL = 0.0;
  if (spirit_g > 0.0)
    refraction_mL += spirit_g * spirit::specific_refraction_mL_per_g(
                                    MassFraction::fraction(wash.ethanol.grams() / spirit_g), t);
  if (wash.extract.grams() > 0.0)
    refraction_mL += wash.extract.grams() *
                     extract_refraction_mL_per_g(plato(Wort{wash.water, wash.extract}));
  const double volume_mL = volume(wash, t).millilitres();
  if (!(volume_mL > 0.0))
    throw base::InputError("wash", fmt::format("{:.3g} kg", wash.mass().kilograms()),
                           "a wash of more than nothing");
  return spirit::index_of_refraction(refraction_mL / volume_mL);
}

Brix shown(const Wash& wash, Temperature t, const BrixRefractometer& instrument) {
  accept(instrument);
  const RefractiveIndex index =
      refractive_index(wash, instrument.compensated ? spirit::reference_20C : t);
  // What the wort's own sugars show beyond sucrose.
  const double beyond_Bx = (instrument.wort_factor - 1.0) * real_extract(wash).degrees();
  return Brix::degrees(mark_Bx(index) + beyond_Bx);
}

Plato extract(Brix reading, Temperature t, const BrixRefractometer& instrument) {
  accept(instrument);
  accept_reading(reading);
  const auto miss_Bx = [&](double extract) {
    return (shown(wash_of(0.0, extract), t, instrument) - reading).degrees();
  };
  const double none_Bx = reading.degrees() + miss_Bx(0.0);
  const double most_Bx = reading.degrees() + miss_Bx(strongest.degrees() / 100.0);
  accept_reading_between(reading, none_Bx, "water", most_Bx, "40 °P");
  return Plato::degrees(100.0 * root_of(miss_Bx, 0.0, strongest.degrees() / 100.0));
}

RefractedWash wash_of_original(Plato original, Brix reading, Temperature t,
                               const BrixRefractometer& instrument) {
  accept(instrument);
  accept_reading(reading);
  if (!(original.degrees() > 0.0 && original <= strongest))
    throw base::InputError("original_extract", fmt::format("{:.3f} °P", original.degrees()),
                           "above 0, to 40 °P");
  const auto alcohol = [&](double extract) {
    // At the unfermented end a rounding would leave less than none.
    return std::max(0.0, alcohol_by_mass(original, Plato::degrees(100.0 * extract)).fraction());
  };
  const auto miss_Bx = [&](double extract) {
    return (shown(wash_of(alcohol(extract), extract), t, instrument) - reading).degrees();
  };
  const double whole = original.degrees() / 100.0;
  accept_reading_between(reading, reading.degrees() + miss_Bx(0.0), "all extract fermented",
                         reading.degrees() + miss_Bx(whole), "none fermented");
  const double extract = root_of(miss_Bx, 0.0, whole);
  return found(original, alcohol(extract), extract);
}

RefractedWash wash_of_gravity(SpecificGravity gravity, Brix reading, Temperature t,
                              const BrixRefractometer& instrument) {
  accept(instrument);
  accept_reading(reading);
  if (!(gravity.ratio() >= 0.975 && gravity.ratio() <= 1.150))
    throw base::InputError("gravity", fmt::format("{:.4f}", gravity.ratio()),
                           "a specific gravity of 0.975 to 1.150");
  // Along the washes of this gravity: more alcohol needs more extract to float it, and both
  // show. 40 % of extract and water is as far as the volume goes.
  const auto over = [&](double alcohol, double extract) {
    return specific_gravity(wash_of(alcohol, extract)).ratio() - gravity.ratio();
  };
  const auto most_extract = [](double alcohol) {
    return strongest.degrees() / 100.0 * (1.0 - alcohol);
  };
  const auto extract = [&](double alcohol) {
    return root_of([&](double e) { return over(alcohol, e); }, 0.0, most_extract(alcohol));
  };
  const auto miss_Bx = [&](double alcohol) {
    return (shown(wash_of(alcohol, extract(alcohol)), t, instrument) - reading).degrees();
  };
  double least = 0.0, most = most_alcohol;
  if (over(0.0, 0.0) > 0.0) least = root_of([&](double a) { return -over(a, 0.0); }, 0.0, most);
  if (over(most, most_extract(most)) < 0.0)
    most = root_of([&](double a) { return -over(a, most_extract(a)); }, least, most);
  accept_reading_between(reading, reading.degrees() + miss_Bx(least), "the least alcohol",
                         reading.degrees() + miss_Bx(most), "the most alcohol");
  const double alcohol = root_of(miss_Bx, least, most);
  const double left = extract(alcohol);
  const Plato original =
      original_extract(Share::fraction(alcohol), Plato::degrees(100.0 * left));
  if (!(original <= strongest))
    throw base::InputError("reading", fmt::format("{:.2f} Bx", reading.degrees()),
                           fmt::format("a reading that with this gravity means a wort of at "
                                       "most 40 °P; it would mean {:.1f}",
                                       original.degrees()));
  return found(original, alcohol, left);
}

}  // namespace lynearm::wort
