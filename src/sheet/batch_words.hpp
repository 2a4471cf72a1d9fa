// Quantities as the cells of a batch sheet: figure and unit apart, in the maker's system, with
// spaces that do not break. Where both systems are asked for, the second stands small below.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "plan/figures.hpp"
#include "plan/plan.hpp"
#include "sheet/batch_cautions.hpp"
#include "sheet/page.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {

/// What a batch sheet is made from.
struct Batch {
  const plan::Recipe& recipe;
  const plan::Kit& kit;
  const plan::Plan& plan;
  const plan::Bands* bands = nullptr;
  units::System system = units::System::metric;
};

/// The text with its spaces made unbreakable, save before a bracket, and with true minus signs.
[[nodiscard]] std::string tight(std::string_view text);

/// In one system or both, for a cell: "26.7 L", "26.7 L (7.05 gal)".
template <class Q>
[[nodiscard]] std::string cell(Q quantity, units::System system,
                               std::optional<int> decimals = std::nullopt) {
  return tight(units::print(quantity, system, decimals));
}
[[nodiscard]] std::string cell(units::VolumeStrength strength, units::System system,
                               int decimals = 1);
[[nodiscard]] std::string cell(units::Duration duration, units::System system);
/// In the unit that suits `largest`: for a column that must not change its unit on the way
/// down. Litres or quarts from one of them on, else millilitres or fluid ounces.
[[nodiscard]] std::string in_one_unit(units::Volume volume, units::Volume largest,
                                      units::System system);
[[nodiscard]] inline std::string in_the_glass(units::Volume volume, units::System system) {
  return in_one_unit(volume, volume, system);
}
/// "0:41", "2:28", hours and minutes: short enough for a column.
[[nodiscard]] std::string hours_and_minutes(units::Duration duration);
/// A cell without a figure that is not there to be written into.
inline constexpr std::string_view no_figure = "\u00a0";
/// Kilograms, litres: the unit of a system on its own, for a head above a blank.
[[nodiscard]] std::string glass_unit(units::System system);
[[nodiscard]] std::string volume_unit(units::System system);
[[nodiscard]] std::string strength_unit(units::System system);
[[nodiscard]] std::string temperature_unit(units::System system);

/// The figure of a printed quantity and its unit: "26.7", "L".
struct FigureAndUnit {
  std::string figure;
  std::string unit;
};
[[nodiscard]] FigureAndUnit apart(std::string_view printed);

/// A planned row from printed texts; `us` is empty unless both systems are asked for.
[[nodiscard]] PlannedRow row_of(std::string name, const std::string& printed,
                                const std::string& us, std::string note, bool measured);

/// A planned figure with a blank beside it.
template <class Q>
[[nodiscard]] PlannedRow row(const Batch& batch, std::string name, Q quantity,
                             std::string note = {}, std::optional<int> decimals = std::nullopt,
                             bool measured = true) {
  const bool both = batch.system == units::System::both;
  return row_of(std::move(name),
                units::print(quantity, both ? units::System::metric : batch.system, decimals),
                both ? units::print(quantity, units::System::us, decimals) : std::string{},
                std::move(note), measured);
}
[[nodiscard]] PlannedRow row(const Batch& batch, std::string name,
                             units::VolumeStrength strength, std::string note = {},
                             int decimals = 1, bool measured = true);
[[nodiscard]] PlannedRow row(const Batch& batch, std::string name, units::Duration duration,
                             std::string note = {}, bool measured = true);
/// A planned figure that nobody measures.
template <class Q>
[[nodiscard]] PlannedRow fixed_row(const Batch& batch, std::string name, Q quantity,
                                   std::string note = {}) {
  PlannedRow made = row(batch, std::move(name), quantity, std::move(note));
  made.measured = false;
  return made;
}

/// A figure of plan/figures.hpp in the maker's system, with its unit.
[[nodiscard]] std::string principal(const plan::Figure& figure, double value,
                                    units::System system);
/// The value of that figure as it is read off the paper, in the first of the maker's units.
[[nodiscard]] double principal_as_printed(const plan::Figure& figure, double value,
                                          units::System system);
/// A value as it is read off the paper. What parts two printed figures is reckoned of these, or
/// the column would not add up: 52.0 less 50.4 is 1.6, whatever the digits behind.
[[nodiscard]] double as_printed(double value, int decimals);
/// What parts two figures, with its sign: "+1.6", "−1.6"; "0.0" for none.
[[nodiscard]] std::string less_or_more(double by, int decimals);
/// The two ends of its band, the unit left out.
[[nodiscard]] std::string principal_band(const plan::Figure& figure, const numeric::Band& band,
                                         units::System system);

[[nodiscard]] Html framed(const Caution& caution);

/// "1 run", "4 runs".
[[nodiscard]] std::string count_of(int count, std::string_view one, std::string_view many);

}  // namespace lynearm::sheet
