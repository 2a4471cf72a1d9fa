// Draining and sparging: what runs off, what each sparge still brings, what the grain keeps.
//
// A mass balance: the liquor is one mixture, the solids keep a fixed mass of water (from the
// moisture of the wet grain), each sparge mixes with what they hold and runs off again.
// Extract in equals extract out plus extract kept, to rounding; water likewise. Leaves out
// channels in the bed and extract that dissolves only during the sparge.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "mash/bill.hpp"
#include "units/quantity.hpp"
#include "wort/gravity.hpp"

namespace lynearm::mash {

/// How the grain lets go. Defaults: common practice, no source.
struct Draining {
  /// Water in the wet grain at each run-off. For a bag wrung out before every sparge give 70 to
  /// 73 %: with so little held back, a third sparge brings hardly anything.
  units::Share drained_moisture = units::Share::percent(80.0);
  /// Water in the wet grain after a last squeeze; absent when it is not squeezed.
  std::optional<units::Share> squeezed_moisture;
  units::Share mixing = units::Share::percent(100.0);  ///< how well a sparge meets what is held
  units::Volume dead_volume;  ///< liquor under the screen, counted as water
};

/// Flaked, ground and huskless grain holds 10 to 30 % more (common practice, no source).
inline constexpr double clinging_factor = 1.2;

/// Water the drained solids keep.
///
/// wet_moisture  30 to 90 %, of the wet grain
/// raw_starch    starch that stayed solid; it clings like meal
/// throws        InputError ("drain.moisture")
[[nodiscard]] units::Mass held_water(const Bill& bill, units::Share wet_moisture,
                                     units::Mass raw_starch = {});

enum class RunOffKind { first_runnings, sparge, squeeze };

struct RunOff {
  RunOffKind kind = RunOffKind::first_runnings;
  wort::Wort wort;
  units::Volume volume;  ///< at 20 °C
  units::Share gained;   ///< its extract, of all extract in the mash
  units::Plato gravity;
  units::Volume spirit;  ///< pure alcohol it is worth, see spirit_worth()
};

struct Drained {
  std::vector<RunOff> run_offs;  ///< first runnings, each sparge, the squeeze
  wort::Wort collected;
  wort::Wort kept;          ///< by grain and dead volume
  units::Volume volume;     ///< of `collected`, at 20 °C
  units::Share efficiency;  ///< extract collected, of that in the mash
};

/// Pure alcohol, at 20 °C, an extract is worth in practice: 0.606 L from a kg of fermentable
/// extract. source: predicted spirit yield, 6.06 L/t a per cent, Bringhurst et al. 1996
/// (J. Inst. Brew. 102:433), from its abstract.
[[nodiscard]] units::Volume spirit_worth(units::Mass extract, units::Share fermentable);

/// liquor       all water in the mash (Contents::all_water) and the extract dissolved in it
/// raw_starch   starch that stayed solid
/// sparges      water of each sparge; see water() in heat.hpp for a volume
/// fermentable  of the extract, in the end: for RunOff::spirit
/// returns      run-offs of zero volume where the grain takes all there is
/// throws       InputError ("drain.moisture", "drain.mixing", "drain.squeezed_moisture",
///              "sparge.water"), and beyond 40 °P of a run-off
[[nodiscard]] Drained drain(const Bill& bill, const wort::Wort& liquor, units::Mass raw_starch,
                            std::span<const units::Mass> sparges, const Draining& draining,
                            units::Share fermentable);

/// A mash that goes to the fermenter undrained.
struct OnTheGrain {
  wort::Wort liquor;
  units::Mass solids;    ///< dry
  units::Volume volume;  ///< of both, at 20 °C
};

[[nodiscard]] OnTheGrain on_the_grain(const Bill& bill, const wort::Wort& liquor,
                                      units::Mass raw_starch);

/// How much of the grain drains slowly, by mass: over a third wants hulls, a beta-glucan rest
/// or patience (common practice, no source).
[[nodiscard]] units::Share slow_draining(const Bill& bill);

}  // namespace lynearm::mash
