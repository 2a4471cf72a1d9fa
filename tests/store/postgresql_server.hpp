// A PostgreSQL server of the test's own: a cluster in a temporary folder, reached by a socket
// in it, running as the user "postgres" when the test runs as root (which PostgreSQL refuses).
#pragma once

#include <sys/types.h>

#include <memory>
#include <string>
#include <vector>

#include "store/temporary_folder.hpp"

namespace lynearm::store::test {

class PostgresqlServer {
 public:
  /// Null when this machine has no PostgreSQL.
  [[nodiscard]] static std::unique_ptr<PostgresqlServer> make();
  ~PostgresqlServer();
  PostgresqlServer(const PostgresqlServer&) = delete;
  PostgresqlServer& operator=(const PostgresqlServer&) = delete;

  /// returns    when it answers
  void start();
  /// SIGQUIT ends it at once without tidying up, SIGKILL leaves its children to find out.
  void end(int signal);

  /// A new empty database, owned by the role "keeper", which is no superuser.
  [[nodiscard]] std::string new_database();
  [[nodiscard]] std::string uri(const std::string& database, const std::string& role) const;

 private:
  explicit PostgresqlServer(std::string programs);
  [[nodiscard]] pid_t spawn(const std::vector<std::string>& words) const;

  std::string programs_;
  TemporaryFolder folder_;
  pid_t server_ = -1;
  int databases_ = 0;
};

/// One for all tests of a program; null when there is none.
[[nodiscard]] PostgresqlServer* shared_server();

}  // namespace lynearm::store::test
