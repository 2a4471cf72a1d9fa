// How fast starch swells, enzymes split it and heat kills them: the rates behind rest.hpp.
//
// The structure is that of Brandam et al. 2003 (Biochem. Eng. J. 13:43): solid starch swells,
// alpha- and beta-amylase split it to glucose, maltose, maltotriose and dextrin, then slowly
// the dextrin. Its constants, as recalled, split all dextrin within ten minutes, which no mash
// does: units or activities are off by about a hundred. The constants here are OUR CALIBRATION
// of that structure, for a barley malt mash at 3 L/kg, 50 to 72 °C and pH 5.4 to 5.6. Leaves
// out pH, thickness and calcium. Rates are a kernel: doubles named by their unit.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::mash {

/// Rate constants at full activity. Units per kg mash and per U as in the paper.
struct EnzymeConstants {
  double alpha_U_per_kg = 6e4;  ///< all-malt mash of reference_lintner at 3 L/kg
  double beta_U_per_kg = 2.4e5;
  // Gelatinised starch, kg/(U s). A hundred-thousandth of the recalled figures: still over
  // within seconds, so only their ratios matter.
  double glucose_fast = 2.3e-7;
  double maltose_alpha_fast = 3.89e-6;
  double maltose_beta_fast = 1.37e-6;
  double maltotriose_fast = 1.17e-6;
  double dextrin_fast = 3.17e-6;
  // Dextrin, kg/(U s). A hundredth of the recalled figures.
  double glucose_slow = 2.9e-10;
  double maltose_alpha_slow = 1.2e-9;
  double maltose_beta_slow = 8.4e-10;
  double maltotriose_slow = 1.5e-10;
};

/// The malt the calibration stands for: 75 °Lintner, a quarter of the mash by mass (our
/// estimate of the malts the model was made with).
inline constexpr double reference_lintner = 75.0;
inline constexpr double reference_grain_share = 0.25;

/// Middle of gelatinisation of the barley malt the swelling rate was measured on.
inline constexpr double barley_middle_C = 62.0;

/// Swelling of solid starch, 1/s.
///
/// t_C        0 to 100 °C
/// middle_C   middle of the grain's gelatinisation; moves the whole curve from barley's
/// source     Brandam et al. 2003, recalled: two Arrhenius lines that part at 60 °C, where the
///            rate doubles
[[nodiscard]] double swelling_per_s(double t_C, double middle_C);

/// What part of raw (unmalted) starch water can reach, 0 five kelvins below `onset_C` to 1 at
/// it: our estimate, so that raw maize stays raw at a rest.
[[nodiscard]] double reached(double t_C, double onset_C);

/// Activity at a temperature over that at the best temperature, 0 to 1.
///
/// t_C        any. Alpha: 45 to 74 °C from the paper's polynomial as tabulated by a reader, no
///            activity above 74 °C (a limit of the model: malt alpha-amylase still thins a mash
///            at 75 °C); below 45 °C a line to none at 35 °C (ours)
[[nodiscard]] double alpha_activity(double t_C);
/// Beta: none above 69.75 °C, no activity below 9 °C.
[[nodiscard]] double beta_activity(double t_C);

/// Loss of alpha-amylase, 1/s: half in 72 min at 65 °C, in 14 min at 72 °C.
[[nodiscard]] double alpha_loss_per_s(double t_C);
/// Loss of beta-amylase, 1/s: half in 38 min at 60 °C, in 4.2 min at 65 °C.
[[nodiscard]] double beta_loss_per_s(double t_C);

}  // namespace lynearm::mash
