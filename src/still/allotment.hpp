// An allotment: of each jar so many millilitres to foreshots, hearts, feints or apart; and what
// comes of it. The maker's hand and the proposal of propose_cut.hpp are judged by this one
// function, so that both stand beside each other on the shelf.
//
// Model: masses of ethanol, water and congeners add; volume and strength are asked of the sum,
// so contraction is in it. A jar is mixed: a part of it carries its share of everything. Leaves
// out what evaporates or clings on pouring.
#pragma once

#include <vector>

#include "still/jar.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

/// Where a jar goes, each at 20 °C; together they are the jar.
struct Poured {
  units::Volume foreshots, hearts, feints, apart;
};
/// One for each jar, in the jars' order.
using Allotment = std::vector<Poured>;

/// A load per litre of pure alcohol at 20 °C, with its 80 % band. The trade counts grams per
/// hectolitre of pure alcohol: a hundred times the figure in g/L.
struct Burden {
  units::MassConcentration value, low, high;
};
[[nodiscard]] constexpr double grams_per_hectolitre(units::MassConcentration c) {
  return c.grams_per_litre() * 100.0;
}

/// What has been poured together.
struct Vessel20C {
  spirit::Lot lot;
  units::Volume volume;            ///< at 20 °C
  units::VolumeStrength strength;  ///< zero when empty
  units::Volume pure_alcohol;      ///< at 20 °C
  units::Volume contraction;       ///< the parts' volumes less this one
  Load early, middle, late;
  double fault = 0.0;  ///< mean of the jars' marks, by pure alcohol

  /// A load per litre of pure alcohol; zero when empty.
  [[nodiscard]] Burden per_alcohol(const Load& load) const;
};

struct Outcome {
  Vessel20C foreshots, hearts, feints, apart;
};

/// What an allotment gives.
///
/// jars       with the loads of every group: see fill_loads()
/// throws     InputError as check() does; "jars[2].early" and the like where a load is not
///            stated; "allotment" when it is not one part for each jar, "allotment[2]" when one
///            is below zero or they do not add to the jar within 1e-9 of it
/// accuracy   ethanol, water and each load over the four vessels sum to the jars' to 1e-12
[[nodiscard]] Outcome evaluate(const std::vector<Jar>& jars, const Allotment& allotment);

}  // namespace lynearm::still
