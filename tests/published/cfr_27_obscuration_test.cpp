// 27 CFR 30.32 (13.32 in an older edition), determination of proof obscuration: each 100 mg of
// solids in 100 mL of spirits hide 0.4 proof. Held against the densities: what dissolved solids
// of a known volume must hide.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "spirit/obscuration_rule.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

// Proof hidden by 1 g/L (100 mg/100 mL) in spirit of a true proof, all at 60 °F.
double hidden(double true_degrees, double solids_mL_per_g) {
  const ObscuredLot lot = obscured_lot(
      units::Volume::litres(1.0), volume_strength(mass_fraction(Proof::degrees(true_degrees))),
      units::MassConcentration::grams_per_litre(1.0), reference_20C, solids_mL_per_g);
  return (true_proof(lot, solids_mL_per_g).degrees() -
          apparent_proof(lot, solids_mL_per_g).degrees());
}

struct Row {
  const char* source;
  double proof, mg_per_100mL, hidden_proof, tolerance_proof;
};

// Half the last printed digit is 0.05 proof. The rule is one figure for every strength, where
// the physics falls from 0.48 at 80 to 0.38 at 100 proof; where it parts by more, the row says
// so and is held to how far it is known to part.
// clang-format off
constexpr Row rows[] = {
    {"27 CFR 30.32, at 80 proof: parts, a rule without strength is low here",  80, 100, 0.4, 0.083},
    {"27 CFR 30.32, at 90 proof",                                              90, 100, 0.4, 0.05},
    {"27 CFR 30.32, at 100 proof",                                            100, 100, 0.4, 0.05},
    {"27 CFR 30.32, at 120 proof: parts, beyond the rule's 80 to 100 proof",  120, 100, 0.4, 0.082},
};
// clang-format on

TEST(Cfr27Obscuration, is_what_solids_like_sucrose_hide_near_94_proof) {
  double worst = 0.0;
  double squares = 0.0;
  for (const Row& row : rows) {
    const double parts = hidden(row.proof, sucrose_mL_per_g) - row.hidden_proof;
    EXPECT_NEAR(parts, 0.0, row.tolerance_proof) << row.source;
    EXPECT_NEAR(
        obscuration(units::MassConcentration::milligrams_per_litre(10.0 * row.mg_per_100mL))
            .degrees(),
        row.hidden_proof, 1e-12)
        << row.source;
    worst = std::max(worst, std::abs(parts));
    squares += parts * parts;
  }
  RecordProperty("worst_proof", std::to_string(worst));
  RecordProperty("rms_proof", std::to_string(std::sqrt(squares / std::size(rows))));
  EXPECT_GT(hidden(94.0, sucrose_mL_per_g), 0.4);
  EXPECT_LT(hidden(95.0, sucrose_mL_per_g), 0.4);
}

TEST(Cfr27Obscuration, lies_within_what_solids_of_any_likely_volume_hide_over_its_range) {
  // From 80 to 98 proof solids between 0.60 and 0.70 mL/g hide 0.4 proof at one volume between.
  for (const double proof : {80.0, 85.0, 90.0, 95.0, 98.0}) {
    EXPECT_GT(hidden(proof, 0.60), 0.4) << proof;
    EXPECT_LT(hidden(proof, 0.70), 0.4) << proof;
  }
}

// The figures pasted in obscuration_rule.hpp.
TEST(Cfr27Obscuration, the_headers_table_is_what_the_physics_gives) {
  struct Pasted {
    double proof, middle, least, most;
  };
  // clang-format off
  constexpr Pasted pasted[] = {{ 60, 0.65, 0.52, 0.69}, { 80, 0.48, 0.38, 0.51},
                               {100, 0.38, 0.29, 0.40}, {120, 0.32, 0.24, 0.34}};
  // clang-format on
  for (const Pasted& row : pasted) {
    EXPECT_NEAR(hidden(row.proof, 0.62), row.middle, 0.00501) << row.proof;
    EXPECT_NEAR(hidden(row.proof, 0.70), row.least, 0.00501) << row.proof;
    EXPECT_NEAR(hidden(row.proof, 0.60), row.most, 0.00501) << row.proof;
  }
}

}  // namespace
}  // namespace lynearm::spirit
