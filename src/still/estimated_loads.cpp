#include "still/estimated_loads.hpp"

#include <algorithm>
#include <cmath>

#include "spirit/strength.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::still {
namespace {

using base::Figure;
using base::Source;
using base::Standing;
using units::MassConcentration;

constexpr Source volatility_source{
    "relative volatility to ethanol, order of magnitude over a run", Standing::from_memory};
constexpr Source charge_source{"grams in a usual charge, within a factor of two",
                               Standing::our_estimate};

constexpr UsualGroup group(double a, double a_low, double a_high, double g_per_hL) {
  const auto per_hL = [](double g) { return MassConcentration::grams_per_litre(g / 100.0); };
  return {{a, a_low, a_high, volatility_source},
          {per_hL(g_per_hL), per_hL(g_per_hL / 2.0), per_hL(g_per_hL * 2.0), charge_source}};
}

// Moles of ethanol to moles of water in the pot under a jar.
double pot_ratio(const Jar& jar) {
  const units::MoleFraction vapour = spirit::mole_fraction(spirit::mass_fraction(jar.strength));
  const double x =
      vapour::dew_point(vapour, units::Pressure::atmospheres(1.0)).liquid.fraction();
  return x / (1.0 - x);
}

// Share of the charge's ethanol left when the last jar ended; nothing where strengths that do
// not fall, or a pot that would be stronger than what ran from it, say that it was no such run.
std::optional<double> ethanol_left(const Jar& first, const Jar& last, const spirit::Lot& all) {
  if (!(first.strength > last.strength)) return std::nullopt;
  const double ethanol = all.ethanol.grams() / spirit::ethanol_molar_mass_g_per_mol;
  const double water = all.water.grams() / spirit::water_molar_mass_g_per_mol;
  const double at_first = pot_ratio(first);
  const double at_last = pot_ratio(last);
  const double water_left = (ethanol - at_first * water) / (at_first - at_last);
  const double ethanol_left = at_last * water_left;
  if (!std::isfinite(ethanol_left) || !(ethanol_left > 0.0)) return std::nullopt;
  return ethanol_left / (ethanol + ethanol_left);
}

// Grams that come over while the share of ethanol left falls from `before` to `after`, of what
// a litre of the charge's pure alcohol carries.
double gone(double before, double after, double volatility) {
  return std::pow(before, volatility) - std::pow(after, volatility);
}

Load estimated(const UsualGroup& usual, double before, double after, double charge_alcohol_L) {
  const Figure<double>& a = usual.volatility;
  const double usual_share = gone(before, after, a.value);
  const auto [least, most] =
      std::minmax({usual_share, gone(before, after, a.low), gone(before, after, a.high)});
  const auto grams = [&](double share, MassConcentration in_charge) {
    return units::Mass::grams(share * in_charge.grams_per_litre() * charge_alcohol_L);
  };
  return {grams(usual_share, usual.in_charge.value), grams(least, usual.in_charge.low),
          grams(most, usual.in_charge.high)};
}

}  // namespace

const UsualGroup& usual_early() {
  static constexpr UsualGroup usual = group(3.5, 2.5, 5.0, 60.0);
  return usual;
}
const UsualGroup& usual_middle() {
  static constexpr UsualGroup usual = group(1.0, 0.6, 1.6, 250.0);
  return usual;
}
const UsualGroup& usual_late() {
  static constexpr UsualGroup usual = group(0.2, 0.1, 0.35, 40.0);
  return usual;
}

FilledJars fill_loads(std::vector<Jar> jars) {
  check(jars);
  FilledJars filled;
  filled.early_estimated = !jars.front().early;
  filled.middle_estimated = !jars.front().middle;
  filled.late_estimated = !jars.front().late;

  const std::vector<std::size_t> order = running_order(jars);
  spirit::Lot all;
  for (const std::size_t i : order) all = all + lot_of(jars[i]);
  const auto left = ethanol_left(jars[order.front()], jars[order.back()], all);
  filled.left_assumed = !left.has_value();
  filled.alcohol_left = left ? units::Share::fraction(*left) : usual_alcohol_left;

  const double collected_L = spirit::pure_alcohol(all).litres();
  const double charge_L = collected_L / (1.0 - filled.alcohol_left.fraction());
  double over_L = 0.0;
  for (const std::size_t i : order) {
    const double before = 1.0 - over_L / charge_L;
    over_L += spirit::pure_alcohol(lot_of(jars[i])).litres();
    const double after = std::max(0.0, 1.0 - over_L / charge_L);
    Jar& jar = jars[i];
    if (filled.early_estimated) jar.early = estimated(usual_early(), before, after, charge_L);
    if (filled.middle_estimated)
      jar.middle = estimated(usual_middle(), before, after, charge_L);
    if (filled.late_estimated) jar.late = estimated(usual_late(), before, after, charge_L);
  }
  filled.jars = std::move(jars);
  return filled;
}

}  // namespace lynearm::still
