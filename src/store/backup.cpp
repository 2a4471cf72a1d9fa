#include "store/backup.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <system_error>

#include "base/error.hpp"
#include "store/durable_file.hpp"
#include "store/sqlite/engine.hpp"
#include "store/sqlite/schema.hpp"
#include "store/sqlite/statement.hpp"
#include "wire/entry.hpp"

namespace lynearm::store {
namespace {

namespace fs = std::filesystem;
using sqlite::Database;
using sqlite::Statement;
using sqlite::Transaction;
using sqlite::Use;

// A file in the making, with what SQLite lays beside it; gone when it was not finished.
class Draft {
 public:
  explicit Draft(fs::path file) : file_(std::move(file)) { remove(); }
  ~Draft() { remove(); }
  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;
  [[nodiscard]] const fs::path& file() const { return file_; }

 private:
  void remove() const {
    std::error_code ignored;
    for (const char* end : {"", "-wal", "-shm", "-journal"}) {
      fs::remove(fs::path(file_.string() + end), ignored);
    }
  }
  fs::path file_;
};

// A hash over entries one after the other: the database checks its own order, not what it
// holds.
class Digest {
 public:
  void add(const journal::Entry& entry) {
    const std::string text = so_far_ + wire::entry_json(entry);
    so_far_ = sha256({reinterpret_cast<const std::uint8_t*>(text.data()), text.size()});
  }
  [[nodiscard]] const std::string& text() const { return so_far_; }

 private:
  std::string so_far_;
};

struct Written {
  std::size_t entries = 0;
  Digest digest;
};

Written write_entries(House& house, const fs::path& file) {
  sqlite::SqliteEngine engine(file, Use::keep);
  const auto writing = engine.begin();
  Written written;
  house.journal().each([&](const Numbered& one) {
    Row row = row_of(one.entry, std::nullopt, "entry");
    row.sequence = one.sequence;
    writing->add(std::span(&row, 1));
    written.digest.add(one.entry);
    ++written.entries;
  });
  writing->commit();
  return written;
}

void write_digest(Database& database, const Digest& digest) {
  database.run("CREATE TABLE digest (entries TEXT NOT NULL) STRICT");
  Statement(database, "INSERT INTO digest VALUES (?1)").bind(1, digest.text()).run();
}

std::size_t write_attachments(House& house, Database& database) {
  Transaction transaction(database);
  database.run("CREATE TABLE attachment (name TEXT PRIMARY KEY, content BLOB NOT NULL) STRICT");
  std::size_t attachments = 0;
  for (const std::string& name : house.attachments().names()) {
    const auto content = house.attachments().find(name);
    if (!content) continue;
    Statement(database, "INSERT INTO attachment VALUES (?1, ?2)")
        .bind(1, name)
        .bind(2, std::span<const std::uint8_t>(*content))
        .run();
    ++attachments;
  }
  transaction.commit();
  return attachments;
}

std::size_t read_attachments(Database& database, House& house) {
  Statement statement(database, "SELECT name, content FROM attachment");
  std::size_t attachments = 0;
  while (statement.step()) {
    const std::string name = house.attachments().keep(statement.bytes(1));
    if (name != statement.text(0)) {
      throw Trouble(Trouble::Kind::damaged, "an attachment of the backup is damaged");
    }
    ++attachments;
  }
  return attachments;
}

[[noreturn]] void refuse(const fs::path& file, const std::string& accepted) {
  throw base::InputError("backup", file.string(), accepted);
}

// Checks the copy and brings it to our version, so that older backups are read by today's code.
void make_readable(const fs::path& copy, const fs::path& file) {
  try {
    Database database(copy, Use::keep);
    if (database.text("PRAGMA integrity_check") != "ok") refuse(file, "a backup that is whole");
    sqlite::bring_up_to_date(database, file);
    if (database.number("SELECT count(*) FROM sqlite_schema WHERE name IN ('attachment', "
                        "'digest')") != 2) {
      refuse(file, "a backup that Lynearm made");
    }
  } catch (const base::InputError& error) {
    refuse(file, error.faults().at(0).accepted);
  } catch (const Trouble& trouble) {
    if (trouble.kind() != Trouble::Kind::damaged) throw;
    refuse(file, "a backup that is whole");
  }
}

std::vector<journal::Entry> read_entries(const fs::path& copy, const fs::path& file) {
  std::vector<journal::Entry> entries;
  Digest digest;
  const Journal journal(std::make_unique<sqlite::SqliteEngine>(copy, Use::keep));
  journal.each([&](const Numbered& one) {
    digest.add(one.entry);
    entries.push_back(one.entry);
  });
  Database database(copy, Use::keep);
  if (database.text("SELECT entries FROM digest") != digest.text()) {
    refuse(file, "a backup that is whole");
  }
  return entries;
}

}  // namespace

Backup back_up(House& house, const fs::path& file) {
  std::error_code none;
  if (fs::exists(file, none)) refuse(file, "the name of a file that is not there yet");
  const fs::path folder = fs::absolute(file, none).parent_path();
  if (!fs::is_directory(folder, none)) refuse(file, "a file in a folder that is there");
  const Draft draft(file.string() + ".part");
  Backup backup;
  // Entries first: whatever they name had been kept before them.
  const Written written = write_entries(house, draft.file());
  backup.entries = written.entries;
  {
    Database database(draft.file(), Use::keep);
    write_digest(database, written.digest);
    backup.attachments = write_attachments(house, database);
    // One file, without a log beside it.
    base::ensure(database.text("PRAGMA journal_mode = DELETE") == "delete",
                 "a backup is one file");
  }
  ::chmod(draft.file().c_str(), 0600);
  rename_durably(draft.file(), file);
  return backup;
}

Backup restore(const fs::path& file, House& house) {
  std::error_code none;
  if (!fs::is_regular_file(file, none)) refuse(file, "a backup");
  if (house.journal().last() != 0) {
    throw base::InputError("store", house.folder().string(), "a house without entries");
  }
  const fs::path folder = house.folder().empty() ? fs::temp_directory_path() : house.folder();
  const Draft copy(folder / "restored.part");
  fs::copy_file(file, copy.file(), none);
  if (none) {
    throw Trouble(
        none == std::errc::no_space_on_device ? Trouble::Kind::full : Trouble::Kind::failed,
        "the backup cannot be copied into the house", none.message());
  }
  make_readable(copy.file(), file);
  std::vector<journal::Entry> entries;
  Backup backup;
  try {
    entries = read_entries(copy.file(), file);
    Database database(copy.file(), Use::keep);
    backup.attachments = read_attachments(database, house);
  } catch (const Trouble& trouble) {
    if (trouble.kind() != Trouble::Kind::damaged) throw;
    refuse(file, "a backup that is whole");
  }
  backup.entries = house.journal().keep(entries, std::nullopt).size();
  return backup;
}

}  // namespace lynearm::store
