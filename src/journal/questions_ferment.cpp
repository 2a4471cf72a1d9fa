// The ferment: how warm it stood, how its gravities fall, and what was racked of it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "ferment/follow.hpp"
#include "journal/asking.hpp"
#include "journal/fed.hpp"

namespace lynearm::journal {
namespace {

using units::Volume;

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

// Since the pitch; without what the fold left out, which is above it.
std::vector<const FermentPoint*> gravities(const BatchState& batch) {
  const PitchState& pitch = *batch.ferment.pitch;
  std::vector<const FermentPoint*> all;
  for (const FermentPoint& point : batch.ferment.points) {
    if (point.gravity && !(point.told.at < pitch.told.at) && !above_the_pitch(batch, point)) {
      all.push_back(&point);
    }
  }
  return all;
}

// Whether wort, or who knows how much of what, came to it in between.
bool fed_untold(const BatchState& batch, const Told& from, const Told& to) {
  const auto in_between = [&](const Told& told) {
    return from.at < told.at && told.at <= to.at;
  };
  const std::vector<WortState>& worts = batch.mash.worts;
  return std::any_of(worts.begin(), worts.end(),
                     [&](const WortState& one) { return in_between(one.told); }) ||
         std::any_of(batch.additions.begin(), batch.additions.end(),
                     [&](const AddedState& one) {
                       return !one.added.mass && !one.added.volume && in_between(one.told);
                     });
}

// A later gravity above an earlier one. Questions of either of the two.
struct Rise {
  const FermentPoint* low;
  const FermentPoint* high;

  [[nodiscard]] std::string time() const {
    return how_long(since(high->told.at, low->told.at));
  }
  [[nodiscard]] Puzzle of_high() const {
    return {high->told.entry,
            fmt::format("A gravity of {:.4f} is told for a time {} after one of {:.4f}: a wash "
                        "does not gain.",
                        high->gravity->ratio(), time(), low->gravity->ratio())};
  }
  [[nodiscard]] Puzzle of_low() const {
    return {low->told.entry,
            fmt::format("A gravity of {:.4f} is told for a time {} before one of {:.4f}, and "
                        "others that came later are above it too: a wash does not gain.",
                        low->gravity->ratio(), time(), high->gravity->ratio())};
  }
};

// The gravities of a wash, as far as they fall.
class Falling {
 public:
  Falling(const BatchState& batch, const Asking& asking)
      : batch_(batch), asking_(asking), all_(gravities(batch)) {}

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
      if (fed_untold(batch_, low->told, (*at)->told) || upheld_high(**at)) {
        before = nullptr;
        low = *at;
        continue;
      }
      if (!goes_on(*low, before, at)) return Rise{low, *at}.of_high();
      if (!upheld_low(*low)) return Rise{low, *at}.of_low();
      low = *at;  // that it stood so low for a while was upheld
    }
    return std::nullopt;
  }

 private:
  using Points = std::vector<const FermentPoint*>;

  [[nodiscard]] bool above(const FermentPoint& later, const FermentPoint& earlier) const {
    return gained(batch_, *earlier.gravity, gravity_sd(earlier), later);
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
  // Against whichever other it was: more may have been told since.
  [[nodiscard]] bool upheld_high(const FermentPoint& high) const {
    return asking_.answered(high.told.entry) && any([&](const FermentPoint& other) {
             return asking_.upheld(Rise{&other, &high}.of_high());
           });
  }
  [[nodiscard]] bool upheld_low(const FermentPoint& low) const {
    return asking_.answered(low.told.entry) && any([&](const FermentPoint& other) {
             return asking_.upheld(Rise{&low, &other}.of_low());
           });
  }
  template <typename Is>
  [[nodiscard]] bool any(const Is& is) const {
    return std::any_of(all_.begin(), all_.end(),
                       [&is](const FermentPoint* one) { return is(*one); });
  }

  const BatchState& batch_;
  const Asking& asking_;
  Points all_;
};

void ask_of_rise(const BatchState& batch, Asking& asking) {
  if (!batch.ferment.pitch) return;
  if (const auto asked = Falling(batch, asking).first_rise()) {
    asking.ask(asked->entry, asked->why);
  }
}

}  // namespace

void ask_of_ferment(const BatchState& batch, Asking& asking) {
  const FermentState& ferment = batch.ferment;
  ask_of_warmth(ferment, asking);
  ask_of_rise(batch, asking);
  if (!ferment.pitch || !ferment.racked) return;
  const Volume put_in = most_volume_fed(batch);
  if (!cannot_be(ferment.racked->clear, ferment.pitch->volume + put_in)) return;
  asking.ask(ferment.racked->told.entry,
             fmt::format("The racking tells {:.1f} L of clear wash; {:.1f} L were pitched{}.",
                         ferment.racked->clear.litres(), ferment.pitch->volume.litres(),
                         put_in > Volume::litres(0.05)
                             ? fmt::format(" and at most {:.1f} L put in", put_in.litres())
                             : std::string{}));
}

}  // namespace lynearm::journal
