#include "base/source.hpp"

#include <gtest/gtest.h>

#include <set>

namespace lynearm::base {
namespace {

TEST(Source, EachStandingHasItsOwnWords) {
  std::set<std::string_view> seen;
  for (const Standing standing : {Standing::published, Standing::common_practice,
                                  Standing::from_memory, Standing::our_estimate}) {
    EXPECT_FALSE(words(standing).empty());
    EXPECT_TRUE(seen.insert(words(standing)).second) << words(standing);
  }
  static_assert(words(Standing::common_practice) == "common practice, no source");
}

TEST(Source, IsPublishedUnlessItSaysOtherwise) {
  EXPECT_EQ((Source{"OIML R 22 (1973), Table I"}.standing), Standing::published);
}

}  // namespace
}  // namespace lynearm::base
