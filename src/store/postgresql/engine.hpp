// The journal in a PostgreSQL database, which several servers may share. A lock of the
// database, taken with each transaction that writes, makes places follow each other in the
// order of their commits: whoever has read up to one place misses nothing before it.
#pragma once

#include <mutex>
#include <string>
#include <vector>

#include "store/engine.hpp"
#include "store/postgresql/connection.hpp"
#include "store/postgresql/listener.hpp"

namespace lynearm::store::postgresql {

/// Connections lent to one thread at a time; a broken one is not lent again.
class Lender {
 public:
  explicit Lender(std::string uri) : uri_(std::move(uri)) {}

  /// Runs `work` on a connection; when an idle one proves broken, once more from its beginning
  /// on a new one.
  template <class Work>
  void with(const Work& work) {
    std::unique_ptr<Connection> connection = take();
    const bool fresh = connection == nullptr;
    if (fresh) connection = std::make_unique<Connection>(uri_);
    try {
      work(*connection);
    } catch (const Trouble& trouble) {
      if (fresh || trouble.kind() != Trouble::Kind::unreachable) throw;
      connection = std::make_unique<Connection>(uri_);
      work(*connection);
    }
    give(std::move(connection));
  }

 private:
  std::unique_ptr<Connection> take();
  void give(std::unique_ptr<Connection> connection);

  std::string uri_;
  std::mutex mutex_;
  std::vector<std::unique_ptr<Connection>> idle_;
};

class PostgresqlEngine final : public Engine {
 public:
  /// only_read  as an officer's role does: makes and changes nothing
  /// throws     InputError at "store" as Connection and schema.hpp do; also when there is no
  ///            server to be reached
  PostgresqlEngine(const std::string& uri, bool only_read);
  ~PostgresqlEngine() override;

  [[nodiscard]] std::unique_ptr<Writing> begin() override;
  void read(const Select& select, const std::function<bool(const Row&)>& take) override;
  [[nodiscard]] std::vector<journal::Id> batches() override;
  [[nodiscard]] Sequence last() override;
  void listen(std::function<void(Sequence)> told) override;

 private:
  class Write;
  std::string uri_;
  bool only_read_;
  std::unique_ptr<Connection> writer_;  // none while the server is away
  Lender readers_;
  std::unique_ptr<Listener> listener_;
};

}  // namespace lynearm::store::postgresql
