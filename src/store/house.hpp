// All that one house keeps: its journal, its paired devices, its attachments. By default in a
// folder of its own:
//
//   house.db      the journal and the devices (SQLite; with house.db-wal and house.db-shm)
//   house.lock    held by the one process that keeps the house
//   files/        attachments
//
// SQLite's own locks would keep two processes from spoiling the file, but neither would hear of
// the other's entries; so only one may keep a house, and a second is refused at once. Reading
// (backup, export) needs no lock and disturbs nobody.
//
// Or all of it in a PostgreSQL database, which several servers may keep together: each hears
// within a moment of what the others kept, paired or revoked.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "store/attachments.hpp"
#include "store/devices.hpp"
#include "store/journal.hpp"

namespace lynearm::store {

struct Place {
  /// Made when it is not there; the one above it must be. Of no matter with `database`, save
  /// that restoring a backup needs room there.
  std::filesystem::path folder;
  std::string database;    ///< "postgresql://..."; empty for SQLite in the folder
  bool only_read = false;  ///< then the house must be there, and may be in use
};

/// Whether this is meant for PostgreSQL: "postgresql://..." or "postgres://...".
[[nodiscard]] bool is_database(const std::string& uri);

class House {
 public:
  /// throws     InputError at "store" when the place will not do: no such folder, a file of
  ///            another program or of a newer version, a house that another process keeps
  explicit House(const Place& place);
  ~House();
  House(const House&) = delete;
  House& operator=(const House&) = delete;

  [[nodiscard]] Journal& journal() { return *journal_; }
  [[nodiscard]] Devices& devices() { return *devices_; }
  [[nodiscard]] Attachments& attachments() { return *attachments_; }
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  /// Where it is kept, for people: the folder, or the database without its password.
  [[nodiscard]] std::string where() const;

 private:
  void open_folder(const Place& place);
  void open_database(const Place& place);

  struct Held;
  std::filesystem::path folder_;
  std::string database_;
  std::unique_ptr<Held> held_;
  std::unique_ptr<Devices> devices_;
  std::unique_ptr<Attachments> attachments_;
  std::unique_ptr<Journal> journal_;
};

}  // namespace lynearm::store
