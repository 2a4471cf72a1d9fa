// A unit stated once for many figures: in the head of a column or the key of an entry.
//
// One rule. A figure has a name (temperature); under that name alone each entry states its unit
// ("27.5 C"). Where the name goes on with an underscore and a unit (temperature_C), the entries
// are bare numbers in it. Of a unit's spelling "/" is written "_per_" and a space "_". Upper
// and lower case are one.
#pragma once

#include <optional>
#include <string_view>

#include "units/kind.hpp"
#include "units/parse.hpp"

namespace lynearm::units {

/// Whether two words are the same but for upper and lower case (of ASCII).
[[nodiscard]] bool same_word(std::string_view a, std::string_view b);

/// The unit of "power_W" behind the name "power"; empty for the name alone; nothing for any
/// other head, "power_" among them.
[[nodiscard]] std::optional<std::string_view> unit_behind(std::string_view name,
                                                          std::string_view head);

/// The unit of a kind that is written so in a name: "C", "L_per_min", "fl_oz"; nullptr for
/// none.
[[nodiscard]] const Unit* unit_in_name(std::string_view word, const Kind& kind);

/// The base value of a number that is in `unit` without saying so: "62.4", spaces around it
/// free. A comma, a unit, not-a-number and what no double holds (in the unit or the base) are
/// refused, with the reason.
///
/// stated_by  what states the unit, for the refusal: "head" (of a column), "name"
[[nodiscard]] Parsed<double> bare_number(std::string_view text, const Unit& unit = {},
                                         std::string_view stated_by = "head");
/// The same of a figure that is a number already.
[[nodiscard]] Parsed<double> bare_number(double figure, const Unit& unit = {},
                                         std::string_view stated_by = "head");

}  // namespace lynearm::units
