// What the house asks about what it was told: entries the fold could make nothing of, and
// amounts that cannot be. More cannot come out of a step than went into it: an amount that says
// so is kept and counts as told, and is asked about at its entry.
//
// By the account's own errors (pure_volume.hpp, the glass of the kit), at more of them: what is
// merely read badly is never asked. Leaves out losses of alcohol: where less came out than went
// in, the account says what is unaccounted for.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <vector>

#include "journal/glass.hpp"
#include "journal/state.hpp"

namespace lynearm::journal {

/// The glass of a batch; of what belongs to none, that of the house.
using GlassOf = std::function<Glass(const std::optional<Id>& batch)>;
/// By batch; under no id of what belongs to none. Without those of which nothing is asked.
using Questions = std::map<std::optional<Id>, std::vector<Puzzle>>;

/// How far above the mark that it was filled to a jar's gauged volume may lie, as a share: a
/// jar is filled to a shoulder and measured in a cylinder. Common practice, no source.
inline constexpr double over_the_mark = 0.10;
/// How far below it: a jar that airs for a day loses little, and what was spilt is told. As far
/// may a lot be below what was poured into it. Our choice.
inline constexpr double under_the_mark = 0.25;
/// How far below a later jar's strength that of a jar may lie, which is rinsings in a cold
/// condenser, or a fire that went out. Our choice.
inline constexpr units::VolumeStrength rinsed = units::VolumeStrength::percent(25.0);
/// Warmer than this no yeast of the trade lives on. Common practice, no source.
inline constexpr units::Temperature yeast_dies = units::Temperature::celsius(45.0);
/// A wash as strong as 18 %vol freezes above this. From memory, of ethanol in water.
inline constexpr units::Temperature wash_freezes = units::Temperature::celsius(-9.0);
/// Two strengths of one spirit nearer than this are alike, on any glass. Our choice.
inline constexpr units::VolumeStrength alike_strength = units::VolumeStrength::percent(0.5);
/// What wood may hide of a strength that was read on an alcoholmeter and is true on the bottle,
/// where nobody told the residue: 5 g/L. From memory, the upper end for small new casks.
inline constexpr units::VolumeStrength hidden_by_wood = units::VolumeStrength::percent(1.0);

/// The fold's puzzles and the amounts that cannot be, the former first: a wort or wash so hot
/// that its yeast dies; racked more than was pitched; more wash, or more alcohol, charged than
/// there was; a charge of less volume than went into it; more volume or alcohol out of a still
/// than went in, or in its jars than came over, or left in the pot than was charged; a jar
/// beyond its mark or far below it, or far weaker than a later one; a run begun before the one
/// before had ended, or before the pot could be charged, one read after its end, one that ended
/// long after all else of it, and spirit that came over sooner than the heat told can drive it;
/// a mash of two days, a wash racked or in the still before it was pitched, a gravity below the
/// pitch's that was read before it, one above the pitch's, and one that rises again; what is
/// told of a run before its heat, or of a lot before it was made, and a cut for one before its
/// jars were filled; where several entries speak against one, that one. A lot
/// poured together, gauged anew, off the wood or in bottles that holds more alcohol than
/// before; one that is not what its parts and its water make; bottles far off the strength of
/// their lot.
///
/// What a maker upheld is not asked again, in the same words and figures about as great.
///
/// A wash of which the last gravity is old may have fermented on, to the end of its extract. An
/// entry that the fold asks about is not asked about twice, nor is an entry for two reasons.
/// Each is asked in the batch whose entry it names. What was upheld bounds what follows it: of
/// sums (jars, worts, charges) the rest is asked about by itself.
/// Lots and runs are sought by name and time; for lots made of lots, through all of them.
[[nodiscard]] Questions questions(const HouseState& house, const GlassOf& glass_of);
/// Those of one batch, or of what belongs to none.
[[nodiscard]] std::vector<Puzzle> questions(const HouseState& house,
                                            const std::optional<Id>& batch,
                                            const Glass& glass = {});

/// Whether that was upheld: of that entry, in the same words, with figures about as great
/// (says_the_same.hpp).
[[nodiscard]] bool is_upheld(const std::vector<UpheldState>& upheld, const Puzzle& asked);

/// Whether a volume is above another by more than any honest reading of both, each at a mark.
[[nodiscard]] bool cannot_be(units::Volume out, units::Volume in);

/// Puts to what is asked of a batch what others ask of it (by the kit, say): of entries not
/// asked about already, and what was not upheld.
void ask_besides(std::vector<Puzzle>& asked, const std::vector<Puzzle>& more,
                 const BatchState& batch);

}  // namespace lynearm::journal
