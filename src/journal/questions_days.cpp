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
/// A wort may cool overnight where it will ferment, and be read there. Our choice.
constexpr Duration wort_cools = Duration::days(1.5);
/// Of what is done one after another, clocks apart. Our choice.
constexpr Duration told_apart = Duration::minutes(10.0);

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

// Of a mash that falls into two days, the day of which less was told is the slip; once that was
// upheld, the rest is looked at by itself.
void ask_of_mash(const MashState& mash, Asking& asking) {
  std::vector<OfMash> all = told_of_mash(mash);
  const auto stands = [](const OfMash& before, const OfMash& after) {
    return since(after.told->at, before.told->at) > mash_stands;
  };
  bool asked = false;
  while (!asked) {
    const auto last = std::adjacent_find(all.begin(), all.end(), stands);
    if (last == all.end()) return;
    const auto next = std::next(last);
    const bool earlier = next - all.begin() <= all.end() - next;
    const std::string when = fmt::format("{} {} what was told of it besides",
                                         how_long(since(next->told->at, last->told->at)),
                                         earlier ? "before" : "after");
    const auto from = earlier ? all.begin() : next;
    const auto to = earlier ? next : all.end();
    for (auto one = from; one != to; ++one) {
      const bool here =
          asking.ask(one->told->entry,
                     fmt::format("{} of the mash is told for a time {}.", one->what, when));
      asked = here || asked;
    }
    all.erase(from, to);
  }
}

// A batch may be begun here once its mash is over; but a mash that came after that did not
// begin before it.
void ask_of_beginning(const BatchState& batch, Asking& asking) {
  if (!batch.begun) return;
  const std::vector<OfMash> all = told_of_mash(batch.mash);
  const auto early = [&batch](const OfMash& one) {
    return since(batch.begun->at, one.told->at) > written_late;
  };
  const auto before = std::count_if(all.begin(), all.end(), early);
  if (2 * before >= static_cast<std::ptrdiff_t>(all.size())) return;
  for (const OfMash& one : all) {
    if (!early(one)) continue;
    asking.ask(
        one.told->entry,
        fmt::format("{} of the mash is told for a time {} before the batch was begun, and "
                    "most of its mash came after that.",
                    one.what, how_long(since(batch.begun->at, one.told->at))));
  }
}

void ask_of_pitch(const BatchState& batch, Asking& asking) {
  const FermentState& ferment = batch.ferment;
  if (!ferment.pitch) return;
  const PitchState& pitch = *ferment.pitch;
  const auto early = [&pitch](const Told& told) { return since(pitch.told.at, told.at); };
  for (const FermentPoint& point : ferment.points) {
    const Duration before = early(point.told);
    const bool other = point.gravity && before > told_apart &&
                       std::abs(point.gravity->ratio() - pitch.gravity.ratio()) >
                           impossible_deviations * std::sqrt(2.0) * ferment::hydrometer_sd;
    if (other) {
      asking.ask(point.told.entry,
                 fmt::format("A gravity of {:.4f} is told for a time {} before the wort was "
                             "pitched, which was at {:.4f}.",
                             point.gravity->ratio(), how_long(before), pitch.gravity.ratio()));
    } else if (before > wort_cools) {
      asking.ask(point.told.entry, fmt::format("A reading of the ferment is told for a time {} "
                                               "before the wort was pitched.",
                                               how_long(before)));
    }
  }
  if (ferment.racked && early(ferment.racked->told) > told_apart) {
    asking.ask(ferment.racked->told.entry,
               fmt::format("The racking is told for a time {} before the wort was pitched.",
                           how_long(early(ferment.racked->told))));
  }
  const std::vector<WortState>& worts = batch.mash.worts;
  const auto first = std::min_element(
      worts.begin(), worts.end(),
      [](const WortState& a, const WortState& b) { return a.told.at < b.told.at; });
  if (first == worts.end() || !(since(first->told.at, pitch.told.at) > written_late)) return;
  asking.ask(pitch.told.entry, fmt::format("The pitch is told for a time {} before the first "
                                           "wort was drawn.",
                                           how_long(since(first->told.at, pitch.told.at))));
}

}  // namespace

void ask_of_days(const BatchState& batch, Asking& asking) {
  ask_of_mash(batch.mash, asking);
  ask_of_beginning(batch, asking);
  ask_of_pitch(batch, asking);
}

}  // namespace lynearm::journal
