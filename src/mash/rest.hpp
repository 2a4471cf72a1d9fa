// The rest: temperature, starch, dextrin and fermentable sugar over time, and what the enzymes
// that are left can still do in the fermenter.
//
// Temperature falls by Newton's law; the chemistry is enzymes.hpp, linear in what is split, so
// each step of an L-stable implicit method (Alexander's third-order SDIRK) is a few divisions;
// the enzymes' own loss is integrated along the known temperature.
// Amounts are shares of all starch, counted as starch. Leaves out mashes stirred so little that
// they differ from place to place, and added enzymes.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "mash/bill.hpp"
#include "mash/cooling.hpp"
#include "mash/enzymes.hpp"
#include "units/quantity.hpp"

namespace lynearm::mash {

/// Starch of one line of the bill.
struct StarchSource {
  std::size_t line = 0;  ///< in the bill
  units::Mass starch;
  units::Share opened;                      ///< gelatinised before the rest: cooked or flaked
  units::Temperature middle;                ///< of gelatinisation; not used when all is opened
  std::optional<units::Temperature> onset;  ///< raw grain only: see reached()
};

/// What the enzymes meet.
struct RestMash {
  std::vector<StarchSource> sources;
  double enzymes = 0.0;  ///< activity over that of the reference all-malt mash
};

/// The bill as the rest sees it.
///
/// mash       all that is in the vessel, for the dilution of the enzymes
/// cooked     share of the cooked grain's starch that was opened (Cooked::opened)
/// throws     as extract_potential()
[[nodiscard]] RestMash rest_mash(const Bill& bill, units::Mass mash,
                                 units::Share cooked = units::Share::percent(100.0));

struct RestSteps {
  units::Temperature start;
  units::Duration time;
  units::HeatCapacity body;  ///< of mash and vessel
  Cooling cooling;           ///< no loss at all is allowed: an even temperature
  units::Duration spacing = units::Duration::minutes(1.0);  ///< of the points kept
};

/// A moment of the rest; shares of all starch, except the enzymes.
struct RestPoint {
  units::Duration at;
  units::Temperature temperature;
  units::Share starch;  ///< not yet split, swollen or not
  units::Share dextrin;
  units::Share fermentable;  ///< glucose, maltose and maltotriose, counted as starch
  units::Share alpha_left;   ///< of what was doughed in
  units::Share beta_left;
};

struct Rested {
  std::vector<RestPoint> course;  ///< from the start to the end
  units::Share converted;         ///< of the starch, split at all
  units::Share fermentable;       ///< of the starch, fermentable when the rest ends
  units::Share glucose, maltose, maltotriose;  ///< its parts
  units::Share dextrin;                        ///< of the starch
  std::vector<units::Share> raw;               ///< of each source, not converted
  units::Share alpha_left, beta_left;
  double enzymes = 0.0;     ///< as given
  bool no_enzymes = false;  ///< nothing converts, however long it stands
  units::Temperature end;
};

/// throws     InputError when the start is outside 20 to 80 °C ("mash.rest_temperature"), the
///            time outside 0 to 24 h ("mash.rest_time") or there is no starch ("bill")
/// accuracy   integration: worst 2.3e-6 of the starch against numeric::integrate at 1e-9, over
/// 20
///            mashes (tests/mash/rest_test.cpp). Model: our calibration, not published; it
///            meets the textbook consensus from memory (65 °C, 60 min: 0.78 to 0.82; 72 °C 15
///            to 25 points under 63 °C)
[[nodiscard]] Rested rest(const RestMash& mash, const RestSteps& steps,
                          const EnzymeConstants& constants = {});

/// Extract in solution after the rest: all but the starch that stayed raw.
[[nodiscard]] units::Mass extract_made(const Bill& bill, const RestMash& mash,
                                       const Rested& rested);

/// The enzymes' further work in an unboiled wort.
struct AfterWork {
  units::Duration active = units::Duration::hours(40.0);  ///< until the pH falls below 4.5
  /// Loss of dextrin at the full activity of the reference mash, 1/h. Our estimate, so that an
  /// all-malt rest at 65 °C ends at 86 % of the extract (from memory: 86 to 88 %).
  double dextrin_loss_per_h = 0.06;
  bool boiled = false;  ///< a boil or a mash-out ends all enzymes
};

/// Share of the extract in solution that ferments in the end: what ferments without a mash,
/// what the rest made, and what the remaining alpha-amylase (and limit dextrinase, taken to
/// survive with it) makes of the dextrin. Sugars of the bill count with their own share.
///
/// throws     as extract_potential(); InputError ("ferment.enzymes_active") below 0 or above
/// 200 h
[[nodiscard]] units::Share limit_attenuation(const Bill& bill, const RestMash& mash,
                                             const Rested& rested, const AfterWork& work = {});

}  // namespace lynearm::mash
