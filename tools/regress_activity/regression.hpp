// The regression of the activity model: measured sets of ethanol and water, how much each is
// trusted, the fit, and how far each set lies from it.
//
// Model: NRTL (vapour/activity.hpp) through boiling points and vapours, both weighted by how
// far their set lies from the others; the azeotrope at one atmosphere as one more measurement.
// Leaves out errors in x and P, and that y and T of one row are bound by Gibbs and Duhem.
#pragma once

#include <iosfwd>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "numeric/least_squares.hpp"
#include "vapour/activity.hpp"

namespace lynearm::regression {

/// One measured equilibrium; mole fractions of ethanol.
struct Row {
  std::string set;
  double pressure_kPa, temperature_K, liquid, vapour;
};

/// The rows of tests/published/data/vle_ethanol_water.csv: lines that begin with # and the head
/// are passed over. throws InputError at a malformed line.
[[nodiscard]] std::vector<Row> read_rows(std::istream& file);

/// A set that is fitted, and how much it is trusted.
struct MeasuredSet {
  const char* name;
  /// Sets of one group were measured near one pressure and can be held against each other.
  int group;
  /// Standard deviations of a row: how far the set lies from the others of its group
  /// (mutual_scatter()), which tests/published/activity_regression_test.cpp finds again. Not
  /// its own smoothness: a smooth set can be off as a whole, and weighed by it would alone
  /// decide what all differ in, the dilute end, where pot stills work.
  double temperature_K, vapour;
};
[[nodiscard]] std::span<const MeasuredSet> sets();

/// The azeotrope at 101.325 kPa that the fit is held to: Evans 1916 has x 0.8946 and 78.17 °C,
/// Perry 0.8943 and 78.15 °C, Kamihama 2012 (interpolated) 0.895 and 78.11 °C. The standard
/// deviations are about a third and a half of what the fit may differ.
struct AzeotropeTarget {
  double liquid = 0.8945, liquid_deviation = 0.001;
  double temperature_K = 351.30, temperature_deviation_K = 0.02;
};

enum class Alpha { fixed, free };

struct Fit {
  vapour::NrtlParameters parameters;
  numeric::LeastSquares solution;  ///< a12, b12, a21, b21 and, when free, alpha
};

/// The parameters that follow all sets but `left_out`.
///
/// left_out   name of a set, or empty; InputError when it is neither
/// throws     NotConverged
[[nodiscard]] Fit fit(std::span<const Row> rows, std::string_view left_out = {},
                      Alpha alpha = Alpha::fixed);

/// Differences of one kind over the rows of a set.
struct Differences {
  int count = 0;
  double mean = 0.0, mean_absolute = 0.0, rms = 0.0;
  double worst = 0.0, worst_at = 0.0;  ///< the largest, with its sign, and its liquid
};
struct Misfit {
  Differences temperature_K, vapour;
};

/// The model less the rows of a set.
[[nodiscard]] Misfit misfit(std::span<const Row> rows, std::string_view set,
                            const vapour::NrtlParameters& parameters);

/// What the rows of a set differ from the other sets of its group, interpolated at their
/// liquids: the scatter that published sets show among themselves.
///
/// Sets do not share compositions or exact pressures. So each row is first taken as its
/// deviation from a ruler, the model with some parameters; the deviations of the other set are
/// interpolated straight between its rows, nothing beyond its ends. The ruler cancels but for
/// the bend of its error between two neighbouring rows.
[[nodiscard]] Misfit mutual_scatter(std::span<const Row> rows, std::string_view set,
                                    const vapour::NrtlParameters& ruler = vapour::house_nrtl);

}  // namespace lynearm::regression
