// The mash bill: what it can yield, whether its enzymes suffice, what must be cooked first.
//
// Extract potential is dry mass times fine-grind extract times what the household grind gets of
// it. Enzyme power is the mass-weighted degrees Lintner over everything that brings starch. The
// borders between "converts" and "does not" are common practice, not physics; the course over
// time is in rest.hpp. Leaves out added enzymes.
#pragma once

#include <string>
#include <vector>

#include "mash/ingredient.hpp"
#include "units/quantity.hpp"

namespace lynearm::mash {

/// When a line of the bill comes in.
enum class Role {
  cooked,    ///< boiled before the malts; its enzymes are lost
  dough_in,  ///< stirred in dry at dough-in
  as_sugar,  ///< dissolved beside the mash
};

struct GristLine {
  Ingredient ingredient;
  units::Mass mass;
  Role role = Role::dough_in;
};

using Bill = std::vector<GristLine>;

/// What one line brings.
struct LinePotential {
  units::Mass dry;        ///< dry matter
  units::Mass moisture;   ///< water in it
  units::Mass extract;    ///< when everything converts
  units::Mass starch;     ///< the part of `extract` that is starch
  units::Mass insoluble;  ///< dry matter that never dissolves
  units::Share of_mass;
  units::Share of_extract;
};

/// What the whole bill brings.
struct Potential {
  std::vector<LinePotential> lines;  ///< in the order of the bill
  units::Mass mass, dry, moisture, extract, starch, insoluble;
  units::Mass grain;         ///< mass of the lines that are grain or malt, as is
  units::Mass least, most;   ///< extract at the ends of the extract ranges
  units::Share fermentable;  ///< of the extract, from the table's figures
};

/// bill       each mass above zero, at least one line
/// throws     InputError ("bill[2].mass") and, for grain given as sugar or sugar given as
///            grain, InputError ("bill[2].role")
[[nodiscard]] Potential extract_potential(const Bill& bill);

/// Enzyme power against need, over all lines that bring starch or malt.
struct EnzymePower {
  units::DiastaticPower has;      ///< mass-weighted; cooked malt counts as none
  units::DiastaticPower need;     ///< below this it does not convert by itself
  units::DiastaticPower comfort;  ///< from this on it converts with room to spare
};

/// Common practice, no source: at least 35 to 40 °Lintner to convert, 60 to 70 for comfort.
inline constexpr units::DiastaticPower needed_power = units::DiastaticPower::lintner(35.0);
inline constexpr units::DiastaticPower comfortable_power = units::DiastaticPower::lintner(60.0);

[[nodiscard]] EnzymePower enzyme_power(const Bill& bill);

/// Mass of `malt` to add at dough-in so that the bill reaches `wanted`; zero when it does
/// already. throws InputError ("malt") when the malt itself is not stronger than `wanted`.
[[nodiscard]] units::Mass malt_to_reach(const Bill& bill, const Ingredient& malt,
                                        units::DiastaticPower wanted);

/// What a bill wants before it converts well.
enum class Want {
  enzymes,        ///< no enzyme at all: a malt at dough-in
  more_enzymes,   ///< too few for the starch
  cooking,        ///< a raw grain gelatinises above the rest
  warmer_rest,    ///< a grain gelatinises only in part at the rest
  uncooked_malt,  ///< malt that is cooked loses its enzymes
};

enum class Converts { yes, weakly, no };

struct Finding {
  Want want = Want::enzymes;
  Converts so = Converts::no;  ///< how far this alone lets the bill convert
  std::string ingredient;      ///< id of the line it is about; empty for the whole bill
  std::string sentence;        ///< for people
};

struct Verdict {
  Converts converts = Converts::yes;  ///< the worst of the findings
  std::vector<Finding> findings;      ///< empty when all is well
};

/// Can the bill convert at this rest? A bill of sugars alone needs no mash and converts.
///
/// rest       40 to 80 °C
/// throws     as extract_potential(), and InputError ("mash.rest_temperature")
[[nodiscard]] Verdict verdict(const Bill& bill, units::Temperature rest);

}  // namespace lynearm::mash
