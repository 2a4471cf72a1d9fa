// Event streams of a running server, and stopping it.
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
using testing::Not;

const char* const listen =
    "GET /api/v1/events HTTP/1.1\r\nHost: localhost\r\n"
    "Accept: text/event-stream\r\n\r\n";

void fill(Router& router, OpenHouse& house) {
  router.on("GET", "/api/v1/events", [&house](const Request& request) {
    Reply reply;
    reply.content_type = "text/event-stream";
    reply.stream = house.events.subscribe({"house"}, request.who->id);
    reply.stream->push(std::make_shared<const std::string>(
        event_text("0", "begin", std::string{request.header("last-event-id").value_or("")})));
    return reply;
  });
}

/// A visitor whose stream is open: its first event was read.
Visitor listener(OpenHouse& house) {
  Visitor visitor = house.visitor();
  visitor.send(listen);
  EXPECT_THAT(visitor.read_until("\n\n"), HasSubstr("event: begin"));
  return visitor;
}

/// Waits until the server holds `count` streams.
bool hold(OpenHouse& house, std::size_t count) {
  for (int i = 0; i < 500 && house.events.listeners() != count; ++i) {
    std::this_thread::sleep_for(milliseconds{10});
  }
  return house.events.listeners() == count;
}

TEST(EventStream, OpensWithWhatTheHandlerSaysFirst) {
  OpenHouse house{fill};
  Visitor visitor = house.visitor();
  visitor.send(
      "GET /api/v1/events HTTP/1.1\r\nHost: localhost\r\nLast-Event-ID: 41\r\n"
      "Accept: text/event-stream\r\n\r\n");
  const std::string head = visitor.read_until("\r\n\r\n");
  EXPECT_THAT(head, HasSubstr("200 OK"));
  EXPECT_THAT(head, HasSubstr("Content-Type: text/event-stream"));
  EXPECT_THAT(head, HasSubstr("Cache-Control: no-store"));
  EXPECT_THAT(head, Not(HasSubstr("Content-Length")));
  EXPECT_EQ(visitor.read_until("\n\n"), "id: 0\nevent: begin\ndata: 41\n\n");
}

TEST(EventStream, BringsWhatIsPublishedInOrder) {
  OpenHouse house{fill};
  Visitor a = listener(house);
  Visitor b = listener(house);
  std::string expected;
  for (int i = 1; i <= 300; ++i) {
    house.events.publish("house", std::to_string(i), "entry", "{}");
    house.events.publish("elsewhere", "x", "entry", "{}");
    expected += event_text(std::to_string(i), "entry", "{}");
  }
  const std::string last = event_text("300", "entry", "{}");
  EXPECT_EQ(a.read_until(last), expected);
  EXPECT_EQ(b.read_until(last), expected);
}

TEST(EventStream, BeatsWhenNothingHappens) {
  OpenHouse house{fill, [](Options& options) { options.limits.heartbeat = milliseconds{30}; }};
  Visitor visitor = listener(house);
  // With a data line, if an empty one: without it a browser does not tell the page.
  EXPECT_EQ(visitor.read_until("\n\n"), "event: beat\ndata: \n\n");
  EXPECT_EQ(visitor.read_until("\n\n"), "event: beat\ndata: \n\n");
}

TEST(EventStream, IsLetGoOfWhenThePageLeaves) {
  OpenHouse house{fill};
  {
    Visitor visitor = listener(house);
    EXPECT_EQ(house.events.listeners(), 1U);
  }
  EXPECT_TRUE(hold(house, 0));
}

TEST(EventStream, OfASlowPageIsDroppedAndTheOthersGoOn) {
  OpenHouse house{fill,
                  [](Options& options) { options.limits.write_time = milliseconds{300}; }};
  Visitor slow = listener(house);
  slow.read_little();
  Visitor brisk = listener(house);
  const std::string heavy(100'000, 'x');
  // More than the kernel's buffers hold, and each brisk page reads it as it comes.
  for (int i = 0; i < 300 && house.events.listeners() == 2; ++i) {
    const std::string id = std::to_string(i);
    house.events.publish("house", id, "entry", heavy);
    ASSERT_THAT(brisk.read_until("\n\n"), HasSubstr("id: " + id + "\n"));
  }
  EXPECT_TRUE(hold(house, 1));
  house.events.publish("house", "last", "entry", "");
  EXPECT_THAT(brisk.read_until("\n\n"), HasSubstr("id: last"));
}

TEST(EventStream, EndsWithItsDevice) {
  OpenHouse house{fill};
  Visitor visitor = listener(house);
  house.events.drop_device("another");
  EXPECT_FALSE(visitor.is_closed(milliseconds{50}));
  house.events.drop_device("laptop");
  EXPECT_TRUE(visitor.is_closed(seconds{5}));
}

TEST(Stopping, FinishesWhatIsBeingAnsweredAndClosesTheRest) {
  std::promise<void> running;
  std::promise<void> release;
  OpenHouse house{[&](Router& router, OpenHouse& open) {
    fill(router, open);
    router.on("POST", "/api/v1/entries", [&](const Request&) {
      running.set_value();
      release.get_future().wait();
      return json("{\"kept\":true}");
    });
  }};
  Visitor stream = listener(house);
  Visitor idle = house.visitor();
  EXPECT_EQ(idle.get("/healthz").status, 200);
  Visitor stalled = house.visitor();
  stalled.send("GET /hea");
  Visitor posting = house.visitor();
  posting.send(
      "POST /api/v1/entries HTTP/1.1\r\nHost: localhost\r\n"
      "Content-Type: application/json\r\nContent-Length: 2\r\n\r\n{}");
  running.get_future().wait();
  std::thread stopper{[&] { house.stop(); }};
  EXPECT_TRUE(idle.is_closed(seconds{5}));
  EXPECT_TRUE(stream.is_closed(seconds{5}));
  EXPECT_TRUE(stalled.is_closed(seconds{5}));
  EXPECT_THROW(Visitor{house.port()}, std::runtime_error);
  release.set_value();
  const Answer answer = posting.receive();
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.header("Connection"), "close");
  EXPECT_EQ(answer.body, "{\"kept\":true}");
  stopper.join();
}

TEST(Stopping, IsQuickWhenNothingRuns) {
  OpenHouse house{fill};
  std::vector<Visitor> visitors;
  for (int i = 0; i < 20; ++i) visitors.push_back(listener(house));
  EXPECT_LT(house.stop(), seconds{2});
}

TEST(Stopping, WaitsForAPageThatDoesNotReadNoLongerThanTheGrace) {
  OpenHouse house{[](Router& router, OpenHouse&) {
                    router.on("GET", "/api/v1/large", [](const Request&) {
                      return json(std::string(50'000'000, ' '));
                    });
                  },
                  [](Options& options) { options.limits.grace = milliseconds{200}; }};
  Visitor visitor = house.visitor();
  visitor.send("GET /api/v1/large HTTP/1.1\r\nHost: localhost\r\n\r\n");
  EXPECT_NE(visitor.read_until("\r\n\r\n"), "");
  EXPECT_LT(house.stop(), seconds{3});
  EXPECT_THAT(house.logged(), HasSubstr("1 connections cut short"));
}

}  // namespace
}  // namespace lynearm::serve
