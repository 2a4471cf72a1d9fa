#include "store/backup.hpp"

#include <functional>
#include <memory>
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

// A database tells of the house; here it is the backup that is written.
template <class Work>
auto onto(const fs::path& file, const Work& work) {
  try {
    return work();
  } catch (const Trouble& trouble) {
    if (trouble.kind() == Trouble::Kind::full) throw disk_full(file, trouble.detail());
    if (trouble.kind() != Trouble::Kind::failed) throw;
    throw Trouble(Trouble::Kind::failed,
                  file.string() + " cannot be written: its disk does not answer as it should",
                  trouble.detail());
  }
}

struct Written {
  std::size_t entries = 0;
  Digest digest;
};

Written write_entries(House& house, const fs::path& draft, const fs::path& file) {
  const auto engine =
      onto(file, [&draft] { return std::make_unique<sqlite::SqliteEngine>(draft, Use::keep); });
  const auto writing = onto(file, [&engine] { return engine->begin(); });
  Written written;
  house.journal().each([&](const Numbered& one) {
    Row row = row_of(one.entry, std::nullopt, "entry");
    row.sequence = one.sequence;
    onto(file, [&] { writing->add(std::span(&row, 1)); });
    written.digest.add(one.entry);
    ++written.entries;
  });
  onto(file, [&writing] { writing->commit(); });
  return written;
}

void write_digest(Database& database, const Digest& digest) {
  database.run("CREATE TABLE digest (entries TEXT NOT NULL) STRICT");
  Statement(database, "INSERT INTO digest VALUES (?1)").bind(1, digest.text()).run();
}

std::size_t write_attachments(House& house, Database& database, const fs::path& file) {
  Transaction transaction(database);
  onto(file, [&database] {
    database.run(
        "CREATE TABLE attachment (name TEXT PRIMARY KEY, content BLOB NOT NULL) STRICT");
  });
  std::size_t attachments = 0;
  for (const std::string& name : house.attachments().names()) {
    const auto content = house.attachments().find(name);
    if (!content) continue;
    onto(file, [&] {
      Statement(database, "INSERT INTO attachment VALUES (?1, ?2)")
          .bind(1, name)
          .bind(2, std::span<const std::uint8_t>(*content))
          .run();
    });
    ++attachments;
  }
  onto(file, [&transaction] { transaction.commit(); });
  return attachments;
}

[[noreturn]] void refuse(const fs::path& file, const std::string& accepted) {
  throw base::InputError("backup", file.string(), accepted);
}

// Whether an older file of that name may go: only when it is a backup itself.
bool is_backup(const fs::path& file) {
  try {
    Database database(file, Use::read);
    return database.number("PRAGMA application_id") == sqlite::application_id &&
           database.number("SELECT count(*) FROM sqlite_schema WHERE name = 'digest'") == 1;
  } catch (const base::InputError&) {
    return false;
  } catch (const Trouble&) {
    return false;
  }
}

// Checks the copy and brings it to our version, so that older backups are read by today's code.
void make_readable(const fs::path& copy, const fs::path& file) {
  Database database(copy, Use::keep);
  if (database.text("PRAGMA integrity_check") != "ok") refuse(file, "a backup that is whole");
  sqlite::bring_up_to_date(database, file);
  if (database.number("SELECT count(*) FROM sqlite_schema WHERE name IN ('attachment', "
                      "'digest')") != 2) {
    refuse(file, "a backup that Lynearm made");
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

using Take = std::function<void(std::span<const std::uint8_t>)>;

// Each attachment, held against its name.
std::size_t each_attachment(const fs::path& copy, const fs::path& file, const Take& take) {
  Database database(copy, Use::keep);
  Statement statement(database, "SELECT name, content FROM attachment");
  std::size_t attachments = 0;
  while (statement.step()) {
    const auto content = statement.bytes(1);
    if (sha256(content) != statement.text(0)) refuse(file, "a backup that is whole");
    take(content);
    ++attachments;
  }
  return attachments;
}

// A backup that was read and found whole.
class Whole {
 public:
  Whole(const fs::path& file, const fs::path& folder)
      : file_(file), copy_(copied(file, folder)) {
    try {
      make_readable(copy_->file(), file);
      entries_ = read_entries(copy_->file(), file);
      attachments_ = each_attachment(copy_->file(), file, [](auto) {});
    } catch (const base::InputError& error) {
      refuse(file, error.faults().at(0).accepted);
    } catch (const Trouble& trouble) {
      if (trouble.kind() != Trouble::Kind::damaged) throw;
      refuse(file, "a backup that is whole");
    }
  }

  [[nodiscard]] const std::vector<journal::Entry>& entries() const { return entries_; }
  [[nodiscard]] Backup told() const { return {entries_.size(), attachments_}; }
  void attachments(const Take& take) const { each_attachment(copy_->file(), file_, take); }

 private:
  static std::unique_ptr<Draft> copied(const fs::path& file, const fs::path& folder) {
    std::error_code none;
    if (!fs::is_regular_file(file, none)) refuse(file, "a backup");
    auto copy = std::make_unique<Draft>(folder / "restored");
    fs::copy_file(file, copy->file(), fs::copy_options::overwrite_existing, none);
    if (none) {
      throw Trouble(
          none == std::errc::no_space_on_device ? Trouble::Kind::full : Trouble::Kind::failed,
          "the backup cannot be copied, to be read", none.message());
    }
    return copy;
  }

  fs::path file_;
  std::unique_ptr<Draft> copy_;
  std::vector<journal::Entry> entries_;
  std::size_t attachments_ = 0;
};

}  // namespace

Backup back_up(House& house, const fs::path& file, bool replace) {
  std::error_code none;
  if (fs::exists(fs::symlink_status(file, none))) {
    if (!replace) refuse(file, "the name of a file that is not there yet");
    if (!fs::is_regular_file(file, none) || !is_backup(file)) {
      refuse(file, "a backup to replace, or the name of a file that is not there yet");
    }
  }
  const fs::path folder = fs::absolute(file, none).parent_path();
  if (!fs::is_directory(folder, none)) refuse(file, "a file in a folder that is there");
  Draft draft(file);
  Backup backup;
  // Entries first: whatever they name had been kept before them.
  const Written written = write_entries(house, draft.file(), file);
  backup.entries = written.entries;
  {
    Database database = onto(file, [&] { return Database(draft.file(), Use::keep); });
    onto(file, [&] { write_digest(database, written.digest); });
    backup.attachments = write_attachments(house, database, file);
    onto(file, [&database] {
      // One file, without a log beside it.
      base::ensure(database.text("PRAGMA journal_mode = DELETE") == "delete",
                   "a backup is one file");
    });
  }
  draft.finish(file);
  return backup;
}

Backup check_backup(const fs::path& file) {
  return Whole(file, fs::temp_directory_path()).told();
}

Backup restore(const fs::path& file, House& house) {
  if (house.journal().last() != 0) {
    throw base::InputError("store", house.where(), "a house without entries");
  }
  const Whole whole(file, house.folder().empty() ? fs::temp_directory_path() : house.folder());
  whole.attachments([&](auto content) { house.attachments().keep(content); });
  static_cast<void>(house.journal().keep(whole.entries(), std::nullopt));
  return whole.told();
}

}  // namespace lynearm::store
