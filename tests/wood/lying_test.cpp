// Several woods at once, and what was taken before: held to the one wood of extraction.hpp.
#include "wood/lying.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"

namespace lynearm::wood {
namespace {

using units::Duration;
using units::Share;
using units::Volume;
using units::VolumeStrength;

const Volume ten = Volume::litres(10.0);

Wood some_staves() {
  Wood wood = staves(Stave{}, *rc::gen::inRange(1, 40), ten);
  wood.richness = 0.1 * *rc::gen::inRange(3, 15);
  wood.fill = *rc::gen::inRange(1, 5);
  return wood;
}
Duration some_time() { return Duration::days(*rc::gen::inRange(0, 1500)); }
Share at(const Lying& lying, Duration t) { return lying.extract(t); }

TEST(Lying, one_wood_alone_gives_as_a_cask_is_held_to_give) {
  // The averages for whiskey of extraction_test.cpp, by this way.
  const Volume cask_L = Volume::litres(200.0);
  const Lying lying(cask_L, {cask(cask_L)}, Rest{});
  EXPECT_NEAR(lying.extract(Duration::years(1.0)).fraction(), 0.40, 0.05);
  EXPECT_NEAR(lying.extract(Duration::years(2.0)).fraction(), 0.55, 0.05);
  EXPECT_EQ(lying.extract(Duration::years(8.0)), extract_of_200L_cask(Duration::years(8.0)));
}

RC_GTEST_PROP(LyingProperty, two_halves_of_a_set_give_what_the_set_gives, ()) {
  const Wood whole = some_staves();
  Wood half = whole;
  half.surface = whole.surface * 0.5;
  const Duration t = some_time();
  const Share one = at({ten, {whole}, Rest{}}, t);
  const Share two = at({ten, {half, half}, Rest{}}, t);
  RC_ASSERT(std::abs((one - two).fraction()) <= 1e-12);
  RC_ASSERT(std::abs((one - extract(whole, t)).fraction()) <= 1e-12);
}

RC_GTEST_PROP(LyingProperty, each_wood_gives_by_its_own_share_left, ()) {
  const Wood first = some_staves();
  const Wood second = some_staves();
  const Duration t = some_time();
  const Share both = at({ten, {first, second}, Rest{}}, t);
  RC_ASSERT(std::abs((both - extract(first, t) - extract(second, t)).fraction()) <= 1e-12);
}

RC_GTEST_PROP(LyingProperty, moved_at_once_to_the_same_fresh_wood_is_as_not_moved, ()) {
  const Wood wood = some_staves();
  const Lying there(ten, {wood}, Rest{});
  const Lying moved(ten, {wood}, Rest{}, there.extract(Duration{}));
  const Duration t = some_time();
  RC_ASSERT(moved.extract(t) == there.extract(t));
}

RC_GTEST_PROP(LyingProperty, moving_and_drawing_take_nothing_that_was_extracted, ()) {
  const Lying first(ten, {some_staves()}, Rest{});
  const Share carried = first.extract(some_time());
  Lying second(ten, {some_staves(), some_staves()}, Rest{}, carried);
  RC_ASSERT(second.extract(Duration{}) == carried);
  const Duration drawn = some_time();
  const Share before = second.extract(drawn);
  second.draw(drawn, Volume::litres(*rc::gen::inRange(0, 10)));
  RC_ASSERT(second.extract(drawn) == before);
  Share last = carried;
  for (const double days : {1.0, 30.0, 300.0, 3000.0}) {
    const Share now = second.extract(Duration::days(days));
    RC_ASSERT(now >= last);
    last = now;
  }
}

RC_GTEST_PROP(LyingProperty, what_is_poured_in_mixes_and_then_the_wood_goes_on, ()) {
  Lying lying(ten, {some_staves()}, Rest{});
  const Lying alone = lying;
  const Duration t = some_time();
  const Volume poured = Volume::litres(0.1 * *rc::gen::inRange(1, 50));
  const Share its = Share::percent(*rc::gen::inRange(0, 80));
  const Share before = lying.extract(t);
  lying.pour(t, ten, poured, Rest{}.strength, its);
  const double share = poured / (ten + poured);
  const Share mixed = before * (1.0 - share) + its * share;
  RC_ASSERT(std::abs((lying.extract(t) - mixed).fraction()) <= 1e-12);
  // More spirit on the same wood: each litre gains less.
  const Duration later = t + Duration::days(100.0);
  const Share gain = lying.extract(later) - mixed;
  RC_ASSERT(gain >= Share{});
  RC_ASSERT(gain.fraction() <= (alone.extract(later) - before).fraction() + 1e-12);
  // What it was before the pouring is still told as it was. (Poured at once, there was no
  // before.)
  if (t > Duration{}) RC_ASSERT(lying.extract(t * 0.5) == alone.extract(t * 0.5));
}

RC_GTEST_PROP(LyingProperty, when_it_reaches_an_extract_it_has_it, ()) {
  Lying lying(ten, {some_staves(), some_staves()}, Rest{},
              Share::percent(*rc::gen::inRange(0, 30)));
  lying.pour(Duration::days(60.0), ten, Volume::litres(1.0), Rest{}.strength, Share{});
  const Share target = Share::percent(*rc::gen::inRange(1, 80));
  const auto when = lying.reaches(target);
  if (!when) {
    RC_ASSERT(lying.extract(Duration::years(99.0)) < target);
    return;
  }
  if (*when == Duration{}) {
    RC_ASSERT(lying.extract(*when) >= target);
  } else {
    RC_ASSERT(std::abs((lying.extract(*when) - target).fraction()) < 1e-9);
  }
}

TEST(Lying, thinned_by_topping_up_it_is_ready_anew_only_later) {
  const Wood wood = staves(Stave{}, 4.0, ten);
  Lying lying(ten, {wood}, Rest{});
  const Duration first = *lying.reaches(ready);
  lying.pour(first + Duration::days(10.0), ten, Volume::litres(2.0), Rest{}.strength, Share{});
  const auto again = lying.reaches(ready);
  ASSERT_TRUE(again.has_value());
  EXPECT_GT(*again, first + Duration::days(10.0));
  EXPECT_NEAR(lying.extract(*again).fraction(), ready.fraction(), 1e-9);
}

TEST(Lying, no_wood_and_no_spirit_are_refused) {
  EXPECT_THROW(Lying(ten, {}, Rest{}), base::InputError);
  EXPECT_THROW(Lying(Volume{}, {cask(ten)}, Rest{}), base::InputError);
  Lying lying(ten, {cask(ten)}, Rest{});
  EXPECT_THROW(
      lying.pour(Duration{}, ten, Volume::litres(1.0), VolumeStrength::percent(95.0), Share{}),
      base::InputError);
}

}  // namespace
}  // namespace lynearm::wood
