#include "serve/target.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>

namespace lynearm::serve {
namespace {

TEST(Target, IsReadIntoPathAndQuery) {
  const auto target = read_target("/api/v1/batches/tern%207?units=us&at=10+lb&bare&a=%26%3D");
  ASSERT_TRUE(target);
  EXPECT_EQ(target->path, "/api/v1/batches/tern 7");
  EXPECT_EQ(target->segments, (std::vector<std::string>{"api", "v1", "batches", "tern 7"}));
  const Pairs query{{"units", "us"}, {"at", "10 lb"}, {"bare", ""}, {"a", "&="}};
  EXPECT_EQ(target->query, query);
}

TEST(Target, ASlashThatIsEscapedDoesNotPartSegments) {
  const auto target = read_target("/a%2Fb/c");
  ASSERT_TRUE(target);
  EXPECT_EQ(target->segments, (std::vector<std::string>{"a/b", "c"}));
}

TEST(Target, OfTheRootHasNoSegments) {
  const auto target = read_target("/");
  ASSERT_TRUE(target);
  EXPECT_EQ(target->path, "/");
  EXPECT_TRUE(target->segments.empty());
}

TEST(Target, ThatIsNotPlainIsRefused) {
  for (const char* text : {"",
                           "a",
                           "http://other/",
                           "*",
                           "//other/a",
                           "/a//b",
                           "/..",
                           "/a/../b",
                           "/%2e%2E/b",
                           "/.",
                           "/a%",
                           "/a%2",
                           "/a%zz",
                           "/%00",
                           "/a%0Ab",
                           "/%7f",
                           "/%ff",
                           "/%c0%af",
                           "/%ed%a0%80",
                           "/a?b=%0D",
                           "/a?%",
                           "/a?b=%f5%80%80%80"}) {
    EXPECT_FALSE(read_target(text)) << text;
  }
  EXPECT_FALSE(read_target("/" + std::string(9000, 'a')));
  std::string deep;
  for (int i = 0; i < 65; ++i) deep += "/a";
  EXPECT_FALSE(read_target(deep));
  std::string wide = "/?";
  for (int i = 0; i < 65; ++i) wide += "a=b&";
  EXPECT_FALSE(read_target(wide));
}

TEST(Target, OfALogHasNoQuery) {
  EXPECT_EQ(path_part("/pair?code=secret"), "/pair");
  EXPECT_EQ(path_part("/pair"), "/pair");
}

TEST(Utf8, IsWellFormedOrNot) {
  EXPECT_TRUE(is_utf8("20 °C, ½, 酒, 🌾"));
  EXPECT_FALSE(is_utf8("\x80"));
  EXPECT_FALSE(is_utf8("a\xC3"));
  EXPECT_FALSE(is_utf8("\xF4\x90\x80\x80"));
}

/// Escaped or not, whatever is read is UTF-8 without control characters, and no way upwards.
RC_GTEST_PROP(Target, NeverHoldsWhatCouldLeadAstray, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(
      rc::gen::element<std::string>("/", ".", "..", "%2e", "%2F", "%00", "%c3%a9", "a", "%",
                                    "?", "=", "&", "+", "%0a", "\xC3"));
  std::string text = "/";
  for (const auto& piece : pieces) text += piece;
  const auto target = read_target(text);
  if (!target) return;
  for (const auto& segment : target->segments) {
    RC_ASSERT(!segment.empty());
    RC_ASSERT(segment != "." && segment != "..");
    RC_ASSERT(is_utf8(segment));
    RC_ASSERT(segment.find('\0') == std::string::npos);
    RC_ASSERT(segment.find('\n') == std::string::npos);
  }
}

}  // namespace
}  // namespace lynearm::serve
