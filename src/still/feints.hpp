// Feints over generations: the same low wines batch after batch, each charge taking in the
// feints of the run before. What neither leaves with the hearts nor stays in the pot comes
// round again, so volume and oils grow towards a steady state, or a boiler too small. When
// water and alcohol have settled each congener is a linear recycle with its closed form,
//     x_n = x_in + s x_(n-1)   ->   x_in / (1 - s),   s the share that comes back.
// To the litre of alcohol only those grow that come back in a greater share than alcohol does:
// what comes late. Higher alcohols leave with the hearts sooner than alcohol, and thin out.
// Leaves out what clings and escapes, what changes in standing feints, and batches' spread.
#pragma once

#include <optional>
#include <vector>

#include "still/congeners_of_run.hpp"
#include "still/cuts.hpp"
#include "still/run.hpp"

namespace lynearm::still {

/// A lot with its congeners.
struct Carried {
  spirit::Lot lot;
  CongenerAmounts congeners;

  friend Carried operator+(const Carried& a, const Carried& b);
  friend Carried operator*(const Carried& a, double share);
};

/// Oils of the trade, to a litre of pure alcohol; zero for nothing. Methanol is in neither.
struct Oils {
  units::MassConcentration higher;  ///< higher alcohols
  units::MassConcentration late;    ///< phenylethanol, furfural, acids, lactate
  [[nodiscard]] units::MassConcentration both() const { return higher + late; }
};
[[nodiscard]] Oils oils(const Carried& lot);

/// What is done again and again.
struct Recycling {
  Carried low_wines;     ///< fresh, into each charge
  Carried feints_first;  ///< from before, into the first charge; may be empty
  std::optional<units::VolumeStrength> charge_at_most;  ///< watered down to this if stronger
  units::Temperature charge_temperature = units::Temperature::celsius(20.0);
  RunSetting setting;
  Stop stop;
  Borders borders;         ///< the same for every run
  bool keep_heads = true;  ///< heads into the feints with the tails
  units::Share bled;       ///< of each run's feints, kept out of the next charge
};

/// One run of them. The parts of a charge sum to it, congener by congener.
struct Generation {
  int number = 1;
  Carried feints_in;  ///< what of the last feints came into this charge
  units::Mass water;  ///< added to the charge
  Carried charge;
  Carried foreshots, heads, hearts, tails, left;  ///< left: in pot, coil and parrot
  Carried feints;  ///< for the next charge, before any is bled off

  [[nodiscard]] units::Volume charge_volume() const { return spirit::volume(charge.lot); }
  [[nodiscard]] units::Volume feints_volume() const { return spirit::volume(feints.lot); }
};

inline constexpr int most_generations = 200;

/// Runs `count` generations.
///
/// count      1 to most_generations; else InputError("generations")
/// throws     InputError("feints.bled") outside 0 to 100 %; as distil(), cut() and
///            spirit::reduce() do, when a charge cannot be run or its borders are not reached
/// accuracy   each charge is the sum of its parts to 1e-12, for ethanol, water and each
///            congener (tests/still/feints_test.cpp)
[[nodiscard]] std::vector<Generation> generations(const Recycling& recycling, int count,
                                                  const vapour::BoilingCurve& curve,
                                                  const vapour::CongenerCurve& volatility);

/// Where it leads.
struct Settling {
  bool steady = false;  ///< the feints' volume and alcohol and every congener stand still
  int generation = 0;  ///< the first that is within 1 % of the last one's; the last if unsteady
  Generation first, last;

  /// Oils to a litre of pure alcohol in the last hearts over those in the first: of higher
  /// alcohols and of what comes late, the one that has grown more.
  [[nodiscard]] double oils_multiple() const;
};

/// Runs until nothing changes by more than 1e-6 of itself from one generation to the next, or
/// until most_generations, or until a charge is over `greatest_charge`.
///
/// throws     as generations() does
/// accuracy   the steady congeners against x_in / (1 - s): 1e-5 of themselves
///            (tests/still/feints_test.cpp)
[[nodiscard]] Settling settle(const Recycling& recycling, const vapour::BoilingCurve& curve,
                              const vapour::CongenerCurve& volatility,
                              std::optional<units::Volume> greatest_charge = std::nullopt);

/// What the maker puts up with.
struct FeintsLimit {
  /// Oils in the hearts over those of the first generation, as Settling has it; above 1.
  double oils_multiple = 1.5;
  std::optional<units::Volume> greatest_charge;  ///< the boiler's fill limit
};

struct Bleeding {
  Settling unbled;
  std::optional<int> from;  ///< first generation past a limit when nothing is bled off
  bool oils = false;        ///< the limit that it passes: oils
  bool volume = false;      ///< or the charge's volume
  units::Share share;       ///< of each run's feints to bleed off so that neither is passed
  Settling bled;            ///< with that share
};

/// When to bleed feints off, and how much of them.
///
/// recycling  its own `bled` is not looked at
/// limit      oils_multiple above 1, else InputError("feints.oils_multiple")
/// throws     InputError("feints.greatest_charge") when the first charge, watered, is over it;
///            as generations() does
/// returns    the least share, to 1e-4 on the high side, that keeps the steady state within
///            both limits; zero when nothing has to be bled off, one when even all does not
[[nodiscard]] Bleeding when_to_bleed(const Recycling& recycling, const FeintsLimit& limit,
                                     const vapour::BoilingCurve& curve,
                                     const vapour::CongenerCurve& volatility);

/// All that is told of a recycle.
struct ToldFeints {
  Recycling recycling;
  FeintsLimit limit;
  std::vector<Generation> generations;  ///< with the recycling's own `bled`
  Bleeding bleeding;
};

/// Both of the above. Throws as generations() and when_to_bleed() do.
[[nodiscard]] ToldFeints tell_feints(const Recycling& recycling, int count,
                                     const FeintsLimit& limit,
                                     const vapour::BoilingCurve& curve,
                                     const vapour::CongenerCurve& volatility);

}  // namespace lynearm::still
