#include "store/engines.hpp"
#include "store/postgresql/engine.hpp"
#include "store/postgresql_server.hpp"

namespace lynearm::store::test {
namespace {

class PostgresqlBench final : public Bench {
 public:
  explicit PostgresqlBench(PostgresqlServer& server)
      : server_(&server), database_(server.new_database()) {}

  std::unique_ptr<Engine> open() override {
    return std::make_unique<postgresql::PostgresqlEngine>(server_->uri(database_, "keeper"),
                                                          false);
  }
  // As the superuser, whom no grant stops.
  std::string run(const std::string& sql) override {
    postgresql::Connection connection(server_->uri(database_, "postgres"));
    try {
      connection.run(sql);
    } catch (const Trouble& trouble) {
      return trouble.detail();
    }
    return "";
  }
  std::string table() const override { return "lynearm.entry"; }

 private:
  PostgresqlServer* server_;
  std::string database_;
};

}  // namespace

Maker postgresql_bench() {
  return {"postgresql", []() -> std::unique_ptr<Bench> {
            PostgresqlServer* const server = shared_server();
            return server == nullptr ? nullptr : std::make_unique<PostgresqlBench>(*server);
          }};
}

}  // namespace lynearm::store::test
