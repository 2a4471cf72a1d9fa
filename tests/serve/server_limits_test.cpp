// A running server under pressure: what is too long, too slow, too often or too many.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <future>

#include "serve/open_house.hpp"

namespace lynearm::serve {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;
using testing::HasSubstr;

void fill(Router& router, OpenHouse&) {
  Terms small;
  small.greatest_body = 1000;
  Terms picture;
  picture.greatest_body = std::size_t{4} * 1024 * 1024;
  picture.content_type = "";
  const Handler length = [](const Request& request) {
    return json(std::to_string(request.body.size()));
  };
  router.on("POST", "/api/v1/small", length, small)
      .on("POST", "/api/v1/picture", length, picture);
}

TEST(ServerLimits, ABodyTooLongIsRefusedBeforeItIsRead) {
  OpenHouse house{fill};
  EXPECT_EQ(house.visitor().post("/api/v1/small", std::string(1000, ' ')).body, "1000");
  Visitor visitor = house.visitor();
  visitor.send(
      "POST /api/v1/small HTTP/1.1\r\nHost: localhost\r\n"
      "Content-Type: application/json\r\nContent-Length: 99999999999\r\n\r\n");
  const Answer answer = visitor.receive();
  EXPECT_EQ(answer.status, 413);
  EXPECT_EQ(answer.header("Content-Type"), "application/problem+json");
  EXPECT_THAT(answer.body, HasSubstr("1000 bytes"));
}

TEST(ServerLimits, TheRefusalReachesAClientThatGoesOnSending) {
  OpenHouse house{fill};
  const Answer answer = house.visitor().post("/api/v1/small", std::string(3'000'000, ' '));
  EXPECT_EQ(answer.status, 413);
}

TEST(ServerLimits, ABodyInChunksIsHeldToTheSameLength) {
  OpenHouse house{fill};
  Visitor visitor = house.visitor();
  visitor.send(
      "POST /api/v1/small HTTP/1.1\r\nHost: localhost\r\n"
      "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"
      "7d0\r\n" +
      std::string(2000, ' ') + "\r\n0\r\n\r\n");
  EXPECT_EQ(visitor.receive().status, 413);
}

TEST(ServerLimits, EachRouteHasItsOwnGreatestBody) {
  OpenHouse house{fill};
  EXPECT_EQ(house.visitor().post("/api/v1/picture", std::string(3'000'000, 'x')).body,
            "3000000");
}

TEST(ServerLimits, AHeadTooLongIsRefused) {
  OpenHouse house{fill};
  Visitor visitor = house.visitor();
  visitor.send("GET /healthz HTTP/1.1\r\nHost: localhost\r\nX: " + std::string(20'000, 'a') +
               "\r\n\r\n");
  EXPECT_EQ(visitor.receive().status, 431);
}

TEST(ServerLimits, AStalledConnectionIsDropped) {
  OpenHouse house{fill, [](Options& options) {
                    options.limits.header_time = milliseconds{150};
                    options.limits.body_time = milliseconds{150};
                    options.limits.idle = milliseconds{400};
                  }};
  Visitor in_head = house.visitor();
  in_head.send("GET /healthz HT");
  Visitor in_body = house.visitor();
  in_body.send(
      "POST /api/v1/small HTTP/1.1\r\nHost: localhost\r\n"
      "Content-Type: application/json\r\nContent-Length: 100\r\n\r\n{");
  Visitor silent = house.visitor();
  EXPECT_TRUE(in_head.is_closed(seconds{5}));
  EXPECT_TRUE(in_body.is_closed(seconds{5}));
  EXPECT_TRUE(silent.is_closed(seconds{5}));
}

TEST(ServerLimits, ADripOfBytesDoesNotBuyMoreTime) {
  OpenHouse house{fill,
                  [](Options& options) { options.limits.header_time = milliseconds{300}; }};
  Visitor visitor = house.visitor();
  const auto begin = std::chrono::steady_clock::now();
  visitor.send("GET /healthz HTTP/1.1\r\nX: ");
  bool closed = false;
  while (!closed && std::chrono::steady_clock::now() - begin < seconds{5}) {
    visitor.send("a");
    closed = visitor.is_closed(milliseconds{50});
  }
  EXPECT_TRUE(closed);
}

TEST(ServerLimits, APeerThatAsksTooFastIsToldToWait) {
  OpenHouse house{fill, [](Options& options) {
                    options.limits.requests_a_second = 1;
                    options.limits.burst = 3;
                  }};
  Visitor visitor = house.visitor();
  for (int i = 0; i < 3; ++i) EXPECT_EQ(visitor.get("/healthz").status, 200);
  const Answer answer = visitor.get("/healthz");
  EXPECT_EQ(answer.status, 429);
  EXPECT_EQ(answer.header("Retry-After"), "1");
}

TEST(ServerLimits, APeerHasOnlySoManyConnections) {
  OpenHouse house{fill, [](Options& options) { options.limits.connections_a_peer = 3; }};
  std::vector<Visitor> visitors;
  for (int i = 0; i < 3; ++i) {
    visitors.push_back(house.visitor());
    EXPECT_EQ(visitors.back().get("/healthz").status, 200);
  }
  EXPECT_TRUE(house.visitor().is_closed(seconds{5}));
  EXPECT_EQ(visitors.front().get("/healthz").status, 200);
  visitors.pop_back();
  int status = 0;  // the server learns of the leaving a moment later
  for (int i = 0; i < 200 && status != 200; ++i) {
    status = house.visitor().get("/healthz").status;
    std::this_thread::sleep_for(milliseconds{10});
  }
  EXPECT_EQ(status, 200);
}

TEST(ServerLimits, SlowWorkDoesNotHoldUpQuickWork) {
  std::promise<void> release;
  const std::shared_future<void> released = release.get_future().share();
  std::atomic<int> slow_running = 0;
  OpenHouse house{[&](Router& router, OpenHouse&) {
                    Terms slow;
                    slow.lane = Lane::slow;
                    router.on(
                        "POST", "/api/v1/plan",
                        [&, released](const Request&) {
                          ++slow_running;
                          released.wait();
                          return json("{}");
                        },
                        slow);
                    router.on("POST", "/api/v1/entries",
                              [](const Request&) { return json("{}"); });
                  },
                  [](Options& options) {
                    options.slow_threads = 2;
                    options.limits.slow_waiting = 3;
                  }};
  const std::string plan =
      "POST /api/v1/plan HTTP/1.1\r\nHost: localhost\r\n"
      "Content-Type: application/json\r\nContent-Length: 2\r\n\r\n{}";
  std::vector<Visitor> planning;
  const auto ask = [&] {
    planning.push_back(house.visitor());
    planning.back().send(plan);
  };
  ask();
  ask();
  while (slow_running < 2) std::this_thread::sleep_for(milliseconds{1});
  for (int i = 0; i < 3; ++i) ask();  // these wait
  EXPECT_EQ(house.visitor().post("/api/v1/entries", "{}").status, 200);
  Answer busy;
  for (int i = 0; i < 100 && busy.status != 503; ++i) {
    Visitor visitor = house.visitor();
    visitor.send(plan);
    busy = visitor.receive(false, milliseconds{50});
  }
  EXPECT_EQ(busy.status, 503);
  EXPECT_EQ(busy.header("Retry-After"), "3");
  release.set_value();
  for (Visitor& visitor : planning) EXPECT_EQ(visitor.receive().status, 200);
}

}  // namespace
}  // namespace lynearm::serve
