#include "still/yardstick.hpp"

#include <map>
#include <optional>

#include "spirit/strength.hpp"

namespace lynearm::still {
namespace {

using units::MassConcentration;
using units::Volume;

double per_alcohol_g_per_L(units::Mass mass, Volume alcohol) {
  return alcohol > Volume{} ? mass.grams() / alcohol.litres() : 0.0;
}

// Grams of water beside a litre of alcohol in the yardstick's spirit.
double yardstick_water_g_per_L() {
  static const spirit::Lot litre = spirit::lot(Volume::litres(1.0), yardstick_strength);
  return per_alcohol_g_per_L(litre.water, spirit::pure_alcohol(litre));
}

// A load against its yardstick; nothing where the yardstick is nothing, since then no jar
// carries any.
double against(double load, double yardstick) {
  return yardstick > 0.0 ? load / yardstick : 0.0;
}

// The load per litre of alcohol of the middle drop. Jars of one load are one, since nothing
// says which of them comes first.
double middle_g_per_L(const std::vector<Jar>& jars, std::optional<Load> Jar::*load) {
  std::map<double, double> alcohol_L_of_load;
  double all_L = 0.0;
  double all_g = 0.0;
  for (const Jar& jar : jars) {
    const double alcohol_L = spirit::pure_alcohol(lot_of(jar)).litres();
    const double grams = (jar.*load)->mass.grams();
    alcohol_L_of_load[grams / alcohol_L] += alcohol_L;
    all_L += alcohol_L;
    all_g += grams;
  }
  double middle = alcohol_L_of_load.begin()->first;
  double before_L = 0.0;
  double last_centre_L = 0.0;
  for (const auto& [load_g_per_L, alcohol_L] : alcohol_L_of_load) {
    const double centre_L = before_L + 0.5 * alcohol_L;
    if (centre_L >= 0.5 * all_L) {
      const double t = last_centre_L > 0.0
                           ? (0.5 * all_L - last_centre_L) / (centre_L - last_centre_L)
                           : 1.0;
      middle += t * (load_g_per_L - middle);
      break;
    }
    middle = load_g_per_L;
    last_centre_L = centre_L;
    before_L += alcohol_L;
  }
  return middle > 0.0 ? middle : all_g / all_L;
}

}  // namespace

AgainstYardstick against_yardstick(units::Mass water, units::Mass early, units::Mass late,
                                   Volume alcohol, const Yardstick& yardstick) {
  return {per_alcohol_g_per_L(water, alcohol) / yardstick_water_g_per_L(),
          against(per_alcohol_g_per_L(early, alcohol), yardstick.early.grams_per_litre()),
          against(per_alcohol_g_per_L(late, alcohol), yardstick.late.grams_per_litre())};
}

Yardstick yardstick_of(const std::vector<Jar>& jars) {
  constexpr double twice = 2.0;
  return {MassConcentration::grams_per_litre(twice * middle_g_per_L(jars, &Jar::early)),
          MassConcentration::grams_per_litre(twice * middle_g_per_L(jars, &Jar::late))};
}

}  // namespace lynearm::still
