// A house of every earlier version opens today: one fixture a version, as that version's
// program left it, kept for good. A new migration without its fixture fails here.
#include "store/migration.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "base/error.hpp"
#include "places.hpp"
#include "store/entries.hpp"
#include "store/house.hpp"
#include "store/sqlite/database.hpp"
#include "store/sqlite/schema.hpp"
#include "store/temporary_folder.hpp"

namespace lynearm::store {
namespace {

using sqlite::Database;
using sqlite::Use;

std::filesystem::path fixture(std::size_t version) {
  return std::filesystem::path(LYNEARM_SOURCE_DIR) / "tests/store/fixtures" /
         ("version_" + std::to_string(version) + ".sql");
}

std::string text_of(const std::filesystem::path& file) {
  std::ifstream from(file);
  std::ostringstream text;
  text << from.rdbuf();
  return text.str();
}

// All that the schema says, without its blanks.
std::string schema_of(const std::filesystem::path& file) {
  Database database(file, Use::keep);
  std::string text = database.text(
      "SELECT group_concat(sql, ';') FROM (SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL "
      "ORDER BY type, name)");
  std::erase_if(text, [](char c) { return c == ' ' || c == '\n'; });
  return text;
}

TEST(MigrationTest, AHouseOfEveryVersionOpensWithItsEntriesAndGoesOn) {
  const test::TemporaryFolder fresh;
  { const House house({.folder = fresh.path(), .database = ""}); }
  for (std::size_t version = 1; version <= sqlite_migrations().size(); ++version) {
    ASSERT_TRUE(std::filesystem::exists(fixture(version)))
        << "keep a fixture of version " << version << " beside the others";
    const test::TemporaryFolder folder;
    {
      Database database(folder / "house.db", Use::keep);
      database.run(text_of(fixture(version)));
      ASSERT_EQ(database.number("PRAGMA user_version"), static_cast<std::int64_t>(version));
    }
    {
      House house({.folder = folder.path(), .database = ""});
      const auto all = house.journal().since(0);
      ASSERT_EQ(all.size(), 4U);
      EXPECT_TRUE(same(all[0].entry, test::mash_temperature(1)));
      EXPECT_TRUE(same(all[1].entry, test::note(2, "kept by version 1", test::batch_two)));
      EXPECT_TRUE(same(all[2].entry, test::correction(3, test::mash_temperature(1), 66.25)));
      EXPECT_TRUE(same(all[3].entry, test::foreign(4)));
      EXPECT_EQ(all[0].entry.received, test::noon);
      ASSERT_EQ(house.devices().list().size(), 1U);
      EXPECT_EQ(house.devices().list()[0].name, "an invented phone");
      EXPECT_TRUE(house.journal().keep(test::readings(100, 1), test::noon).at(0).now);
    }
    EXPECT_EQ(schema_of(folder / "house.db"), schema_of(fresh / "house.db"));
    Database database(folder / "house.db", Use::keep);
    EXPECT_EQ(database.number("PRAGMA user_version"),
              static_cast<std::int64_t>(sqlite_migrations().size()));
    EXPECT_THROW(database.run("DELETE FROM entry"), Trouble);
  }
}

TEST(MigrationTest, OneThatFailsHalfWayLeavesTheFileAsItWas) {
  const test::TemporaryFolder folder;
  {
    Database database(folder / "house.db", Use::keep);
    // A house that claims to be empty but for a table in the way of the first step.
    database.run("PRAGMA application_id = " + std::to_string(sqlite::application_id) +
                 "; CREATE TABLE device (x)");
  }
  const std::string before = schema_of(folder / "house.db");
  EXPECT_THROW(House({.folder = folder.path(), .database = ""}), Trouble);
  EXPECT_EQ(schema_of(folder / "house.db"), before);
}

TEST(MigrationTest, BothDatabasesAreOfOneVersion) {
  EXPECT_EQ(sqlite_migrations().size(), postgresql_migrations().size());
}

}  // namespace
}  // namespace lynearm::store
