// The databases that the contract of the journal is held against: each can open the same house
// again, as after a restart, and run a statement of SQL behind the journal's back.
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "store/engine.hpp"

namespace lynearm::store::test {

class Bench {
 public:
  virtual ~Bench() = default;
  [[nodiscard]] virtual std::unique_ptr<Engine> open() = 0;
  /// returns    what the database answers when it refuses; empty when it does as told
  [[nodiscard]] virtual std::string run(const std::string& sql) = 0;
  /// The table's name in SQL.
  [[nodiscard]] virtual std::string table() const = 0;
};

struct Maker {
  std::string name;
  /// Null when this machine has no such database.
  std::function<std::unique_ptr<Bench>()> make;
};

[[nodiscard]] Maker sqlite_bench();
[[nodiscard]] Maker postgresql_bench();

}  // namespace lynearm::store::test
