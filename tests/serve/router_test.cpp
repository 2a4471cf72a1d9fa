#include "serve/router.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"

namespace lynearm::serve {
namespace {

Handler saying(std::string text) {
  return [text = std::move(text)](const Request&) { return json(text); };
}

std::string said(const Router& router, std::string_view method, std::string_view path) {
  const Match match = router.find(method, *read_target(path));
  return match.route == nullptr ? "" : match.route->handler({}).body;
}

class Routes : public testing::Test {
 protected:
  Routes() {
    router.on("GET", "/api/v1/batches", saying("list"))
        .on("GET", "/api/v1/batches/{batch}", saying("one"))
        .on("GET", "/api/v1/batches/demo", saying("demo"))
        .on("GET", "/api/v1/batches/{batch}/entries", saying("entries"))
        .on("POST", "/api/v1/batches/{batch}/entries", saying("append"))
        .otherwise(saying("page"));
  }
  Router router;
};

TEST_F(Routes, FindTheHandlerByMethodAndPath) {
  EXPECT_EQ(said(router, "GET", "/api/v1/batches"), "list");
  EXPECT_EQ(said(router, "GET", "/api/v1/batches/7"), "one");
  EXPECT_EQ(said(router, "GET", "/api/v1/batches/7/entries"), "entries");
  EXPECT_EQ(said(router, "POST", "/api/v1/batches/7/entries"), "append");
}

TEST_F(Routes, PreferALiteralToAParameter) {
  EXPECT_EQ(said(router, "GET", "/api/v1/batches/demo"), "demo");
  EXPECT_EQ(said(router, "GET", "/api/v1/batches/demo/entries"), "entries");
}

TEST_F(Routes, HandOverWhatStandsForAParameter) {
  const Match match = router.find("POST", *read_target("/api/v1/batches/tern%2F7/entries"));
  EXPECT_EQ(match.parameters, (Pairs{{"batch", "tern/7"}}));
}

TEST_F(Routes, TellTheMethodsOfAPathThatIsKnown) {
  const Match match = router.find("DELETE", *read_target("/api/v1/batches/7/entries"));
  EXPECT_EQ(match.route, nullptr);
  EXPECT_EQ(match.allowed, "GET, HEAD, POST");
}

TEST_F(Routes, LeaveAnUnknownPathOfTheApiUnknown) {
  const Match match = router.find("GET", *read_target("/api/v1/vats"));
  EXPECT_EQ(match.route, nullptr);
  EXPECT_EQ(match.allowed, "");
}

TEST_F(Routes, GiveThePageForAnyOtherPath) {
  EXPECT_EQ(said(router, "GET", "/batch/7/mash"), "page");
  EXPECT_EQ(said(router, "GET", "/"), "page");
  EXPECT_EQ(router.find("POST", *read_target("/batch/7")).allowed, "GET, HEAD");
}

TEST_F(Routes, AreGivenOnce) {
  EXPECT_THROW(router.on("GET", "/api/v1/batches", saying("again")), base::BrokenInvariant);
  EXPECT_THROW(router.on("GET", "no-slash", saying("")), base::BrokenInvariant);
}

}  // namespace
}  // namespace lynearm::serve
