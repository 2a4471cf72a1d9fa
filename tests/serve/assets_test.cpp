#include "serve/assets.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace lynearm::serve {
namespace {

const std::vector<Asset> files{
    {"/assets/page-3fk29dAb.js", "text/javascript", "t1", "let a = 1;", "packed", true},
    {"/index.html", "text/html; charset=utf-8", "t2", "<p>page</p>", "", false},
};

Reply ask(std::string path, Pairs headers = {}) {
  Request request;
  request.method = "GET";
  request.path = std::move(path);
  request.headers = std::move(headers);
  return Assets{files}.answer(request);
}

std::string header(const Reply& reply, std::string_view name) {
  return std::string{value_of(reply.headers, name).value_or("")};
}

TEST(Assets, WithAHashInTheirNameAreKeptForEver) {
  const Reply reply = ask("/assets/page-3fk29dAb.js");
  EXPECT_EQ(reply.status, 200);
  EXPECT_EQ(reply.body, "let a = 1;");
  EXPECT_EQ(reply.content_type, "text/javascript");
  EXPECT_EQ(header(reply, "Cache-Control"), "public, max-age=31536000, immutable");
  EXPECT_EQ(header(ask("/index.html"), "Cache-Control"), "no-cache");
}

TEST(Assets, AreSentPackedToWhoTakesIt) {
  const Reply reply = ask("/assets/page-3fk29dAb.js", {{"accept-encoding", "br, gzip"}});
  EXPECT_EQ(reply.body, "packed");
  EXPECT_EQ(header(reply, "Content-Encoding"), "gzip");
  EXPECT_EQ(header(reply, "Vary"), "Accept-Encoding");
  EXPECT_EQ(ask("/index.html", {{"accept-encoding", "gzip"}}).body, "<p>page</p>");
}

TEST(Assets, AreNotSentAgainToWhoHasThem) {
  const Reply plain = ask("/assets/page-3fk29dAb.js", {{"if-none-match", "\"t0\", \"t1\""}});
  EXPECT_EQ(plain.status, 304);
  EXPECT_EQ(plain.body, "");
  // What was kept packed is another representation.
  EXPECT_EQ(ask("/assets/page-3fk29dAb.js", {{"if-none-match", "\"t1-gz\""}}).status, 200);
  EXPECT_EQ(ask("/assets/page-3fk29dAb.js",
                {{"if-none-match", "W/\"t1-gz\""}, {"accept-encoding", "gzip"}})
                .status,
            304);
}

TEST(Assets, AnyPlaceWithinThePageIsThePage) {
  EXPECT_EQ(ask("/").body, "<p>page</p>");
  EXPECT_EQ(ask("/batch/7/mash").body, "<p>page</p>");
  EXPECT_EQ(ask("/assets/gone.js").status, 404);
  EXPECT_EQ(ask("/favicon.ico").status, 404);
}

TEST(Encoding, IsReadWithItsWeights) {
  EXPECT_TRUE(takes_gzip("gzip"));
  EXPECT_TRUE(takes_gzip("deflate , gzip;q=0.5"));
  EXPECT_FALSE(takes_gzip("gzip;q=0"));
  EXPECT_FALSE(takes_gzip("gzip; q=0.000"));
  EXPECT_FALSE(takes_gzip("br"));
  EXPECT_FALSE(takes_gzip(""));
}

TEST(EmbeddedAssets, HoldThePageSortedAndWhole) {
  const auto& assets = embedded_assets();
  ASSERT_FALSE(assets.empty());
  EXPECT_TRUE(std::is_sorted(assets.begin(), assets.end(),
                             [](const Asset& a, const Asset& b) { return a.path < b.path; }));
  Request request;
  request.path = "/";
  const Reply page = Assets{assets}.answer(request);
  EXPECT_EQ(page.status, 200);
  EXPECT_THAT(page.body, testing::StartsWith("<!doctype html>"));
  EXPECT_THAT(page.body, testing::HasSubstr("</html>"));
}

}  // namespace
}  // namespace lynearm::serve
