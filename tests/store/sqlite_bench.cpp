#include "store/engines.hpp"
#include "store/sqlite/engine.hpp"
#include "store/temporary_folder.hpp"

namespace lynearm::store::test {
namespace {

class SqliteBench final : public Bench {
 public:
  std::unique_ptr<Engine> open() override {
    return std::make_unique<sqlite::SqliteEngine>(file(), sqlite::Use::keep);
  }
  std::string run(const std::string& sql) override {
    sqlite::Database database(file(), sqlite::Use::keep);
    try {
      database.run(sql);
    } catch (const Trouble& trouble) {
      return trouble.detail();
    }
    return "";
  }
  std::string table() const override { return "entry"; }

 private:
  std::filesystem::path file() const { return folder_ / "house.db"; }
  TemporaryFolder folder_;
};

}  // namespace

Maker sqlite_bench() {
  return {"sqlite", [] { return std::make_unique<SqliteBench>(); }};
}

}  // namespace lynearm::store::test
