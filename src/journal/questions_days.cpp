// By the calendar: a mash is of one day, and a wash is pitched before it ferments and is
// racked.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string_view>
#include <utility>

#include "ferment/follow.hpp"
#include "journal/asking.hpp"

namespace lynearm::journal {
namespace {

using units::Duration;

/// So long a mash may stand without a word of it, soured overnight say. Our choice.
constexpr Duration mash_stands = Duration::days(1.5);
/// A batch is begun here on any hour of its mash day; another day is so far off. Our choice.
constexpr Duration another_day = Duration::hours(12.0);

struct OfMash {
  const Told* told;
  std::string_view what;
};

// Not of its worts: sugar is dissolved apart, on any day.
std::vector<OfMash> told_of_mash(const MashState& mash) {
  std::vector<OfMash> all;
  for (const MashPoint& one : mash.temperatures) all.push_back({&one.told, "A temperature"});
  for (const MashWaterState& one : mash.waters) all.push_back({&one.told, "Water"});
  for (const MashCheckState& one : mash.checks) all.push_back({&one.told, "A check"});
  std::sort(all.begin(), all.end(), [](const OfMash& a, const OfMash& b) {
    return std::pair(a.told->at, a.told->entry) < std::pair(b.told->at, b.told->entry);
  });
  return all;
}

// A mash that falls into two days is asked about at the gap, on the side of which less was
// told. In words that the next entry does not change: a second mash in one batch is upheld
// once.
void ask_of_mash(const MashState& mash, Asking& asking) {
  const std::vector<OfMash> all = told_of_mash(mash);
  for (std::size_t next = 1; next < all.size(); ++next) {
    const OfMash& before = all[next - 1];
    const OfMash& after = all[next];
    const Duration gap = since(after.told->at, before.told->at);
    if (!(gap > mash_stands)) continue;
    const Puzzle early{before.told->entry,
                       fmt::format("{} of the mash is told for a time {} before what was told "
                                   "of it next.",
                                   before.what, how_long(gap))};
    const Puzzle late{after.told->entry,
                      fmt::format("{} of the mash is told for a time {} after what was told of "
                                  "it before.",
                                  after.what, how_long(gap))};
    if (asking.upheld(early) || asking.upheld(late)) continue;
    const Puzzle& asked = next <= all.size() - next ? early : late;
    asking.ask(asked.entry, asked.why);
  }
}

// A batch may be begun here when its mash is over, or on its way; but a mash of the days after
// that did not begin the day before.
void ask_of_beginning(const BatchState& batch, Asking& asking) {
  if (!batch.begun) return;
  const std::vector<OfMash> all = told_of_mash(batch.mash);
  const auto first = std::find_if(all.begin(), all.end(), [&batch](const OfMash& one) {
    return !(since(batch.begun->at, one.told->at) > written_late);
  });
  if (first == all.begin() || all.end() - first <= first - all.begin()) return;
  const OfMash& last = *std::prev(first);
  if (!(since(first->told->at, last.told->at) > another_day)) return;
  asking.ask(last.told->entry,
             fmt::format("{} of the mash is told for a time {} before the batch was begun, and "
                         "most of its mash came after that.",
                         last.what, how_long(since(batch.begun->at, last.told->at))));
}

// Gravities that the ferment had made before it was pitched: of more than came after, the pitch
// is the slip. A wort may be read before, and thinned.
void ask_of_early_gravities(const FermentState& ferment, Asking& asking) {
  const PitchState& pitch = *ferment.pitch;
  std::vector<const FermentPoint*> early;
  std::size_t later = 0;
  for (const FermentPoint& point : ferment.points) {
    if (!point.gravity) continue;
    if (!(since(pitch.told.at, point.told.at) > written_late)) {
      ++later;
      continue;
    }
    const double sd =
        std::hypot(point.by_refractometer ? ferment::refractometer_sd : ferment::hydrometer_sd,
                   ferment::hydrometer_sd);
    const double lost = pitch.gravity.ratio() - point.gravity->ratio();
    if (lost > impossible_deviations * sd) early.push_back(&point);
  }
  if (early.empty()) return;
  const auto before = [&pitch](const FermentPoint& point) {
    return how_long(since(pitch.told.at, point.told.at));
  };
  if (early.size() > 1 && early.size() >= later) {
    asking.ask(
        pitch.told.entry,
        fmt::format("The pitch is told for a time {} after a gravity of {:.4f} was read: "
                    "what was read before the pitch is not reckoned as of the wash.",
                    before(*early.front()), early.front()->gravity->ratio()));
    return;
  }
  for (const FermentPoint* const point : early) {
    asking.ask(point->told.entry,
               fmt::format("A gravity of {:.4f} is told for a time {} before the wort was "
                           "pitched, which was at {:.4f}: it is not reckoned as of the wash.",
                           point->gravity->ratio(), before(*point), pitch.gravity.ratio()));
  }
}

// Against the first wort of a mash of another day; not where the mash went before it, and only
// the wort was told late.
void ask_of_first_wort(const BatchState& batch, Asking& asking) {
  const PitchState& pitch = *batch.ferment.pitch;
  const std::vector<WortState>& worts = batch.mash.worts;
  const auto first = std::min_element(
      worts.begin(), worts.end(),
      [](const WortState& a, const WortState& b) { return a.told.at < b.told.at; });
  if (first == worts.end()) return;
  const std::vector<OfMash> mash = told_of_mash(batch.mash);
  if (!mash.empty() && !(pitch.told.at < mash.back().told->at)) return;
  const Duration early = since(first->told.at, pitch.told.at);
  if (!(early > another_day)) return;
  asking.ask(pitch.told.entry, fmt::format("The pitch is told for a time {} before the first "
                                           "wort was drawn.",
                                           how_long(early)));
}

void ask_of_pitch(const BatchState& batch, Asking& asking) {
  const FermentState& ferment = batch.ferment;
  if (!ferment.pitch) return;
  ask_of_early_gravities(ferment, asking);
  ask_of_first_wort(batch, asking);
  if (!ferment.racked) return;
  const Duration early = since(ferment.pitch->told.at, ferment.racked->told.at);
  if (!(early > written_late)) return;
  asking.ask(ferment.racked->told.entry,
             fmt::format("The racking is told for a time {} before the wort was pitched.",
                         how_long(early)));
}

}  // namespace

void ask_of_days(const BatchState& batch, Asking& asking) {
  ask_of_mash(batch.mash, asking);
  ask_of_beginning(batch, asking);
  ask_of_pitch(batch, asking);
}

}  // namespace lynearm::journal
