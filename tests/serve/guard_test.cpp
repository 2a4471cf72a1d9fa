#include "serve/guard.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "serve/host.hpp"

namespace lynearm::serve {
namespace {

Request request(std::string method, std::string path, Pairs headers) {
  Request made;
  made.method = std::move(method);
  made.path = std::move(path);
  made.headers = std::move(headers);
  made.peer = {"192.168.1.20", "192.168.1.5", false};
  return made;
}

int status(const Guard& guard, const Request& asked) {
  const auto refusal = guard.refusal(asked, asked.path);
  return refusal ? refusal->status : 0;
}

TEST(Host, IsTakenApart) {
  EXPECT_EQ(read_host("House.Local:8420")->name, "house.local");
  EXPECT_EQ(read_host("House.Local:8420")->port, "8420");
  EXPECT_EQ(read_host("[::1]:80")->name, "::1");
  EXPECT_TRUE(read_host("[0:0::1]")->literal);
  EXPECT_EQ(read_host("[0:0::1]")->name, "::1");
  EXPECT_TRUE(read_host("192.168.1.5")->literal);
  for (const char* text : {"", ":80", "a:", "a:b", "a:123456", "a b", "[::1", "::1", "[a]",
                           "a@b", "[::1]80", "a/b", "[127.0.0.1]"}) {
    EXPECT_FALSE(read_host(text)) << text;
  }
}

TEST(Guard, LetsInUnderTheHousesOwnNames) {
  const Guard guard{{"tern.local"}, false};
  for (const char* host : {"127.0.0.1:8420", "localhost:8420", "[::1]:8420", "LOCALHOST",
                           "tern.local:8420", "192.168.1.5:8420"}) {
    EXPECT_EQ(status(guard, request("GET", "/", {{"host", host}})), 0) << host;
  }
}

TEST(Guard, KeepsOutANameThatWasBentToTheHouse) {
  const Guard guard{{"tern.local"}, false};
  for (const char* host :
       {"elsewhere.example", "localhost.elsewhere.example", "192.168.1.6:8420",
        "127.0.0.1.elsewhere.example", "127.0.0.2", "2130706433", ""}) {
    EXPECT_EQ(status(guard, request("GET", "/api/v1/batches", {{"host", host}})), 421) << host;
  }
}

TEST(Guard, WantsExactlyOneHost) {
  const Guard guard{{}, false};
  EXPECT_EQ(status(guard, request("GET", "/", {})), 400);
  EXPECT_EQ(status(guard, request("GET", "/", {{"host", "localhost"}, {"host", "localhost"}})),
            400);
}

TEST(Guard, RefusesToChangeAnythingForAnotherSite) {
  const Guard guard{{}, false};
  const auto from = [&](const char* method, const char* origin) {
    return status(guard, request(method, "/api/v1/batches",
                                 {{"host", "127.0.0.1:8420"}, {"origin", origin}}));
  };
  for (const char* method : {"POST", "PUT", "PATCH", "DELETE", "OPTIONS"}) {
    EXPECT_EQ(from(method, "http://127.0.0.1:8420"), 0) << method;
    EXPECT_EQ(from(method, "http://elsewhere.example"), 403) << method;
    EXPECT_EQ(from(method, "http://127.0.0.1:3000"), 403) << method;
    EXPECT_EQ(from(method, "https://127.0.0.1:8420"), 403) << method;
    EXPECT_EQ(from(method, "http://localhost:8420"), 403) << method;
    EXPECT_EQ(from(method, "null"), 403) << method;
  }
  EXPECT_EQ(from("GET", "http://elsewhere.example"), 0);  // nothing to read: see dress()
}

TEST(Guard, RefusesAStreamToAnotherSite) {
  const Guard guard{{}, false};
  EXPECT_EQ(status(guard, request("GET", "/api/v1/events",
                                  {{"host", "localhost:8420"},
                                   {"accept", "text/event-stream"},
                                   {"origin", "http://localhost:9000"}})),
            403);
}

TEST(Guard, KnowsItsOriginUnderTls) {
  const Guard guard{{}, true};
  const auto from = [&](const char* origin) {
    Request asked =
        request("POST", "/api/v1/batches", {{"host", "192.168.1.5:8420"}, {"origin", origin}});
    asked.peer.sealed = true;
    return status(guard, asked);
  };
  EXPECT_EQ(from("https://192.168.1.5:8420"), 0);
  EXPECT_EQ(from("http://192.168.1.5:8420"), 403);
}

TEST(Guard, UnderTlsSendsThereWhoeverAsksInPlain) {
  const Guard guard{{}, true};
  const Pairs ours{{"host", "192.168.1.5:8420"}};
  const auto there = guard.refusal(request("GET", "/pair", ours), "/pair?a=1");
  ASSERT_TRUE(there);
  EXPECT_EQ(there->status, 307);
  EXPECT_EQ(value_of(there->headers, "Location"), "https://192.168.1.5:8420/pair?a=1");
  // What would change something was said in the open, and is not to be said so again.
  const auto refused =
      guard.refusal(request("POST", "/api/v1/entries", ours), "/api/v1/entries");
  ASSERT_TRUE(refused);
  EXPECT_EQ(refused->status, 400);
  EXPECT_FALSE(value_of(refused->headers, "Location"));
  EXPECT_EQ(status(guard, request("GET", "/", {{"host", "elsewhere.example"}})), 421);
}

TEST(Guard, RefusesCrossSiteRequestsButLetsALinkBeFollowed) {
  const Guard guard{{}, false};
  const auto ask = [&](const char* path, const char* site, const char* mode) {
    return status(guard, request("GET", path,
                                 {{"host", "localhost"},
                                  {"sec-fetch-site", site},
                                  {"sec-fetch-mode", mode},
                                  {"sec-fetch-dest", "document"}}));
  };
  EXPECT_EQ(ask("/", "cross-site", "navigate"), 0);
  EXPECT_EQ(ask("/", "cross-site", "no-cors"), 403);
  EXPECT_EQ(ask("/api/v1/batches", "cross-site", "navigate"), 403);
  EXPECT_EQ(ask("/api/v1/batches", "same-site", "cors"), 403);
  EXPECT_EQ(ask("/api/v1/batches", "same-origin", "cors"), 0);
  EXPECT_EQ(ask("/api/v1/batches", "none", "navigate"), 0);
}

TEST(Guard, SaysWithEveryReplyWhatAPageMayLoad) {
  const Guard guard{{}, false};
  Reply reply = json("{}");
  guard.dress(reply);
  EXPECT_EQ(value_of(reply.headers, "Cache-Control"), "no-store");
  EXPECT_EQ(value_of(reply.headers, "X-Content-Type-Options"), "nosniff");
  EXPECT_EQ(value_of(reply.headers, "Referrer-Policy"), "no-referrer");
  EXPECT_EQ(value_of(reply.headers, "Cross-Origin-Resource-Policy"), "same-origin");
  const auto policy = value_of(reply.headers, "Content-Security-Policy").value_or("");
  EXPECT_NE(policy.find("default-src 'none'"), std::string_view::npos);
  EXPECT_NE(policy.find("frame-ancestors 'none'"), std::string_view::npos);
  EXPECT_EQ(policy.find("unsafe"), std::string_view::npos);
  Reply kept = json("{}");
  kept.headers.emplace_back("Cache-Control", "max-age=60");
  guard.dress(kept);
  EXPECT_EQ(value_of(kept.headers, "Cache-Control"), "max-age=60");
}

TEST(Guard, RefusesANameThatIsNone) {
  EXPECT_THROW(Guard({"tern.local:80"}, false), base::InputError);
  EXPECT_THROW(Guard({"a b"}, false), base::InputError);
}

}  // namespace
}  // namespace lynearm::serve
