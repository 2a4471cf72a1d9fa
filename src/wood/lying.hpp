// Spirit on all the wood that lies in its vessel, with what it took before, drawn from and
// topped up meanwhile: its extract, as a share of what a new charred 200 L cask gives in eight
// years.
//
// Model: each wood gives as it would alone (extraction.hpp), and what they give adds. Drawing
// leaves the extract as it is: wood falls dry with the spirit, so a litre meets as much of it.
// Pouring spirit in thins it, and beyond what was filled each litre meets less wood. Leaves out
// what evaporates: the wood's law is held to casks that shrank as they gave.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "wood/extraction.hpp"

namespace lynearm::wood {

/// Extract by all of `woods` after `time`; as extract() of each, added.
[[nodiscard]] units::Share extract(std::span<const Wood> woods, units::Duration time,
                                   const Rest& rest = {});

class Lying {
 public:
  /// filled     above zero, at 20 °C
  /// woods      surface to a litre of `filled`; one or more
  /// carried    extract that it had when it was laid here: of other wood, or of its parts
  /// throws     InputError outside these, or as extract()
  Lying(units::Volume filled, std::vector<Wood> woods, const Rest& rest,
        units::Share carried = {});

  /// Taken out, samples too. What happens is told in order; `at` is since it was filled.
  void draw(units::Duration at, units::Volume drawn);
  /// Other spirit poured to it.
  ///
  /// there      what it is poured to, above zero
  /// strength   of the whole, then; 20 to 80 %vol
  /// its        extract of what is poured
  void pour(units::Duration at, units::Volume there, units::Volume poured,
            units::VolumeStrength strength, units::Share its);

  /// Extract at a time; with what it carried. Before the filling: what it carried.
  [[nodiscard]] units::Share extract(units::Duration at) const;
  /// When it comes to `target` and, by what is known, stays there; nothing when the wood is
  /// spent before, or within 100 years. Inverse of extract() to 1e-9.
  [[nodiscard]] std::optional<units::Duration> reaches(units::Share target) const;

 private:
  // From one drawing or pouring to the next.
  struct Stretch {
    units::Duration from;
    units::Share start;
    units::Volume booked;  // filled, less what was drawn, with what was poured
    Rest rest;
  };
  [[nodiscard]] units::Share within(const Stretch& stretch, units::Duration at) const;
  [[nodiscard]] units::Duration in_order(units::Duration at) const;

  units::Volume filled_;
  std::vector<Wood> woods_;
  std::vector<Stretch> stretches_;
};

}  // namespace lynearm::wood
