// The kinds of entries by name and version. A version is raised when a body gains or loses a
// member; the reader in wire/ then still takes the older ones.
#pragma once

#include <string_view>

#include "journal/body.hpp"

namespace lynearm::journal {

template <class B>
struct Kind;

#define LYNEARM_KIND(Type, word)                   \
  template <>                                      \
  struct Kind<Type> {                              \
    static constexpr std::string_view name = word; \
    static constexpr int version = 1;              \
  }

LYNEARM_KIND(BatchBegun, "batch begun");
LYNEARM_KIND(BatchPlanned, "batch planned");
LYNEARM_KIND(BatchClosed, "batch closed");
LYNEARM_KIND(KitStated, "kit stated");
LYNEARM_KIND(Note, "note");
LYNEARM_KIND(Struck, "struck");
LYNEARM_KIND(StepMarked, "step marked");
LYNEARM_KIND(Added, "added");
LYNEARM_KIND(AirRead, "air read");
LYNEARM_KIND(CopperCleaned, "copper cleaned");
LYNEARM_KIND(MashTemperature, "mash temperature");
LYNEARM_KIND(MashWater, "mash water");
LYNEARM_KIND(MashChecked, "mash checked");
LYNEARM_KIND(WortDrawn, "wort drawn");
LYNEARM_KIND(Pitched, "pitched");
LYNEARM_KIND(FermentRead, "ferment read");
LYNEARM_KIND(Racked, "racked");
LYNEARM_KIND(LotBrought, "lot brought");
LYNEARM_KIND(LotGauged, "lot gauged");
LYNEARM_KIND(LotTaken, "lot taken");
LYNEARM_KIND(RunBegun, "run begun");
LYNEARM_KIND(RunRead, "run read");
LYNEARM_KIND(JarFilled, "jar filled");
LYNEARM_KIND(RunEnded, "run ended");
LYNEARM_KIND(JarGauged, "jar gauged");
LYNEARM_KIND(JarNoted, "jar noted");
LYNEARM_KIND(JarsAllotted, "jars allotted");
LYNEARM_KIND(LotMade, "lot made");
LYNEARM_KIND(WoodFilled, "wood filled");
LYNEARM_KIND(WoodSampled, "wood sampled");
LYNEARM_KIND(WoodEmptied, "wood emptied");
LYNEARM_KIND(Bottled, "bottled");
LYNEARM_KIND(WoodTopped, "wood topped");
LYNEARM_KIND(Labelled, "labelled");
LYNEARM_KIND(Upheld, "upheld");

#undef LYNEARM_KIND

}  // namespace lynearm::journal
