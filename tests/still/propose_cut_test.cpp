#include "still/propose_cut.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include "base/error.hpp"
#include "still/shelves.hpp"

namespace lynearm::still {
namespace {

using testing::HasSubstr;
using testing::ThrowsMessage;
using units::Volume;
using units::VolumeStrength;

const Alternative& best(const CutProposal& proposal) {
  return proposal.alternatives[proposal.recommended];
}

Wishes for_purpose(std::string_view id) {
  Wishes wishes;
  wishes.weights = purpose(id).weights;
  return wishes;
}

// The worth of any shares of the jars, through the function that judges a hand's allotment.
double worth_L(const std::vector<Jar>& jars, const std::vector<double>& shares,
               const Wishes& wishes, const Yardstick& yardstick) {
  Allotment allotment;
  for (std::size_t i = 0; i < jars.size(); ++i) {
    allotment.push_back(
        {{}, jars[i].volume * shares[i], jars[i].volume * (1.0 - shares[i]), {}});
  }
  const Vessel20C hearts = evaluate(jars, allotment).hearts;
  return hearts.pure_alcohol.litres() *
         (wishes.weights.volume - deduction(hearts, wishes.weights, yardstick));
}

double share_in_hearts(const std::vector<Jar>& jars, const Alternative& a, std::size_t i) {
  return a.allotment[i].hearts / jars[i].volume;
}

TEST(ProposeCut, cutsAUsualRunWhereTheTradeDoes) {
  // A 20 L still, charged with 28 %vol. Common practice, no source: about 100 mL of foreshots,
  // heads to 400 to 650 mL; a clean cut ends near 56 %vol by some makers and near 62 by others,
  // a fuller one below it. Jars hold half a litre, so ends are known to a jar.
  const std::vector<Jar> jars = usual_jars();
  const auto first_and_last = [&](std::string_view id) {
    const Alternative a = best(propose(jars, for_purpose(id)));
    double before_L = 0.0;
    std::size_t last = 0;
    bool begun = false;
    for (std::size_t i = 0; i < jars.size(); ++i) {
      if (share_in_hearts(jars, a, i) > 0.5) {
        begun = true;
        last = i;
      } else if (!begun) {
        before_L += jars[i].volume.litres();
      }
    }
    return std::pair{before_L, jars[last].strength.percent()};
  };
  const auto [clean_from, clean_to] = first_and_last("clean");
  EXPECT_GT(clean_from, 0.4);
  EXPECT_LT(clean_from, 0.7);
  EXPECT_GT(clean_to, 54.0);
  EXPECT_LT(clean_to, 63.0);
  const auto [fuller_from, fuller_to] = first_and_last("fuller");
  EXPECT_LE(fuller_from, clean_from);
  EXPECT_LT(fuller_to, clean_to);
  EXPECT_GT(fuller_to, 45.0);
}

TEST(ProposeCut, showsFiveAlternativesOfWhichNoneIsDominated) {
  const CutProposal p = propose(usual_jars(), for_purpose("clean"));
  ASSERT_EQ(p.alternatives.size(), 5U);
  EXPECT_EQ(p.recommended, 2U);
  for (std::size_t i = 1; i < 5; ++i) {
    EXPECT_GT(p.alternatives[i].outcome.hearts.pure_alcohol,
              p.alternatives[i - 1].outcome.hearts.pure_alcohol);
    EXPECT_GT(p.alternatives[i].deduction, p.alternatives[i - 1].deduction);
    EXPECT_LE(p.alternatives[i].worth, best(p).worth);
  }
}

TEST(ProposeCut, setsTheFirstJarAsideAlways) {
  const std::vector<Jar> jars = usual_jars();
  for (const Alternative& a : propose(jars, for_purpose("fuller")).alternatives) {
    EXPECT_EQ(a.allotment[0].foreshots, jars[0].volume);
    EXPECT_NEAR(a.outcome.foreshots.volume.litres(), jars[0].volume.litres(), 1e-12);
  }
  Wishes wishes = for_purpose("fuller");
  wishes.foreshots = Volume::litres(0.0);
  EXPECT_GT(best(propose(jars, wishes)).outcome.foreshots.volume, Volume{});
  wishes.foreshots = Volume::litres(0.2);
  EXPECT_EQ(best(propose(jars, wishes)).allotment[1].foreshots, jars[1].volume);
  EXPECT_EQ(best(propose(jars, wishes)).allotment[2].foreshots, Volume{});
  // Of 120 mL 20 run into the second jar, of half a litre: it is mixed, and none of it is
  // hearts.
  wishes.foreshots = Volume::litres(0.12);
  EXPECT_EQ(best(propose(jars, wishes)).allotment[1].feints, jars[1].volume);
}

TEST(ProposeCut, keepsToTheEndOfTheHeadsThatWasWished) {
  const std::vector<Jar> jars = usual_jars();
  const Volume two = jars[0].volume + jars[1].volume;
  Wishes wishes = for_purpose("fuller");
  wishes.heads = two + jars[2].volume * 0.6;
  for (const Alternative& a : propose(jars, wishes).alternatives) {
    EXPECT_EQ(a.allotment[0].foreshots, jars[0].volume);
    EXPECT_EQ(a.allotment[1].feints, jars[1].volume);
    EXPECT_EQ(a.allotment[2].feints, jars[2].volume);
  }
  // Of a jar that mostly runs after it, the loads decide.
  wishes.heads = two + jars[2].volume * 0.4;
  Wishes by_loads = for_purpose("fuller");
  by_loads.heads = two;
  EXPECT_EQ(best(propose(jars, wishes)).allotment[2].hearts,
            best(propose(jars, by_loads)).allotment[2].hearts);
  EXPECT_EQ(best(propose(jars, wishes)).allotment[1].feints, jars[1].volume);
  // All of it heads: then it is no end at all.
  wishes.heads = Volume::litres(1000.0);
  EXPECT_EQ(best(propose(jars, wishes)).outcome.hearts.volume,
            best(propose(jars, for_purpose("fuller"))).outcome.hearts.volume);
}

TEST(ProposeCut, keepsWhatTheMakerSetApartOutOfTheHearts) {
  std::vector<Jar> jars = usual_jars();
  jars[6].use = Use::apart;
  jars[7].use = Use::feints;
  const CutProposal p = propose(jars, for_purpose("clean"));
  for (const Alternative& a : p.alternatives) {
    EXPECT_EQ(a.allotment[6].apart, jars[6].volume);
    EXPECT_EQ(a.allotment[7].feints, jars[7].volume);
  }
}

TEST(ProposeCut, leavesOutAMiddleJarThatTheNoseFaults) {
  std::vector<Jar> jars = usual_jars();
  EXPECT_EQ(share_in_hearts(jars, best(propose(jars, for_purpose("clean"))), 6), 1.0);
  jars[6].fault = 9.0;
  const Alternative without = best(propose(jars, for_purpose("clean")));
  EXPECT_EQ(share_in_hearts(jars, without, 6), 0.0);
  EXPECT_EQ(share_in_hearts(jars, without, 5), 1.0);
  EXPECT_EQ(share_in_hearts(jars, without, 7), 1.0);
}

TEST(ProposeCut, meetsAWishedAmount) {
  const std::vector<Jar> jars = usual_jars();
  for (const double litres : {0.05, 1.0, 4.0, 9.5}) {
    Wishes wishes = for_purpose("clean");
    wishes.hearts = Volume::litres(litres);
    EXPECT_NEAR(best(propose(jars, wishes)).outcome.hearts.volume.litres(), litres, 1e-9);
    wishes.hearts.reset();
    wishes.pure_alcohol = Volume::litres(0.5 * litres);
    EXPECT_NEAR(best(propose(jars, wishes)).outcome.hearts.pure_alcohol.litres(), 0.5 * litres,
                1e-10);
  }
}

TEST(ProposeCut, meetsWishedStrengths) {
  const std::vector<Jar> jars = usual_jars();
  Wishes wishes = for_purpose("fuller");
  wishes.hearts_at_least = VolumeStrength::percent(70.0);
  const Alternative strong = best(propose(jars, wishes));
  EXPECT_NEAR(strong.outcome.hearts.strength.percent(), 70.0, 1e-7);
  wishes = for_purpose("clean");
  wishes.hearts_at_most = VolumeStrength::percent(62.0);
  EXPECT_NEAR(best(propose(jars, wishes)).outcome.hearts.strength.percent(), 62.0, 1e-7);
  wishes.hearts_at_least = VolumeStrength::percent(61.9);
  EXPECT_NEAR(best(propose(jars, wishes)).outcome.hearts.strength.percent(), 62.0, 1e-7);
  wishes = for_purpose("fuller");
  wishes.jars_at_least = VolumeStrength::percent(60.0);
  const Alternative ended = best(propose(jars, wishes));
  for (std::size_t i = 0; i < jars.size(); ++i) {
    const bool weak = jars[i].strength < *wishes.jars_at_least;
    EXPECT_TRUE(!weak || ended.allotment[i].hearts == Volume{}) << i;
  }
}

TEST(ProposeCut, saysWhatCannotBe) {
  const auto plain = [](const char* label, double litres, double percent) {
    const Load load{units::Mass::grams(litres), units::Mass::grams(litres),
                    units::Mass::grams(litres)};
    return Jar{label, Volume::litres(litres), VolumeStrength::percent(percent), load, load,
               load};
  };
  const std::vector<Jar> jars{plain("1", 0.1, 76.0), plain("2", 5.0, 74.5),
                              plain("3", 4.0, 74.5)};
  const auto message = [&](const Wishes& wishes) {
    try {
      (void)propose(jars, wishes);
    } catch (const base::InputError& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  Wishes wishes = for_purpose("clean");
  wishes.hearts = Volume::litres(12.0);
  EXPECT_THAT(message(wishes),
              HasSubstr("hearts is \"12 L\"; accepted: a volume above zero, to "
                        "the 9.000 L there is for the hearts"));
  wishes = for_purpose("clean");
  wishes.pure_alcohol = Volume::litres(-1.0);
  EXPECT_THAT(message(wishes), HasSubstr("pure_alcohol is \"-1 L\""));
  wishes = for_purpose("clean");
  wishes.hearts_at_least = VolumeStrength::percent(80.0);
  EXPECT_THAT(message(wishes), HasSubstr("to 74.50 %vol, that of the strongest jar open"));
  wishes = for_purpose("clean");
  wishes.hearts_at_most = VolumeStrength::percent(5.0);
  EXPECT_THAT(message(wishes), HasSubstr("that of the weakest jar open"));
  wishes.hearts_at_most = VolumeStrength::percent(74.55);
  wishes.hearts_at_least = VolumeStrength::percent(74.5);
  EXPECT_THAT(message(wishes), HasSubstr("hearts_at_least is \"74.5 %vol\"; accepted: at least "
                                         "0.1 %vol below the 74.55 %vol that they may have"));
  wishes = for_purpose("clean");
  wishes.jars_at_least = VolumeStrength::percent(80.0);
  EXPECT_THAT(message(wishes),
              HasSubstr("jars_at_least is \"80 %vol\"; accepted: at most 74.50"));
  wishes = for_purpose("clean");
  wishes.weights.late = -1.0;
  wishes.weights.volume = 0.0;
  EXPECT_THAT(message(wishes),
              HasSubstr("weights.volume is \"0\"; accepted: a weight above 0"));
  wishes = for_purpose("clean");
  wishes.weights.late = 50.0;
  EXPECT_THAT(message(wishes), HasSubstr("the cleanest spirit here loses that much"));
  EXPECT_THAT([&] { (void)propose({jars[0]}, for_purpose("clean")); },
              ThrowsMessage<base::InputError>(HasSubstr("at least one besides the foreshots")));
  EXPECT_THAT(
      [] { (void)purpose("bright"); },
      ThrowsMessage<base::InputError>(HasSubstr("\"clean\" (clean, for quick ageing)")));
}

TEST(ProposeCut, isTheBestOfAGrid) {
  // Three jars open: hundredths of each tried, against every weight.
  std::vector<Jar> jars = usual_jars();
  jars = {jars[0], jars[1], jars[8], jars[13]};
  for (const double late : {0.5, 1.0, 2.0}) {
    Wishes wishes = for_purpose("clean");
    wishes.weights.late = late;
    const CutProposal p = propose(jars, wishes);
    double top = 0.0;
    for (int a = 0; a <= 50; ++a) {
      for (int b = 0; b <= 50; ++b) {
        for (int c = 0; c <= 50; ++c) {
          top = std::max(
              top, worth_L(jars, {0.0, a / 50.0, b / 50.0, c / 50.0}, wishes, p.yardstick));
        }
      }
    }
    EXPECT_GE(best(p).worth.litres(), top - 1e-8);
    // A grid of this width comes as near as its width squared times the curvature.
    EXPECT_LE(best(p).worth.litres(), top * 1.001);
  }
}

RC_GTEST_PROP(ProposeCut, isNotBeatenByAHandAtRandom, ()) {
  const std::vector<Jar> jars = any_jars(2, 12);
  Wishes wishes;
  wishes.weights = {any_figure(0.5, 3.0), any_figure(0.0, 0.1), any_figure(0.0, 0.6),
                    any_figure(0.0, 0.6), any_figure(0.0, 1.0)};
  std::optional<CutProposal> found;
  try {
    found = propose(jars, wishes);
  } catch (const base::InputError& error) {
    // Weights may leave no jar its worth.
    RC_ASSERT(error.faults().front().field == "weights");
    RC_DISCARD();
  }
  const Alternative& top = best(*found);
  std::mt19937 random(*rc::gen::arbitrary<std::uint32_t>());
  std::vector<double> here;
  for (std::size_t i = 0; i < jars.size(); ++i) here.push_back(share_in_hearts(jars, top, i));
  std::uniform_real_distribution<double> any(0.0, 1.0);
  for (int k = 0; k < 200; ++k) {
    // Anywhere, and near what was found.
    std::vector<double> shares(jars.size(), 0.0);
    const double far = k % 2 == 0 ? 1.0 : 0.02;
    for (std::size_t i = 1; i < jars.size(); ++i) {
      shares[i] = std::clamp(here[i] + far * (any(random) - here[i]), 0.0, 1.0);
      if (k % 3 == 0) shares[i] = std::round(shares[i]);
    }
    if (std::accumulate(shares.begin(), shares.end(), 0.0) <= 0.0) continue;
    RC_ASSERT(worth_L(jars, shares, wishes, found->yardstick) <=
              top.worth.litres() + 1e-7 * top.outcome.hearts.pure_alcohol.litres());
  }
}

RC_GTEST_PROP(ProposeCut, keepsItsLimitsOfStrength, ()) {
  const std::vector<Jar> jars = any_jars(3, 12);
  Wishes wishes;
  wishes.weights = {1.0, 0.0, 0.05, 0.05, 0.0};
  double weakest = 100.0, strongest = 0.0;
  for (std::size_t i = 1; i < jars.size(); ++i) {
    weakest = std::min(weakest, jars[i].strength.percent());
    strongest = std::max(strongest, jars[i].strength.percent());
  }
  const double low = weakest + any_figure(0.02, 0.98) * (strongest - weakest);
  const double high = low + 0.11 + any_figure(0.0, 20.0);
  wishes.hearts_at_least = VolumeStrength::percent(low);
  wishes.hearts_at_most = VolumeStrength::percent(high);
  std::optional<CutProposal> found;
  try {
    found = propose(jars, wishes);
  } catch (const base::InputError& error) {
    RC_ASSERT(error.faults().front().field == "weights");
    RC_DISCARD();
  }
  for (const Alternative& a : found->alternatives) {
    RC_ASSERT(a.outcome.hearts.strength.percent() >= low - 1e-6);
    RC_ASSERT(a.outcome.hearts.strength.percent() <= high + 1e-6);
  }
}

RC_GTEST_PROP(ProposeCut, showsOnlyWhatIsNotDominated, ()) {
  const std::vector<Jar> jars = any_jars(2, 15);
  Wishes wishes = for_purpose("fuller");
  wishes.weights.late = any_figure(0.1, 1.0);
  std::optional<CutProposal> found;
  try {
    found = propose(jars, wishes);
  } catch (const base::InputError&) {
    RC_DISCARD();
  }
  RC_ASSERT(found->recommended < found->alternatives.size());
  RC_ASSERT(found->alternatives.size() <= 5U);
  for (std::size_t i = 1; i < found->alternatives.size(); ++i) {
    const Alternative& less = found->alternatives[i - 1];
    const Alternative& more = found->alternatives[i];
    RC_ASSERT(more.outcome.hearts.pure_alcohol > less.outcome.hearts.pure_alcohol);
    RC_ASSERT(more.deduction > less.deduction);
    RC_ASSERT(std::min(more.worth, less.worth) <= best(*found).worth);
  }
}

// With one weight changed alone, what it weighs on can only fall where the weight rises: from
// two optima, each best under its own weight.
RC_GTEST_PROP(ProposeCut, takesNoMoreLateLoadWhenItWeighsMore, ()) {
  const std::vector<Jar> jars = any_jars(3, 15);
  Wishes light = for_purpose("fuller");
  light.weights.fault = 0.0;
  light.weights.late = any_figure(0.05, 0.5);
  Wishes heavy = light;
  heavy.weights.late += any_figure(0.05, 1.0);
  std::optional<Alternative> with_light, with_heavy;
  try {
    with_light = best(propose(jars, light));
    with_heavy = best(propose(jars, heavy));
  } catch (const base::InputError&) {
    RC_DISCARD();
  }
  // What the weight multiplies: load squared over alcohol.
  const auto burden = [](const Alternative& a) {
    const double g = a.outcome.hearts.late.mass.grams();
    return g * g / a.outcome.hearts.pure_alcohol.litres();
  };
  RC_ASSERT(burden(*with_heavy) <= burden(*with_light) * (1.0 + 1e-6) + 1e-9);
}

RC_GTEST_PROP(ProposeCut, doesNotHangOnTheOrderOfTheFile, ()) {
  const std::vector<Jar> jars = any_jars(2, 12);
  std::vector<std::size_t> order(jars.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::shuffle(order.begin(), order.end(), std::mt19937(*rc::gen::arbitrary<std::uint32_t>()));
  std::vector<Jar> turned;
  for (const std::size_t i : order) turned.push_back(jars[i]);
  Wishes wishes = for_purpose("fuller");
  wishes.weights.late = 0.3;
  std::optional<CutProposal> one, other;
  try {
    one = propose(jars, wishes);
    other = propose(turned, wishes);
  } catch (const base::InputError&) {
    RC_DISCARD();
  }
  RC_ASSERT(one->alternatives.size() == other->alternatives.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    RC_ASSERT(std::abs(share_in_hearts(turned, best(*other), i) -
                       share_in_hearts(jars, best(*one), order[i])) <= 1e-6);
  }
}

// Jars of one load, as two that carry none: which of them the file names first says nothing of
// the middle drop.
TEST(ProposeCut, doesNotHangOnWhichOfTwoAlikeComesFirst) {
  const auto jar = [](const char* label, double litres, double percent, double late_g) {
    const auto load = [](double g) {
      return Load{units::Mass::grams(g), units::Mass::grams(g), units::Mass::grams(g)};
    };
    Jar made;
    made.label = label;
    made.volume = Volume::litres(litres);
    made.strength = VolumeStrength::percent(percent);
    made.early = made.middle = load(0.0);
    made.late = load(late_g);
    return made;
  };
  Jar foreshots = jar("1", 0.1, 15.0, 0.0);
  foreshots.use = Use::foreshots;
  const Jar clean = jar("2", 0.1171, 16.89, 0.0);
  const Jar loaded = jar("3", 0.1, 15.07, 1e-3);
  const std::vector<Jar> one{foreshots, clean, loaded}, other{clean, foreshots, loaded};
  const Wishes fuller = for_purpose("fuller");
  const CutProposal a = propose(one, fuller), b = propose(other, fuller);
  EXPECT_NEAR(a.yardstick.late.grams_per_litre(), b.yardstick.late.grams_per_litre(), 1e-12);
  EXPECT_NEAR(share_in_hearts(one, best(a), 2), share_in_hearts(other, best(b), 2), 1e-6);
}

// Twice the run cuts at the same place: the worth has no size of its own.
TEST(ProposeCut, doesNotHangOnTheSizeOfTheRun) {
  const std::vector<Jar> jars = usual_jars();
  std::vector<Jar> twice = jars;
  for (Jar& jar : twice) {
    jar.volume = jar.volume * 2.0;
    jar.early = *jar.early * 2.0;
    jar.middle = *jar.middle * 2.0;
    jar.late = *jar.late * 2.0;
  }
  const Alternative a = best(propose(jars, for_purpose("clean")));
  const Alternative b = best(propose(twice, for_purpose("clean")));
  for (std::size_t i = 0; i < jars.size(); ++i) {
    EXPECT_NEAR(share_in_hearts(jars, a, i), share_in_hearts(twice, b, i), 1e-6);
  }
}

}  // namespace
}  // namespace lynearm::still
