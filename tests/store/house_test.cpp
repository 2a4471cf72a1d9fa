// A house as a whole: where it can be, who may open it, what it says when it cannot.
#include "store/house.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <functional>

#include "base/error.hpp"
#include "store/entries.hpp"
#include "store/sqlite/database.hpp"
#include "store/temporary_folder.hpp"

namespace lynearm::store {
namespace {

using sqlite::Database;
using sqlite::Use;
using test::TemporaryFolder;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

Place in(const std::filesystem::path& folder, bool only_read = false) {
  return {.folder = folder, .database = "", .only_read = only_read};
}

std::string refusal(const Place& place) {
  try {
    const House house(place);
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "store");
    return error.what();
  }
  return "";
}

// What `call` returns in another process.
int in_another_process(const std::function<int()>& call) {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(call());
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST(HouseTest, AFolderIsMadeForItsOwnerOnly) {
  const TemporaryFolder above;
  { const House house(in(above / "house")); }
  const auto permissions = std::filesystem::status(above / "house").permissions();
  EXPECT_EQ(permissions, std::filesystem::perms::owner_all);
}

TEST(HouseTest, AFolderThatCannotBeIsRefusedInASentence) {
  const TemporaryFolder above;
  EXPECT_THAT(refusal(in(above / "none" / "house")), HasSubstr("in a folder that is there"));
  EXPECT_THAT(refusal(in(above / "none", true)), HasSubstr("the folder of a house"));
  std::ofstream(above / "file") << "text";
  EXPECT_THAT(refusal(in(above / "file")), HasSubstr("a folder"));
  EXPECT_THAT(refusal(in(above.path(), true)), HasSubstr("can be opened"));  // no house in it
}

TEST(HouseTest, AFileThatIsNoDatabaseIsRefusedAndLeftAsItIs) {
  const TemporaryFolder folder;
  const std::string text =
      "This is no database, though it is long enough to be looked at as one. "
      "It goes on for a little while, past the hundred bytes of a header.";
  std::ofstream(folder / "house.db") << text;
  EXPECT_THAT(refusal(in(folder.path())), HasSubstr("SQLite database"));
  std::ifstream file(folder / "house.db");
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(file), {}), text);
}

TEST(HouseTest, AnotherProgramsDatabaseIsRefusedAndLeftAsItIs) {
  const TemporaryFolder folder;
  {
    Database database(folder / "house.db", Use::keep);
    database.run("CREATE TABLE guest (name TEXT)");
  }
  EXPECT_THAT(refusal(in(folder.path())), HasSubstr("another program"));
  Database database(folder / "house.db", Use::keep);
  EXPECT_EQ(database.number("SELECT count(*) FROM sqlite_schema"), 1);
}

TEST(HouseTest, AHouseOfANewerVersionIsRefused) {
  const TemporaryFolder folder;
  { const House house(in(folder.path())); }
  {
    Database database(folder / "house.db", Use::keep);
    database.run("PRAGMA user_version = 9999");
  }
  EXPECT_THAT(refusal(in(folder.path())), HasSubstr("written by a newer Lynearm"));
  EXPECT_THAT(refusal(in(folder.path(), true)), HasSubstr("written by a newer Lynearm"));
}

TEST(HouseTest, ASecondProcessIsRefusedWhileTheFirstKeepsTheHouse) {
  const TemporaryFolder folder;
  {
    House house(in(folder.path()));
    static_cast<void>(house.journal().keep(test::readings(1, 3), test::noon));
    EXPECT_EQ(in_another_process([&] {
                try {
                  const House second(in(folder.path()));
                } catch (const base::InputError& error) {
                  return std::string(error.what()).find("no other running") != std::string::npos
                             ? 7
                             : 8;
                }
                return 9;
              }),
              7);
    static_cast<void>(house.journal().keep(test::readings(10, 3), test::noon));
  }
  // Free again as soon as the first has gone.
  EXPECT_EQ(in_another_process([&] {
              House second(in(folder.path()));
              return static_cast<int>(second.journal().last());
            }),
            6);
}

TEST(HouseTest, TwoProcessesThatWriteThePlainFileSpoilNothing) {
  // Past the house's lock, straight at the file: SQLite's own locks hold.
  const TemporaryFolder folder;
  { const House house(in(folder.path())); }
  const auto keep = [&](std::uint64_t first) {
    Database database(folder / "house.db", Use::keep);
    for (std::uint64_t i = 0; i < 60; ++i) {
      sqlite::Transaction transaction(database);
      database.run("INSERT INTO device VALUES ('" + std::to_string(first + i) +
                   "', 'x', printf('%064d', " + std::to_string(first + i) + "), 1, 1, NULL)");
      transaction.commit();
    }
    return 0;
  };
  const pid_t child = ::fork();
  if (child == 0) ::_exit(keep(1000));
  keep(2000);
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_EQ(status, 0);
  Database database(folder / "house.db", Use::keep);
  EXPECT_EQ(database.number("SELECT count(*) FROM device"), 120);
  EXPECT_EQ(database.text("PRAGMA integrity_check"), "ok");
}

TEST(HouseTest, ARunningHouseCanBeReadByAnotherProcess) {
  const TemporaryFolder folder;
  House house(in(folder.path()));
  static_cast<void>(house.journal().keep(test::readings(1, 5), test::noon));
  EXPECT_EQ(in_another_process([&] {
              House reader(in(folder.path(), true));
              return static_cast<int>(reader.journal().since(0).size());
            }),
            5);
}

TEST(HouseTest, EveryConnectionSynchronisesInFull) {
  const TemporaryFolder folder;
  { const House house(in(folder.path())); }
  for (const Use use : {Use::keep, Use::read}) {
    Database database(folder / "house.db", use);
    EXPECT_EQ(database.number("PRAGMA synchronous"), 2);
    EXPECT_EQ(database.text("PRAGMA journal_mode"), "wal");
    EXPECT_EQ(database.number("PRAGMA foreign_keys"), 1);
  }
}

TEST(HouseTest, AnEntryIsNotReplacedEither) {
  const TemporaryFolder folder;
  {
    House house(in(folder.path()));
    static_cast<void>(house.journal().keep(test::readings(1, 2), test::noon));
  }
  Database database(folder / "house.db", Use::keep);
  for (const char* sql :
       {"INSERT OR REPLACE INTO entry SELECT sequence, id, batch, stage, kind, version, at_ms, "
        "clock_ahead_ms, received_ms, 'another', corrects, typed, body FROM entry",
        "UPDATE OR REPLACE entry SET id = (SELECT id FROM entry WHERE sequence = 2) "
        "WHERE sequence = 1"}) {
    try {
      database.run(sql);
      ADD_FAILURE() << "taken: " << sql;
    } catch (const Trouble& trouble) {
      EXPECT_EQ(trouble.kind(), Trouble::Kind::refused);
      EXPECT_THAT(trouble.detail(), HasSubstr("never"));
    }
  }
  EXPECT_EQ(database.number("SELECT count(*) FROM entry WHERE who = 'another'"), 0);
}

}  // namespace
}  // namespace lynearm::store
