#include "serve/workers.hpp"

#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>

namespace lynearm::serve {

namespace {

/// On Linux the nice value belongs to the thread.
void yield_to_others() {
  constexpr int nice = 10;
  static_cast<void>(setpriority(PRIO_PROCESS, static_cast<id_t>(gettid()), nice));
}

}  // namespace

Workers::Workers(std::size_t quick, std::size_t slow, std::size_t slow_waiting)
    : slow_waiting_(slow_waiting) {
  for (std::size_t i = 0; i < std::max<std::size_t>(quick, 1); ++i) {
    threads_.emplace_back([this] { work(quick_); });
  }
  for (std::size_t i = 0; i < std::max<std::size_t>(slow, 1); ++i) {
    threads_.emplace_back([this] {
      yield_to_others();
      work(slow_);
    });
  }
}

Workers::~Workers() {
  for (Queue* queue : {&quick_, &slow_}) {
    const std::lock_guard lock{queue->mutex};
    queue->closed = true;
    queue->filled.notify_all();
  }
  for (std::thread& thread : threads_) thread.join();
}

bool Workers::post(Lane lane, Job job) {
  Queue& queue = lane == Lane::slow ? slow_ : quick_;
  const std::lock_guard lock{queue.mutex};
  if (lane == Lane::slow && queue.jobs.size() >= slow_waiting_) return false;
  queue.jobs.push_back(std::move(job));
  queue.filled.notify_one();
  return true;
}

void Workers::work(Queue& queue) {
  while (true) {
    Job job;
    {
      std::unique_lock lock{queue.mutex};
      queue.filled.wait(lock, [&] { return queue.closed || !queue.jobs.empty(); });
      if (queue.jobs.empty()) return;
      job = std::move(queue.jobs.front());
      queue.jobs.pop_front();
    }
    job();
  }
}

}  // namespace lynearm::serve
