#include "station/warming.hpp"

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <utility>

namespace lynearm::station {
namespace {

// Pages, and a script that only looks in, come first.
constexpr auto at_first = std::chrono::milliseconds(300);
// Readings that come by the hundred do not make it fold by the hundred.
constexpr auto rest = std::chrono::milliseconds(2000);

struct Stopped : std::exception {};

}  // namespace

struct Warming::Inside {
  Station& station;
  std::function<void()> made;
  std::mutex mutex;
  std::condition_variable changed;
  bool wanted = true;
  std::atomic<bool> closed = false;
  std::thread thread;

  Inside(Station& of, std::function<void()> tell) : station(of), made(std::move(tell)) {}

  void work() {
    const numeric::Executor executor = [this](std::size_t count,
                                              const std::function<void(std::size_t)>& task) {
      for (std::size_t i = 0; i < count; ++i) {
        if (closed) throw Stopped();
        task(i);
      }
    };
    std::unique_lock lock(mutex);
    changed.wait_for(lock, at_first, [this] { return closed.load(); });
    for (;;) {
      changed.wait(lock, [this] { return closed || wanted; });
      if (closed) return;
      wanted = false;
      lock.unlock();
      try {
        if (station.warm(executor)) made();
      } catch (const std::exception&) {
        // Stopped; or a store that does not answer: whoever asks is told so.
      }
      lock.lock();
      changed.wait_for(lock, rest, [this] { return closed.load(); });
    }
  }
};

Warming::Warming(Station& station, std::function<void()> made)
    : inside_(std::make_unique<Inside>(station, std::move(made))) {
  Inside& inside = *inside_;
  inside.thread = std::thread([&inside] { inside.work(); });
}

void Warming::look() {
  const std::lock_guard lock(inside_->mutex);
  inside_->wanted = true;
  inside_->changed.notify_one();
}

Warming::~Warming() {
  {
    const std::lock_guard lock(inside_->mutex);
    inside_->closed = true;
  }
  inside_->changed.notify_all();
  inside_->thread.join();
}

}  // namespace lynearm::station
