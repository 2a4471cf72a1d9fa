#include "serve/events.hpp"

#include <gtest/gtest.h>

#include <thread>

namespace lynearm::serve {
namespace {

std::string all_of(Subscription& subscription) {
  std::string text;
  for (const Piece& piece : subscription.take()) text += *piece;
  return text;
}

TEST(EventText, IsOfTheFormThatBrowsersRead) {
  EXPECT_EQ(event_text("7", "entry", "{}"), "id: 7\nevent: entry\ndata: {}\n\n");
  EXPECT_EQ(event_text("", "", ""), "data: \n\n");
}

TEST(EventText, CannotBeBrokenOutOf) {
  EXPECT_EQ(event_text("7\ndata: x", "a\r\nid: 9", "one\ntwo\r\nthree\rfour"),
            "id: 7data: x\nevent: aid: 9\ndata: one\ndata: two\ndata: three\ndata: four\n\n");
}

TEST(Events, ReachThoseWhoAskedForTheTopic) {
  Events events;
  const auto both = events.subscribe({"batch/7", "house"});
  const auto one = events.subscribe({"house"});
  events.publish("batch/7", "1", "entry", "a");
  events.publish("house", "2", "kit", "b");
  events.publish("batch/8", "3", "entry", "c");
  EXPECT_EQ(all_of(*both), event_text("1", "entry", "a") + event_text("2", "kit", "b"));
  EXPECT_EQ(all_of(*one), event_text("2", "kit", "b"));
  EXPECT_EQ(all_of(*one), "");
}

TEST(Events, WakeTheListener) {
  Events events;
  const auto subscription = events.subscribe({"house"});
  events.publish("house", "1", "kit", "early");
  int woken = 0;
  subscription->when_ready([&] { ++woken; });
  EXPECT_EQ(woken, 1);  // for what came before
  events.publish("house", "2", "kit", "");
  EXPECT_EQ(woken, 2);
  subscription->drop();
  EXPECT_EQ(woken, 3);
}

TEST(Events, DropAListenerThatDoesNotListen) {
  Events events;
  const auto slow = events.subscribe({"house"});
  const auto brisk = events.subscribe({"house"});
  for (std::size_t i = 0; i <= Subscription::most_pieces; ++i) {
    events.publish("house", "1", "kit", "x");
    static_cast<void>(brisk->take());
  }
  EXPECT_TRUE(slow->dropped());
  EXPECT_TRUE(slow->take().empty());
  EXPECT_FALSE(brisk->dropped());
}

TEST(Events, DropAListenerWhoseQueueIsHeavy) {
  Events events;
  const auto slow = events.subscribe({"house"});
  events.publish("house", "1", "kit", std::string(Subscription::most_bytes - 100, 'x'));
  EXPECT_FALSE(slow->dropped());
  events.publish("house", "2", "kit", std::string(200, 'x'));
  EXPECT_TRUE(slow->dropped());
}

TEST(Events, EndWithARevokedDevice) {
  Events events;
  const auto lost = events.subscribe({"house"}, "phone");
  const auto kept = events.subscribe({"house"}, "tablet");
  events.drop_device("phone");
  EXPECT_TRUE(lost->dropped());
  EXPECT_FALSE(kept->dropped());
  events.drop_all();
  EXPECT_TRUE(kept->dropped());
}

TEST(Events, ForgetThoseWhoLeft) {
  Events events;
  auto subscription = events.subscribe({"house"});
  EXPECT_EQ(events.listeners(), 1U);
  subscription.reset();
  EXPECT_EQ(events.listeners(), 0U);
  events.publish("house", "1", "kit", "");
}

TEST(Events, KeepOneOrderForAllListeners) {
  Events events;
  const auto a = events.subscribe({"house"});
  const auto b = events.subscribe({"house"});
  const auto publish = [&](const char* who) {
    for (int i = 0; i < 200; ++i) events.publish("house", std::to_string(i), who, "");
  };
  std::thread other{publish, "other"};
  publish("this");
  other.join();
  const std::string heard = all_of(*a);
  EXPECT_FALSE(heard.empty());
  EXPECT_EQ(heard, all_of(*b));
}

}  // namespace
}  // namespace lynearm::serve
