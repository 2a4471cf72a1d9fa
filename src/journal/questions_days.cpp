// By the calendar: a mash is of one day, and a wash is pitched before it ferments and is
// racked.
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <string_view>
#include <utility>

#include "journal/asking.hpp"

namespace lynearm::journal {
namespace {

using units::Duration;

/// So long a mash may stand without a word of it, soured overnight say. Our choice.
constexpr Duration mash_stands = Duration::days(1.5);
/// A wort may cool overnight where it will ferment, and be read there. Our choice.
constexpr Duration wort_cools = Duration::days(1.5);
/// Of what is done one after another on a day, clocks and memories apart. Our choice.
constexpr Duration told_apart = Duration::minutes(10.0);

// Not of its worts: sugar is dissolved apart, on any day.
std::vector<const Told*> told_of_mash(const MashState& mash) {
  std::vector<const Told*> all;
  for (const MashPoint& one : mash.temperatures) all.push_back(&one.told);
  for (const MashWaterState& one : mash.waters) all.push_back(&one.told);
  for (const MashCheckState& one : mash.checks) all.push_back(&one.told);
  std::sort(all.begin(), all.end(), [](const Told* a, const Told* b) {
    return std::pair(a->at, a->entry) < std::pair(b->at, b->entry);
  });
  return all;
}

// Of a mash that falls into two days, the day of which less was told is the slip.
void ask_of_mash(const MashState& mash, Asking& asking) {
  const std::vector<const Told*> all = told_of_mash(mash);
  const auto stands = [](const Told* before, const Told* after) {
    return since(after->at, before->at) > mash_stands;
  };
  const auto last = std::adjacent_find(all.begin(), all.end(), stands);
  if (last == all.end()) return;
  const auto next = std::next(last);
  const bool earlier = next - all.begin() <= all.end() - next;
  const std::string why =
      fmt::format("It is told for {} {} what was told of this mash besides.",
                  how_long(since((*next)->at, (*last)->at)), earlier ? "before" : "after");
  for (auto one = earlier ? all.begin() : next; one != (earlier ? next : all.end()); ++one) {
    asking.ask((*one)->entry, why);
  }
}

void ask_of_pitch(const FermentState& ferment, Asking& asking) {
  if (!ferment.pitch) return;
  const auto ask = [&](const Told& told, std::string_view what, Duration at_least) {
    const Duration early = since(ferment.pitch->told.at, told.at);
    if (!(early > at_least)) return;
    asking.ask(told.entry, fmt::format("{} is told for {} before the wort was pitched.", what,
                                       how_long(early)));
  };
  for (const FermentPoint& point : ferment.points) ask(point.told, "It", wort_cools);
  if (ferment.racked) ask(ferment.racked->told, "The racking", told_apart);
}

}  // namespace

void ask_of_days(const BatchState& batch, Asking& asking) {
  ask_of_mash(batch.mash, asking);
  ask_of_pitch(batch.ferment, asking);
}

}  // namespace lynearm::journal
