#include "cli/threads.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <cstdio>
#include <exception>
#include <memory>
#include <mutex>
#include <string>
#include <system_error>
#include <thread>
#include <vector>

#include "base/error.hpp"

namespace lynearm::cli {
namespace {

using std::chrono::milliseconds;

// What the workers share. A member takes milliseconds, so one lock for all is cheap enough.
class Work {
 public:
  Work(std::size_t count, const std::function<void(std::size_t)>& task)
      : count_(count), task_(task) {}

  // One worker, until there is nothing left to begin.
  void labour() {
    std::unique_lock lock(mutex_);
    while (next_ < count_ && !error_) {
      const std::size_t mine = next_++;
      lock.unlock();
      std::exception_ptr error;
      try {
        task_(mine);
      } catch (...) {
        error = std::current_exception();
      }
      lock.lock();
      ++done_;
      if (error && (!error_ || mine < failed_)) {
        error_ = error;
        failed_ = mine;
      }
    }
    --workers_;
    lock.unlock();
    changed_.notify_one();
  }

  void hire() {
    const std::lock_guard lock(mutex_);
    ++workers_;
  }
  void dismiss() {
    const std::lock_guard lock(mutex_);
    --workers_;
  }

  // Until every worker has ended.
  void await(const Progress& progress) {
    std::unique_lock lock(mutex_);
    while (workers_ > 0) {
      changed_.wait_for(lock, milliseconds(100));
      const std::size_t done = done_;
      lock.unlock();
      if (progress) progress(done, count_);
      lock.lock();
    }
  }

  void settle() const {
    if (error_) std::rethrow_exception(error_);
  }

 private:
  std::size_t count_;
  const std::function<void(std::size_t)>& task_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::size_t next_ = 0;
  std::size_t done_ = 0;
  std::size_t failed_ = 0;
  int workers_ = 0;
  std::exception_ptr error_;
};

void run_on(int threads, const Progress& progress, std::size_t count,
            const std::function<void(std::size_t)>& task) {
  Work work(count, task);
  std::vector<std::thread> workers;
  const std::size_t wanted = std::min(count, static_cast<std::size_t>(threads));
  for (std::size_t i = 0; i < wanted; ++i) {
    work.hire();
    try {
      workers.emplace_back([&work] { work.labour(); });
    } catch (const std::system_error&) {
      work.dismiss();
      break;
    }
  }
  if (workers.empty()) {
    work.hire();
    work.labour();
  }
  work.await(progress);
  for (std::thread& worker : workers) worker.join();
  if (progress) progress(count, count);
  work.settle();
}

// The line that stands on the terminal, if any.
struct Told {
  std::chrono::steady_clock::time_point since = std::chrono::steady_clock::now();
  std::size_t width = 0;

  void wipe() {
    if (width == 0) return;
    fmt::print(stderr, "\r{}\r", std::string(width, ' '));
    static_cast<void>(std::fflush(stderr));
    width = 0;
  }

  void tell(std::size_t done, std::size_t count) {
    const std::string line = fmt::format("Bands: {} of {} members", done, count);
    fmt::print(stderr, "\r{}", line);
    static_cast<void>(std::fflush(stderr));
    width = std::max(width, line.size());
  }
};

}  // namespace

int all_cores() { return static_cast<int>(std::max(1U, std::thread::hardware_concurrency())); }

numeric::Executor on_threads(int threads, Progress progress) {
  base::ensure(threads >= 1, "work is shared out over at least one thread");
  return [threads, progress = std::move(progress)](
             std::size_t count, const std::function<void(std::size_t)>& task) {
    run_on(threads, progress, count, task);
  };
}

Progress told_on_terminal() {
  if (isatty(STDERR_FILENO) != 1) return {};
  return [told = std::make_shared<Told>()](std::size_t done, std::size_t count) {
    if (done >= count) {
      told->wipe();
    } else if (std::chrono::steady_clock::now() - told->since > std::chrono::seconds(1)) {
      told->tell(done, count);
    }
  };
}

}  // namespace lynearm::cli
