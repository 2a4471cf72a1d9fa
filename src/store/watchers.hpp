// Those who want to know when the journal has grown.
#pragma once

#include <functional>
#include <list>
#include <memory>
#include <mutex>
#include <utility>

#include "store/row.hpp"

namespace lynearm::store {

/// Ends its watch when it goes; after that its function is called no more.
class Watch {
 public:
  Watch() = default;
  explicit Watch(std::function<void()> end) : end_(std::move(end)) {}
  Watch(Watch&& other) noexcept : end_(std::exchange(other.end_, nullptr)) {}
  Watch& operator=(Watch&& other) noexcept {
    if (this != &other) {
      stop();
      end_ = std::exchange(other.end_, nullptr);
    }
    return *this;
  }
  ~Watch() { stop(); }
  void stop() {
    if (end_) std::exchange(end_, nullptr)();
  }

 private:
  std::function<void()> end_;
};

class Watchers {
 public:
  [[nodiscard]] Watch add(std::function<void(Sequence)> told);
  void tell(Sequence last);

 private:
  struct List {
    // Recursive: a watcher may end its own watch.
    std::recursive_mutex mutex;
    std::list<std::shared_ptr<const std::function<void(Sequence)>>> told;
  };
  std::shared_ptr<List> list_ = std::make_shared<List>();
};

}  // namespace lynearm::store
