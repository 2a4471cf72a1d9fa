// The ferment: how warm it stood, how its gravities fall, and what was racked of it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string>
#include <string_view>
#include <utility>

#include "ferment/follow.hpp"
#include "journal/asking.hpp"
#include "journal/fed.hpp"

namespace lynearm::journal {
namespace {

using units::Volume;

/// Yeast food and the like are not told of in a question of volumes. Our choice.
constexpr double worth_telling = 0.02;

void ask_of_warmth(const FermentState& ferment, Asking& asking) {
  const auto killed = [](std::string_view what, units::Temperature at) {
    return fmt::format(
        "The {} is told to have been at {:.0f} °C: yeast dies above some {:.0f} "
        "°C.",
        what, at.celsius(), yeast_dies.celsius());
  };
  if (ferment.pitch && ferment.pitch->at && *ferment.pitch->at > yeast_dies) {
    asking.ask(ferment.pitch->told.entry, killed("wort that was pitched", *ferment.pitch->at));
  }
  // A logger in the wrong unit is asked about once, and not again about as warm or as cold as
  // was upheld, whenever that was.
  constexpr auto a_step = units::TemperatureChange::kelvins(2.0);
  units::Temperature most = yeast_dies, least = wash_freezes;
  // Of the clear wash, which may be on its way to the still, nothing ferments.
  const auto counts = [&ferment](const FermentPoint& point) {
    return point.temperature && !(ferment.racked && point.told.at > ferment.racked->told.at);
  };
  const auto asks = [&](const FermentPoint& point) -> std::optional<std::string> {
    if (*point.temperature > most) return killed("wash", *point.temperature);
    if (!(*point.temperature < least)) return std::nullopt;
    return fmt::format("The wash is told to have been at {:.0f} °C: it freezes above that.",
                       point.temperature->celsius());
  };
  for (const FermentPoint& point : ferment.points) {
    if (!counts(point) || !asking.answered(point.told.entry)) continue;
    const auto why = asks(point);
    if (!why || !asking.upheld({point.told.entry, *why})) continue;
    if (*point.temperature > most) most = *point.temperature + a_step;
    if (*point.temperature < least) least = *point.temperature - a_step;
  }
  for (const FermentPoint& point : ferment.points) {
    if (!counts(point)) continue;
    const auto why = asks(point);
    if (why && asking.ask(point.told.entry, *why)) return;
  }
}

// Read since the pitch: those that can be of its wort, and those above it, which make no wash.
struct Gravities {
  std::vector<const FermentPoint*> of_wash;
  std::vector<const FermentPoint*> above;
  bool above_first = false;  ///< of all of them the first are above
};

Gravities gravities(const BatchState& batch) {
  Gravities all;
  for (const FermentPoint& point : batch.ferment.points) {
    if (!point.gravity || point.told.at < batch.ferment.pitch->told.at) continue;
    const bool above = above_the_pitch(batch, point);
    if (all.of_wash.empty() && all.above.empty()) all.above_first = above;
    (above ? all.above : all.of_wash).push_back(&point);
  }
  return all;
}

// Several above it that came first, and the others fell from there: the pitch was read low.
void ask_of_above(const BatchState& batch, const Gravities& all, Asking& asking) {
  if (all.above.empty()) return;
  const PitchState& pitch = *batch.ferment.pitch;
  const FermentPoint& first = *all.above.front();
  if (all.above_first && all.above.size() > 1 && *all.above[1]->gravity <= *first.gravity) {
    const Puzzle of_pitch{
        pitch.told.entry,
        fmt::format("The wort is told to have been pitched at {:.4f}, and a gravity of {:.4f} "
                    "was read {} later, and others above the pitch after it: a wash does not "
                    "gain, so its alcohol is not reckoned by those.",
                    pitch.gravity.ratio(), first.gravity->ratio(),
                    how_long(since(first.told.at, pitch.told.at)))};
    if (asking.ask(of_pitch.entry, of_pitch.why)) return;
  }
  for (const FermentPoint* const point : all.above) {
    asking.ask(
        point->told.entry,
        fmt::format("A gravity of {:.4f} in a ferment that was pitched at {:.4f}: a wash "
                    "does not gain, so its alcohol is not reckoned by this one.",
                    point->gravity->ratio(), pitch.gravity.ratio()));
  }
}

// A later gravity above an earlier one. Questions of either of the two.
struct Rise {
  const FermentPoint* low;
  const FermentPoint* high;

  [[nodiscard]] std::string time() const {
    return how_long(since(high->told.at, low->told.at));
  }
  static std::string begins(const FermentPoint& point) {
    return fmt::format("A gravity of {:.4f} is told for a time ", point.gravity->ratio());
  }
  static constexpr std::string_view ends_of_high = ": a wash does not gain.";
  static constexpr std::string_view ends_of_low = " are above it too, and no wash gains.";

  /// The lower gravity, of the question of the higher.
  static double low_of(std::string_view of_high) {
    of_high.remove_suffix(ends_of_high.size());
    const std::string low(of_high.substr(of_high.rfind(' ') + 1));
    return std::strtod(low.c_str(), nullptr);
  }

  [[nodiscard]] Puzzle of_high() const {
    return {high->told.entry, fmt::format("{}{} after one of {:.4f}{}", begins(*high), time(),
                                          low->gravity->ratio(), ends_of_high)};
  }
  [[nodiscard]] Puzzle of_low() const {
    return {low->told.entry,
            fmt::format("{}{} before one of {:.4f}, and others that came later{}", begins(*low),
                        time(), high->gravity->ratio(), ends_of_low)};
  }
};

// The gravities of a wash, as far as they fall. A rise that was upheld, of two fermenters or of
// a hydrometer in the foam, may come again each day: what is no greater is not asked.
class Falling {
 public:
  using Points = std::vector<const FermentPoint*>;

  Falling(const BatchState& batch, const Points& all, const Asking& asking)
      : batch_(batch), all_(all), asking_(asking) {
    for (const FermentPoint* const point : all_) {
      if (!asking_.answered(point->told.entry)) continue;
      const std::string_view answer =
          asking_.answer(point->told.entry, Rise::begins(*point), Rise::ends_of_high);
      if (answer.empty()) continue;
      upheld_ = std::max(upheld_, point->gravity->ratio() - Rise::low_of(answer));
    }
  }

  // What is to be asked: the first that rises; or that before it, where several that came later
  // go on from the one before that.
  [[nodiscard]] std::optional<Puzzle> first_rise() const {
    const FermentPoint* before = nullptr;
    const FermentPoint* low = nullptr;
    for (auto at = all_.begin(); at != all_.end(); ++at) {
      if (low == nullptr || (*at)->gravity < low->gravity) {
        before = std::exchange(low, *at);
        continue;
      }
      if (!above(**at, *low)) continue;
      if (!goes_on(*low, before, at)) return Rise{low, *at}.of_high();
      if (asking_.answer(low->told.entry, Rise::begins(*low), Rise::ends_of_low).empty()) {
        return Rise{low, *at}.of_low();
      }
      low = *at;  // that it stood so low for a while was upheld
    }
    return std::nullopt;
  }

 private:
  [[nodiscard]] bool above(const FermentPoint& later, const FermentPoint& earlier) const {
    return gained(batch_, earlier, later, upheld_);
  }
  // Whether several from there on are above the lowest, and none above that before it.
  [[nodiscard]] bool goes_on(const FermentPoint& low, const FermentPoint* before,
                             Points::const_iterator from) const {
    std::size_t risen = 0;
    for (; from != all_.end(); ++from) {
      if (!above(**from, low)) continue;
      if (before != nullptr && above(**from, *before)) return false;
      ++risen;
    }
    return risen > 1;
  }

  const BatchState& batch_;
  const Points& all_;
  const Asking& asking_;
  double upheld_ = 0.0;  ///< the greatest rise that was
};

void ask_of_gravities(const BatchState& batch, Asking& asking) {
  if (!batch.ferment.pitch) return;
  const Gravities all = gravities(batch);
  ask_of_above(batch, all, asking);
  if (const auto asked = Falling(batch, all.of_wash, asking).first_rise()) {
    asking.ask(asked->entry, asked->why);
  }
}

}  // namespace

void ask_of_ferment(const BatchState& batch, Asking& asking) {
  const FermentState& ferment = batch.ferment;
  ask_of_warmth(ferment, asking);
  ask_of_gravities(batch, asking);
  if (!ferment.pitch || !ferment.racked) return;
  const Volume put_in = most_volume_fed(batch);
  if (!cannot_be(ferment.racked->clear, ferment.pitch->volume + put_in)) return;
  asking.ask(ferment.racked->told.entry,
             fmt::format("The racking tells {:.1f} L of clear wash; {:.1f} L were pitched{}.",
                         ferment.racked->clear.litres(), ferment.pitch->volume.litres(),
                         put_in > ferment.pitch->volume * worth_telling
                             ? fmt::format(" and at most {:.1f} L put in", put_in.litres())
                             : std::string{}));
}

}  // namespace lynearm::journal
