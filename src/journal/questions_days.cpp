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
#include "journal/fed.hpp"

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
  std::sort(all.begin(), all.end(),
            [](const OfMash& a, const OfMash& b) { return told_before(*a.told, *b.told); });
  return all;
}

Puzzle before_the_next(const OfMash& one, const Told& next) {
  return {one.told->entry,
          fmt::format("{} of the mash is told for a time {} before what was told of it next.",
                      one.what, how_long(since(next.at, one.told->at)))};
}

Puzzle after_the_one_before(const OfMash& one, const Told& before) {
  return {one.told->entry,
          fmt::format("{} of the mash is told for a time {} after what was told of it before.",
                      one.what, how_long(since(one.told->at, before.at)))};
}

// A gap in a mash: what was told before it, and after it up to the next.
struct Gap {
  const std::vector<OfMash>& all;
  std::size_t begin;
  std::size_t next;
  std::size_t end;

  // Once its ends may have been others: something was told since for a time beside it.
  [[nodiscard]] bool upheld(const Asking& asking) const {
    const auto any = [this](std::size_t from, std::size_t to, const auto& is) {
      return std::any_of(all.data() + from, all.data() + to, is);
    };
    return any(next, end,
               [&](const OfMash& after) {
                 return asking.answered(after.told->entry) &&
                        any(begin, next, [&](const OfMash& before) {
                          return asking.upheld(after_the_one_before(after, *before.told));
                        });
               }) ||
           any(begin, next, [&](const OfMash& before) {
             return asking.answered(before.told->entry) &&
                    any(next, end, [&](const OfMash& after) {
                      return asking.upheld(before_the_next(before, *after.told));
                    });
           });
  }
};

// A mash that falls into two days is asked about at the gap, on the side of which less was
// told. A second mash in one batch is upheld once.
void ask_of_mash(const MashState& mash, Asking& asking) {
  const std::vector<OfMash> all = told_of_mash(mash);
  std::vector<std::size_t> parts = {0};
  for (std::size_t next = 1; next < all.size(); ++next) {
    if (since(all[next].told->at, all[next - 1].told->at) > mash_stands) parts.push_back(next);
  }
  parts.push_back(all.size());
  for (std::size_t i = 1; i + 1 < parts.size(); ++i) {
    const std::size_t next = parts[i];
    if (Gap{all, parts[i - 1], next, parts[i + 1]}.upheld(asking)) continue;
    const OfMash& before = all[next - 1];
    const OfMash& after = all[next];
    const Puzzle asked = next <= all.size() - next ? before_the_next(before, *after.told)
                                                   : after_the_one_before(after, *before.told);
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
  const Duration gap = since(first->told->at, last.told->at);
  if (!(gap > another_day) || gap > mash_stands) return;  // a longer one is asked about as such
  asking.ask(last.told->entry,
             fmt::format("{} of the mash is told for a time {} before the batch was begun, and "
                         "most of its mash came after that.",
                         last.what, how_long(since(batch.begun->at, last.told->at))));
}

// Whether sugar or more wort came to it between a reading and the pitch, as much as it lacks.
// Before the first wort there was nothing to read.
bool sweetened_after(const BatchState& batch, const Told& read, double lacks) {
  const Moment pitched = batch.ferment.pitch->told.at;
  const auto in_between = [&](const auto& one) {
    return read.at < one.told.at && !(since(one.told.at, pitched) > written_late);
  };
  const std::vector<WortState>& worts = batch.mash.worts;
  const auto there = [&read](const WortState& wort) {
    return !(since(wort.told.at, read.at) > written_late);
  };
  if (!worts.empty() && std::none_of(worts.begin(), worts.end(), there)) return false;
  return std::any_of(worts.begin(), worts.end(), in_between) ||
         most_gravity_added(batch, read.at, pitched) >= lacks;
}

// Something that is done with a wash, told for a time before it was pitched.
struct Early {
  const Told* told;
  std::string why;          ///< as asked of itself
  std::string pitch_after;  ///< as asked of the pitch: what that came after
};

// And how many gravities came later: racking and still come late in either case.
struct EarlyAndLate {
  std::vector<Early> early;
  std::size_t later = 0;
};

void sort_gravities(const BatchState& batch, EarlyAndLate& into) {
  const PitchState& pitch = *batch.ferment.pitch;
  for (const FermentPoint& point : batch.ferment.points) {
    if (!point.gravity) continue;
    const Duration before = since(pitch.told.at, point.told.at);
    if (!(before > written_late)) {
      ++into.later;
      continue;
    }
    const double sd = std::hypot(gravity_sd(point), ferment::hydrometer_sd);
    const double lost = pitch.gravity.ratio() - point.gravity->ratio();
    // A wort may be read before, and be thinned or sweetened.
    const double lacks = lost - impossible_deviations * sd;
    if (!(lacks > 0.0) || sweetened_after(batch, point.told, lacks)) continue;
    into.early.push_back(
        {&point.told,
         fmt::format("A gravity of {:.4f} is told for a time {} before the wort was pitched, "
                     "which was at {:.4f}: the wash's alcohol is not reckoned by it.",
                     point.gravity->ratio(), how_long(before), pitch.gravity.ratio()),
         fmt::format("a gravity of {:.4f} was read: the wash's alcohol is not reckoned by what "
                     "was read before the pitch.",
                     point.gravity->ratio())});
  }
}

void sort_what_was_done(const BatchState& batch, EarlyAndLate& into) {
  const auto put = [&](const Told& told, std::string_view itself,
                       std::string_view pitch_after) {
    const Duration before = since(batch.ferment.pitch->told.at, told.at);
    if (!(before > written_late)) return;
    into.early.push_back(
        {&told, fmt::format("{} {} before the wort was pitched.", itself, how_long(before)),
         std::string(pitch_after)});
  };
  if (batch.ferment.racked) {
    put(batch.ferment.racked->told, "The racking is told for a time", "the wash was racked.");
  }
  for (const RunState& run : batch.runs) {
    // Of which nothing was named may be of wash that was bought.
    if (!run.wash) continue;
    put(run.told, "The heat on this wash is told to have gone on",
        "the wash was in the still.");
  }
}

// Where several came before the pitch, and at least as many as after it, the pitch is the slip.
void ask_of_early(const BatchState& batch, Asking& asking) {
  const PitchState& pitch = *batch.ferment.pitch;
  EarlyAndLate all;
  sort_gravities(batch, all);
  sort_what_was_done(batch, all);
  std::vector<Early>& early = all.early;
  std::erase_if(early, [&asking](const Early& one) {
    return asking.upheld({one.told->entry, one.why});
  });
  if (early.empty()) return;
  const auto of_pitch = [&pitch](const Early& first) {
    return Puzzle{pitch.told.entry, fmt::format("The pitch is told for a time {} after {}",
                                                how_long(since(pitch.told.at, first.told->at)),
                                                first.pitch_after)};
  };
  if (asking.answered(pitch.told.entry) &&
      std::any_of(early.begin(), early.end(),
                  [&](const Early& one) { return asking.upheld(of_pitch(one)); })) {
    return;
  }
  if (early.size() > 1 && early.size() >= all.later) {
    const auto first = std::min_element(
        early.begin(), early.end(),
        [](const Early& a, const Early& b) { return told_before(*a.told, *b.told); });
    const Puzzle asked = of_pitch(*first);
    asking.ask(asked.entry, asked.why);
    return;
  }
  for (const Early& one : early) asking.ask(one.told->entry, one.why);
}

// Against the first wort of a mash of another day; not where the mash went before it, and only
// the wort was told late. Of a wash that is pitched on the grain no wort is told.
void ask_of_pitch_by_mash(const BatchState& batch, Asking& asking) {
  const PitchState& pitch = *batch.ferment.pitch;
  const std::vector<OfMash> mash = told_of_mash(batch.mash);
  const auto ask = [&](const Told& first, std::string_view what) {
    const Duration early = since(first.at, pitch.told.at);
    if (!(early > another_day)) return;
    asking.ask(pitch.told.entry, fmt::format("The pitch is told for a time {} before {}.",
                                             how_long(early), what));
  };
  const std::vector<WortState>& worts = batch.mash.worts;
  if (!worts.empty()) {
    if (!mash.empty() && !(pitch.told.at < mash.back().told->at)) return;
    const auto first = std::min_element(
        worts.begin(), worts.end(),
        [](const WortState& a, const WortState& b) { return a.told.at < b.told.at; });
    ask(first->told, "the first wort was drawn");
  } else if (!mash.empty()) {
    ask(*mash.front().told, "the first that was told of the mash");
  }
}

void ask_of_pitch(const BatchState& batch, Asking& asking) {
  if (!batch.ferment.pitch) return;
  ask_of_early(batch, asking);
  ask_of_pitch_by_mash(batch, asking);
}

}  // namespace

void ask_of_days(const BatchState& batch, Asking& asking) {
  ask_of_mash(batch.mash, asking);
  ask_of_beginning(batch, asking);
  ask_of_pitch(batch, asking);
}

}  // namespace lynearm::journal
