// Yeasts by the use they are sold for, not by brand: how warm they like it, how much alcohol
// they bear, how much of a wort's sugar they reach. General figures; a packet's own leaflet
// comes first.
#pragma once

#include <string_view>
#include <vector>

#include "base/figure.hpp"
#include "units/quantity.hpp"

namespace lynearm::ferment {

using base::Figure;

struct Yeast {
  std::string_view id;
  std::string_view name;
  Figure<units::Temperature> coolest;       ///< below it sluggish
  Figure<units::Temperature> warmest;       ///< above it stressed, with more fusels and esters
  Figure<units::VolumeStrength> tolerance;  ///< fermentation ends about here
  Figure<units::Share> reach;    ///< share of a grain wort's fermentable sugar it takes
  std::string_view attenuation;  ///< what it leaves
};

/// The table of data/yeasts.toml, the usual yeast first.
[[nodiscard]] const std::vector<Yeast>& yeasts();

/// The yeast of an id. Throws InputError ("yeast") that lists the ids when there is none.
[[nodiscard]] const Yeast& yeast(std::string_view id);

/// The name of what was told to be pitched: of an id of the table its name, else what was told.
[[nodiscard]] std::string_view yeast_name(std::string_view told);

}  // namespace lynearm::ferment
