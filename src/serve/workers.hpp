// The threads that run handlers, in two lanes: quick for what is acknowledged while a thumb
// waits, slow for plans and forecasts. The slow lane's threads yield the processor to all
// others, and its queue is bounded.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

#include "serve/router.hpp"

namespace lynearm::serve {

class Workers {
 public:
  using Job = std::function<void()>;

  /// threads of each lane, at least one; most jobs that may wait in the slow lane
  Workers(std::size_t quick, std::size_t slow, std::size_t slow_waiting);
  /// Finishes what was posted.
  ~Workers();
  Workers(const Workers&) = delete;
  Workers& operator=(const Workers&) = delete;

  /// returns    false when the slow lane is full: the job is not taken
  [[nodiscard]] bool post(Lane lane, Job job);

 private:
  struct Queue {
    std::mutex mutex;
    std::condition_variable filled;
    std::deque<Job> jobs;
    bool closed = false;
  };
  static void work(Queue& queue);

  Queue quick_;
  Queue slow_;
  std::size_t slow_waiting_;
  std::vector<std::thread> threads_;
};

}  // namespace lynearm::serve
