// One thread writes for all who keep: it takes every call that waits, decides them one by one
// in their order, and commits them together, so that many small calls share one synchronisation
// of the disk. A call that is refused takes no other with it.
#pragma once

#include <condition_variable>
#include <deque>
#include <exception>
#include <functional>
#include <mutex>
#include <thread>
#include <variant>
#include <vector>

#include "store/engine.hpp"

namespace lynearm::store {

/// What became of one entry.
struct Kept {
  journal::Id id;
  Sequence sequence = 0;
  bool now = false;  ///< false: it was there already, telling the same

  friend bool operator==(const Kept&, const Kept&) = default;
};

/// What became of a call: each entry's lot in the order given, or why nothing of it was kept.
using Outcome = std::variant<std::vector<Kept>, std::exception_ptr>;

class Keeper {
 public:
  /// engine     lives longer than this
  /// told       called with the last sequence after each commit that kept something
  Keeper(Engine& engine, std::function<void(Sequence)> told);
  /// Finishes what waits.
  ~Keeper();
  Keeper(const Keeper&) = delete;
  Keeper& operator=(const Keeper&) = delete;

  /// From any thread. `done` is called once, from the writing thread: it must be quick and must
  /// not throw.
  void keep(std::vector<Row> rows, std::function<void(Outcome)> done);

 private:
  struct Call {
    std::vector<Row> rows;
    std::function<void(Outcome)> done;
  };

  void work();
  [[nodiscard]] std::vector<Call> next();
  void write(std::vector<Call>& calls);
  [[nodiscard]] std::vector<Outcome> write_together(std::vector<Call>& calls);

  Engine* engine_;
  std::function<void(Sequence)> told_;
  std::mutex mutex_;
  std::condition_variable filled_;
  std::deque<Call> calls_;
  bool closed_ = false;
  std::thread thread_;
};

}  // namespace lynearm::store
