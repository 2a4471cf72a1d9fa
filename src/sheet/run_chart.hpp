// What the pictures of a plan, of a record and of one run have in common: quantities as figures
// of an axis, in the unit that the maker's system has for it, and the lines of a run over what
// has come.
#pragma once

#include <string>
#include <vector>

#include "sheet/chart.hpp"
#include "still/cuts.hpp"
#include "units/print.hpp"
#include "units/quantity.hpp"

namespace lynearm::sheet {

/// As an axis in temperature_unit, volume_unit, strength_unit (batch_words.hpp) has it.
[[nodiscard]] double figure_of(units::Temperature t, units::System system);
[[nodiscard]] double figure_of(units::Volume volume, units::System system);
[[nodiscard]] double figure_of(units::VolumeStrength strength, units::System system);

/// "Temperature", at least five degrees Celsius of it, so that a held ferment is no mountain.
/// all        what is drawn; may be empty
[[nodiscard]] Axis temperature_axis(units::System system, const std::vector<double>& all = {});

/// Strength at the spout and temperatures, over what has come.
/// told       behind the name of each line: ", planned"
/// pot        whether its line is drawn too
[[nodiscard]] Chart run_chart(const std::vector<still::Point>& points, units::System system,
                              const std::string& told = {}, bool pot = true);

/// A cut by its name, shaded; nothing where nothing comes of it.
void add_cut(Chart& chart, const still::Fraction& cut, const std::string& name,
             units::System system);
/// Two flags, of what spout and head show where the hearts begin and end.
void add_hearts_borders(Chart& chart, const still::Fraction& hearts, units::System system);

}  // namespace lynearm::sheet
