#include "store/exchange.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <csignal>
#include <fstream>
#include <functional>
#include <sstream>

#include "store/backup.hpp"
#include "store/durable_file.hpp"
#include "store/entries.hpp"
#include "store/house.hpp"
#include "store/sqlite/database.hpp"
#include "store/temporary_folder.hpp"
#include "wire/entry.hpp"

namespace lynearm::store {
namespace {

using test::noon;
using ::testing::HasSubstr;
using ::testing::SizeIs;

class ExchangeTest : public ::testing::Test {
 protected:
  void fill() {
    static_cast<void>(house_.journal().keep(test::readings(1, 300), noon));
    static_cast<void>(house_.journal().keep(
        std::vector{test::note(1000, "line\nend, \"quotes\" and Ω"), test::foreign(1001),
                    test::correction(1002, test::mash_temperature(1), 66.6)},
        journal::Moment{noon.milliseconds + 77}));
  }

  test::TemporaryFolder folder_;
  House house_{Place{.folder = folder_ / "house", .database = ""}};
  House other_{Place{.folder = folder_ / "other", .database = ""}};
};

std::string text_of(House& house) {
  std::ostringstream text;
  export_lines(house.journal(), text);
  return text.str();
}

std::string line(const journal::Entry& entry) { return wire::entry_json(entry) + "\n"; }

Import import(House& house, const std::string& text, bool keep_good = false) {
  std::istringstream from(text);
  return import_lines(house.journal(), from, "journal.jsonl", keep_good);
}

std::vector<base::Fault> faults_of(House& house, const std::string& text) {
  try {
    static_cast<void>(import(house, text));
  } catch (const base::InputError& error) {
    return error.faults();
  }
  return {};
}

TEST_F(ExchangeTest, AnExportImportedElsewhereIsTheSameJournalByteForByte) {
  fill();
  const std::string text = text_of(house_);
  EXPECT_EQ(import(other_, text).kept, 303U);
  EXPECT_EQ(text_of(other_), text);
  EXPECT_EQ(other_.journal().since(0), house_.journal().since(0));
}

TEST_F(ExchangeTest, ImportingAgainChangesNothing) {
  fill();
  const std::string text = text_of(house_);
  const Import again = import(house_, text);
  EXPECT_EQ(again.kept, 0U);
  EXPECT_EQ(again.there_already, 303U);
  EXPECT_EQ(text_of(house_), text);
}

TEST_F(ExchangeTest, FaultsAreToldWithTheirLinesAndNothingIsKept) {
  const std::string text = line(test::mash_temperature(1)) + "\n{broken\n" +
                           line(test::mash_temperature(2)) + R"({"id":"no"})" + "\r\n" +
                           line(test::mash_temperature(1, 99.0));
  const auto faults = faults_of(house_, text);
  ASSERT_GE(faults.size(), 2U);
  EXPECT_EQ(faults.front().line, 3);
  EXPECT_EQ(faults.front().file, "journal.jsonl");
  EXPECT_EQ(faults.back().line, 6);  // another telling of the first line's entry
  EXPECT_EQ(house_.journal().last(), 0);
}

TEST_F(ExchangeTest, AConflictIsToldAtItsLine) {
  static_cast<void>(house_.journal().keep(std::vector{test::mash_temperature(2)}, noon));
  const auto faults = faults_of(
      house_, line(test::mash_temperature(1)) + "\n" + line(test::mash_temperature(2, 99.0)));
  ASSERT_THAT(faults, SizeIs(1));
  EXPECT_EQ(faults[0].line, 3);
  EXPECT_EQ(faults[0].field, "entry.id");
  EXPECT_EQ(house_.journal().last(), 1);
}

TEST_F(ExchangeTest, TheGoodLinesAreKeptWhenThatIsAskedFor) {
  static_cast<void>(house_.journal().keep(std::vector{test::mash_temperature(2)}, noon));
  const Import report = import(
      house_,
      line(test::mash_temperature(1)) + "{broken\n" + line(test::mash_temperature(2, 99.0)) +
          line(test::mash_temperature(2)) + line(test::mash_temperature(3)),
      true);
  EXPECT_EQ(report.kept, 2U);
  EXPECT_EQ(report.there_already, 1U);
  ASSERT_THAT(report.faults, SizeIs(2));
  EXPECT_EQ(report.faults[0].line, 2);
  EXPECT_EQ(report.faults[1].line, 3);
  EXPECT_EQ(house_.journal().last(), 3);
}

TEST_F(ExchangeTest, ALineOfAnyLengthIsRefusedWithoutBeingHeld) {
  const auto faults = faults_of(house_, std::string(5'000'000, 'x') + "\n{}\n");
  ASSERT_FALSE(faults.empty());
  EXPECT_THAT(faults[0].accepted, HasSubstr("at most"));
  EXPECT_GT(faults.back().line, 1);
}

TEST_F(ExchangeTest, VeryManyFaultsAreCutShort) {
  std::string text;
  for (int i = 0; i < 1000; ++i) text += "x\n";
  EXPECT_THAT(faults_of(house_, text), SizeIs(100));
}

TEST_F(ExchangeTest, ABackupOfARunningHouseIsOneFileAndRestoresToTheSame) {
  fill();
  const std::vector<std::uint8_t> photograph(100'000, 7);
  const std::string name = house_.attachments().keep(photograph);
  const auto file = folder_ / "backup";
  const Backup made = back_up(house_, file);
  EXPECT_EQ(made.entries, 303U);
  EXPECT_EQ(made.attachments, 1U);
  for (const auto& one : std::filesystem::directory_iterator(folder_.path())) {
    EXPECT_TRUE(one.is_directory() || one.path() == file)
        << one.path();  // nothing lies beside it
  }
  // What comes after is not in it.
  static_cast<void>(house_.journal().keep(test::readings(5000, 1), noon));
  EXPECT_EQ(restore(file, other_).entries, 303U);
  EXPECT_EQ(other_.journal().since(0), house_.journal().since(0, 303));
  EXPECT_EQ(other_.attachments().find(name), photograph);
  EXPECT_THROW(restore(file, other_), base::InputError);  // no longer empty
  EXPECT_THROW(back_up(house_, file), base::InputError);  // never written over
}

// No file may grow beyond so many bytes while it lives, as on a disk that takes no more.
class NoRoom {
 public:
  explicit NoRoom(rlim_t bytes) {
    getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit small{bytes, before_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &small);
    signal_ = std::signal(SIGXFSZ, SIG_IGN);
  }
  ~NoRoom() {
    setrlimit(RLIMIT_FSIZE, &before_);
    std::signal(SIGXFSZ, signal_);
  }
  NoRoom(const NoRoom&) = delete;
  NoRoom& operator=(const NoRoom&) = delete;

 private:
  rlimit before_{};
  void (*signal_)(int) = nullptr;
};

std::string trouble_of(const std::function<void()>& work) {
  const NoRoom none(10'000);
  try {
    work();
  } catch (const Trouble& trouble) {
    return trouble.what();
  }
  return "";
}

TEST_F(ExchangeTest, AFileThatCannotBeWrittenIsToldByItsNameAndWhy) {
  fill();
  const auto file = folder_ / "text";
  EXPECT_EQ(trouble_of([&] { export_file(house_.journal(), file); }),
            file.string() + " cannot be written: File too large");
  EXPECT_FALSE(std::filesystem::exists(file));
  const auto backup = folder_ / "backup";
  EXPECT_EQ(trouble_of([&] { back_up(house_, backup); }),
            backup.string() + " cannot be written: its disk does not answer as it should");
  EXPECT_FALSE(std::filesystem::exists(backup));
}

TEST_F(ExchangeTest, AFullDiskIsThatOfTheFileWhichIsWritten) {
  const Trouble full = disk_full("/mnt/stick/backup", "");
  EXPECT_EQ(full.kind(), Trouble::Kind::full);
  EXPECT_STREQ(full.what(), "the disk is full; /mnt/stick/backup is not written");
}

TEST_F(ExchangeTest, ABackupHoldsNoDevice) {
  house_.devices().add({"p1", "a phone", std::string(64, 'a'), noon, noon, std::nullopt});
  back_up(house_, folder_ / "backup");
  sqlite::Database database(folder_ / "backup", sqlite::Use::read);
  EXPECT_EQ(database.number("SELECT count(*) FROM device"), 0);
}

TEST_F(ExchangeTest, ADamagedBackupIsRefusedAndNothingOfItKept) {
  fill();
  house_.attachments().keep(std::vector<std::uint8_t>(20'000, 7));
  const auto file = folder_ / "backup";
  back_up(house_, file);
  std::ifstream from(file, std::ios::binary);
  const std::string whole((std::istreambuf_iterator<char>(from)), {});
  const auto damaged = folder_ / "damaged";
  std::size_t refused = 0, pages = 0;
  for (std::size_t at = 0; at < whole.size(); at += 4096, ++pages) {
    std::string text = whole;
    text.replace(at + 2000, 300, 300, 'Z');
    std::ofstream(damaged, std::ios::binary) << text;
    House house(Place{.folder = folder_ / std::to_string(at), .database = ""});
    try {
      restore(damaged, house);
      // What was hit lay fallow.
      EXPECT_EQ(house.journal().since(0), house_.journal().since(0)) << at;
    } catch (const base::InputError&) {
      ++refused;
      EXPECT_EQ(house.journal().last(), 0) << at;
    }
  }
  EXPECT_GT(refused, pages / 2);
}

TEST_F(ExchangeTest, WhatIsNoBackupIsRefused) {
  fill();
  std::ofstream(folder_ / "text") << std::string(5000, 't');
  EXPECT_THROW(restore(folder_ / "text", other_), base::InputError);
  EXPECT_THROW(restore(folder_ / "none", other_), base::InputError);
  // A house's own file is none either.
  EXPECT_THROW(restore(folder_ / "house" / "house.db", other_), base::InputError);
  EXPECT_EQ(other_.journal().last(), 0);
}

}  // namespace
}  // namespace lynearm::store
