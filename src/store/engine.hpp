// What a database does for the journal: one transaction that writes, alone in the house, and
// reading. Everything else (which entries are new, what is a conflict, gathering calls) is
// decided above it, once for every database.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "store/row.hpp"

namespace lynearm::store {

/// Which rows to read, always in the order of keeping.
struct Select {
  enum class Of { all, batch, house };
  Of of = Of::all;
  journal::Id batch;       ///< for Of::batch
  Sequence after = 0;      ///< only those kept after this one
  std::int64_t most = -1;  ///< at most so many; all of them when below nought
};

class Engine {
 public:
  /// An open transaction. No other of this house is open beside it, in any process, from
  /// begin() on. Rolls back unless committed.
  class Writing {
   public:
    virtual ~Writing() = default;
    /// The rows with these ids that are there already, in any order.
    [[nodiscard]] virtual std::vector<Row> found(std::span<const journal::Id> ids) = 0;
    /// The sequence of the last row; nought for an empty journal.
    [[nodiscard]] virtual Sequence last() = 0;
    /// Rows with their sequences, the next ones after last().
    virtual void add(std::span<const Row> rows) = 0;
    /// Durable when it returns. When it throws, all or nothing was kept.
    virtual void commit() = 0;
  };

  virtual ~Engine() = default;

  /// Called from one thread at a time.
  [[nodiscard]] virtual std::unique_ptr<Writing> begin() = 0;

  // The others are called from any thread, also while somebody writes.

  /// One consistent view, however long it takes. `take` returns false to end.
  virtual void read(const Select& select, const std::function<bool(const Row&)>& take) = 0;
  [[nodiscard]] virtual std::vector<journal::Id> batches() = 0;
  [[nodiscard]] virtual Sequence last() = 0;
  /// Calls `told` with the last sequence whenever another process kept something, from a thread
  /// of its own, until the engine goes. At most once called; nothing to do where there can be
  /// no other.
  // By value: an engine that listens keeps it.
  // NOLINTNEXTLINE(performance-unnecessary-value-param)
  virtual void listen(std::function<void(Sequence)> told) { static_cast<void>(told); }
};

}  // namespace lynearm::store
