// The journal's watch turned into events for open pages, gathered so that five hundred readings
// a second do not become five hundred reads of the house by every page.
#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "station/routes.hpp"
#include "station/warming.hpp"
#include "wire/answer.hpp"

namespace lynearm::station {

struct News::Inside {
  Station& station;
  serve::Events& events;
  std::mutex mutex;
  std::condition_variable changed;
  store::Sequence last = 0;
  store::Sequence told = 0;
  bool made = false;  ///< something was computed ahead
  bool closed = false;
  std::thread thread;
  std::optional<store::Watch> watch;
  std::optional<Warming> warming;

  Inside(Station& of, serve::Events& to) : station(of), events(to) {}

  // So that three pages which ask again after each news take a third of one core at most,
  // however large the house: readings come first.
  [[nodiscard]] std::chrono::microseconds rest() const {
    using std::chrono::microseconds;
    constexpr microseconds least{100'000}, most{2'000'000};
    return std::clamp(10 * station.reading_time(), least, most);
  }

  void work() {
    std::unique_lock lock(mutex);
    for (;;) {
      changed.wait(lock, [this] { return closed || made || last != told; });
      if (closed) return;
      if (last != told) warming->look();
      told = last;
      made = false;
      lock.unlock();
      events.publish("kept", std::to_string(told), "kept", wire::sequence_json(told));
      lock.lock();
      changed.wait_for(lock, rest(), [this] { return closed; });
    }
  }
};

News::News(Station& station, serve::Events& events)
    : inside_(std::make_unique<Inside>(station, events)) {
  Inside& inside = *inside_;
  inside.last = inside.told = station.house().journal().last();
  inside.warming.emplace(station, [&inside] {
    const std::lock_guard lock(inside.mutex);
    inside.made = true;
    inside.changed.notify_one();
  });
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
  inside_->warming.reset();
}

}  // namespace lynearm::station
