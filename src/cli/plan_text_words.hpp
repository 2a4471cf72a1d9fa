// How the parts of a plan are set in columns of text: rows of figures with their bands. For the
// sources of plan_text only; paragraphs and grids are those of every page, page_text.hpp.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/look.hpp"
#include "cli/page_text.hpp"
#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "plan/figures.hpp"
#include "plan/plan.hpp"
#include "units/print.hpp"

namespace lynearm::cli::planned {

using cli::Column;
using cli::grid;
using cli::heading;
using cli::paragraph;
using cli::Side;

/// What a plan's text is made from.
struct Batch {
  const plan::Recipe& recipe;
  const plan::Kit& kit;
  const plan::Plan& plan;
  const plan::Bands* bands = nullptr;
  const Look& look;

  template <class Q>
  [[nodiscard]] std::string print(Q quantity,
                                  std::optional<int> decimals = std::nullopt) const {
    return units::print(quantity, look.units, decimals);
  }
  [[nodiscard]] std::string print(units::Duration duration) const {
    return units::print(duration);
  }
  [[nodiscard]] std::string print(units::VolumeStrength strength) const {
    return shown(strength, look.units);
  }
  [[nodiscard]] std::string print(const spirit::Lot& lot) const {
    return shown(lot, look.units);
  }
  /// Millilitres or fluid ounces, as a measuring glass shows.
  [[nodiscard]] std::string in_the_glass(units::Volume volume) const;
  /// Litres or gallons, whatever the size, for a column.
  [[nodiscard]] std::string in_the_jar(units::Volume volume) const;
  /// Grams or ounces, whatever the size.
  [[nodiscard]] std::string on_the_scale(units::Mass mass) const;
};

/// A name, its figure, what it lies between, and a word on it.
struct Line {
  std::string name;
  std::string figure;
  std::string band{};  ///< "(25.9 to 27.6)"
  std::string remark{};
};

/// A principal figure under a name of its own, with its band when there is one.
/// key        of plan::figures()
[[nodiscard]] Line principal(const Batch& batch, std::string_view key, std::string name,
                             std::string remark = "");
/// The band alone, with a space before it: " (25.9 to 27.6)"; empty when there is none.
[[nodiscard]] std::string band_of(const Batch& batch, std::string_view key);

/// The lines in columns; decimal points under each other, long remarks wrapped.
[[nodiscard]] std::string lines(const std::vector<Line>& rows);

/// A caution as a plan states it.
[[nodiscard]] inline std::string caution_of(const sheet::Caution& caution, const Look& look) {
  return cli::caution_of(caution, "in this plan", look);
}

/// "1 run", "4 runs".
[[nodiscard]] std::string count_of(int count, std::string_view one, std::string_view many);

/// Whether a lot is more than a trace.
[[nodiscard]] bool something(const spirit::Lot& lot);

}  // namespace lynearm::cli::planned
