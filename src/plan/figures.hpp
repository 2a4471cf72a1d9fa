// The principal figures of a plan, by name, and their 80 % bands from an ensemble.
#pragma once

#include <cstdint>
#include <functional>
#include <string_view>
#include <vector>

#include "numeric/ensemble.hpp"
#include "plan/plan.hpp"

namespace lynearm::plan {

/// One of the figures a maker asks for first.
struct Figure {
  std::string_view key;  ///< stable, unit in the name: "hearts_volume_L_20C"
  std::string_view stage;
  std::string_view name;  ///< for people
  std::string_view unit;
  int decimals = 1;
  double (*of)(const Plan& plan);
  bool (*applies)(const Plan& plan) = nullptr;  ///< nullptr: to every plan
};

/// All of them, in the order of the stages.
[[nodiscard]] const std::vector<Figure>& figures();

/// Those that a plan has: one without a cook has no landing temperature.
[[nodiscard]] std::vector<const Figure*> figures_of(const Plan& plan);

/// A figure with its band.
struct Banded {
  const Figure* figure = nullptr;
  double planned = 0.0;  ///< with every constant at its median
  numeric::Band band;
};

struct Bands {
  std::vector<Banded> figures;
  int members = 0;  ///< that gave a plan
  int failed = 0;   ///< that could not be carried through
};

/// The bands of a plan from an ensemble of `members`, each with its constants drawn from (seed,
/// member). The result is the same for any executor.
///
/// members    1 to 100,000
/// executor   the caller's; see numeric::one_after_another()
/// throws     InputError for the members; when over a tenth of them fail, the first member's
///            error
[[nodiscard]] Bands bands(const Recipe& recipe, const Kit& kit, const Plan& plan, int members,
                          std::uint64_t seed, const numeric::Executor& executor);

}  // namespace lynearm::plan
