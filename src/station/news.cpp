// The journal's watch turned into events for open pages, gathered so that five hundred readings
// a second do not become five hundred reads of the house by every page.
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "station/routes.hpp"
#include "wire/answer.hpp"

namespace lynearm::station {

struct News::Inside {
  serve::Events& events;
  std::mutex mutex;
  std::condition_variable changed;
  store::Sequence last = 0;
  store::Sequence told = 0;
  bool closed = false;
  std::thread thread;
  std::optional<store::Watch> watch;

  explicit Inside(serve::Events& to) : events(to) {}

  void work() {
    constexpr auto rest = std::chrono::milliseconds(100);
    std::unique_lock lock(mutex);
    for (;;) {
      changed.wait(lock, [this] { return closed || last != told; });
      if (closed) return;
      told = last;
      lock.unlock();
      events.publish("kept", std::to_string(told), "kept", wire::sequence_json(told));
      lock.lock();
      changed.wait_for(lock, rest, [this] { return closed; });
    }
  }
};

News::News(Station& station, serve::Events& events)
    : inside_(std::make_unique<Inside>(events)) {
  Inside& inside = *inside_;
  inside.last = inside.told = station.house().journal().last();
  inside.thread = std::thread([&inside] { inside.work(); });
  inside.watch.emplace(station.house().journal().watch([&inside](store::Sequence last) {
    const std::lock_guard lock(inside.mutex);
    inside.last = std::max(inside.last, last);
    inside.changed.notify_one();
  }));
}

News::~News() {
  inside_->watch.reset();
  {
    const std::lock_guard lock(inside_->mutex);
    inside_->closed = true;
  }
  inside_->changed.notify_one();
  inside_->thread.join();
}

}  // namespace lynearm::station
