// How long an entry waits for its acknowledgement: alone, and under 50 open streams that each
// get it, 50 stalled connections and a steady load of plans on the slow lane. Transport only:
// the handler keeps nothing. Reports median and 99th percentile of the round trip, the second
// over the first being the price of the crowd.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <thread>
#include <vector>

#include "serve/open_house.hpp"

namespace lynearm::serve {
namespace {

using Clock = std::chrono::steady_clock;

void fill(Router& router, OpenHouse& house) {
  router.on("POST", "/api/v1/entries", [&house](const Request& request) {
    house.events.publish("house", "1", "entry", request.body);
    return json("{\"kept\":true}");
  });
  router.on("GET", "/api/v1/events", [&house](const Request&) {
    Reply reply;
    reply.content_type = "text/event-stream";
    reply.stream = house.events.subscribe({"house"});
    reply.stream->push(std::make_shared<const std::string>(event_text("", "begin", "")));
    return reply;
  });
  Terms slow;
  slow.lane = Lane::slow;
  router.on(
      "POST", "/api/v1/plan",
      [](const Request&) {
        // A plan's share of a processor.
        const auto until = Clock::now() + std::chrono::milliseconds{20};
        std::size_t steps = 0;
        while (Clock::now() < until) benchmark::DoNotOptimize(++steps);
        return json("{}");
      },
      slow);
}

/// crowd   0: alone; 1: streams and stalled connections; 2: plans besides
void acknowledgement(benchmark::State& state) {
  OpenHouse house{fill, [](Options& options) {
                    options.log.least = Level::warning;
                    options.limits.requests_a_second = 1e6;
                    options.limits.burst = 1e6;
                  }};
  std::vector<Visitor> streams;
  std::vector<Visitor> stalled;
  if (state.range(0) >= 1) {
    for (int i = 0; i < 50; ++i) {
      streams.push_back(house.visitor());
      streams.back().send("GET /api/v1/events HTTP/1.1\r\nHost: localhost\r\n\r\n");
      streams.back().read_until("\n\n");
      stalled.push_back(house.visitor());
      stalled.back().send("POST /api/v1/entries HTTP/1.1\r\nHost: loc");
    }
  }
  std::atomic<bool> done = false;
  // Pages read as it comes: the last one published is waited for.
  std::thread reader{[&] {
    while (!done) {
      for (Visitor& stream : streams) stream.read_until("\n\n", std::chrono::milliseconds{1});
      if (streams.empty()) std::this_thread::sleep_for(std::chrono::milliseconds{5});
    }
  }};
  std::thread planner{[&] {
    Visitor visitor = house.visitor();
    while (!done) {
      if (state.range(0) >= 2) {
        visitor.post("/api/v1/plan", "{}");
      } else {
        std::this_thread::sleep_for(std::chrono::milliseconds{5});
      }
    }
  }};
  std::vector<double> took_ms;
  Visitor visitor = house.visitor();
  for (auto _ : state) {
    const auto begin = Clock::now();
    visitor.post("/api/v1/entries", "{\"strength\":70.2}");
    took_ms.push_back(std::chrono::duration<double, std::milli>(Clock::now() - begin).count());
  }
  done = true;
  reader.join();
  planner.join();
  std::sort(took_ms.begin(), took_ms.end());
  state.counters["median_ms"] = took_ms[took_ms.size() / 2];
  state.counters["p99_ms"] = took_ms[took_ms.size() * 99 / 100];
  state.counters["worst_ms"] = took_ms.back();
}
BENCHMARK(acknowledgement)->Arg(0)->Arg(1)->Arg(2)->Iterations(2000)->UseRealTime();

}  // namespace
}  // namespace lynearm::serve
