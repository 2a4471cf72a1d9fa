// A disk in memory that loses what was not synchronised, as a disk does when the plug is
// pulled, and an SQLite file system upon it. Writes stay pending until their file is
// synchronised; at a crash each pending write is kept, dropped or torn at sector bounds, by
// chance. A chosen operation (write, truncation, synchronisation, deletion) is the last; from
// it on all fail.
//
// Names become durable as on Unix with SQLite: with the first synchronisation of a new journal
// or log, which synchronises the folder too.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <random>
#include <string>
#include <vector>

namespace lynearm::store::test {

class CrashDisk {
 public:
  static constexpr std::size_t sector = 512;

  struct Change {
    std::size_t offset = 0;
    std::vector<std::uint8_t> bytes;
    bool truncates = false;  ///< to `offset`
  };
  struct Handle;
  struct Contents {
    std::vector<std::uint8_t> now, durable;
    std::vector<Change> pending;
    bool named = false;  ///< its name is on the disk
    // What the connections of this process hold of it.
    std::list<Handle*> handles;
    std::vector<std::unique_ptr<std::vector<std::uint8_t>>> shared_memory;
  };

  /// Registers a file system of the name vfs().
  CrashDisk();
  ~CrashDisk();
  CrashDisk(const CrashDisk&) = delete;
  CrashDisk& operator=(const CrashDisk&) = delete;

  [[nodiscard]] const std::string& vfs() const { return name_; }

  /// The `operation`th operation from the beginning fails, and all after it.
  void die_at(std::size_t operation) { dies_at_ = operation; }
  /// The next synchronisation fails once, and what it was to write is never written (as after
  /// a write error that the system has told once).
  void fail_next_sync() { fails_sync_ = true; }
  /// Files may grow to so many bytes together.
  void room(std::size_t bytes) { room_ = bytes; }
  [[nodiscard]] std::size_t operations() const { return operations_; }
  [[nodiscard]] std::size_t syncs() const { return syncs_; }
  [[nodiscard]] std::size_t bytes() const;

  /// What a machine finds that starts again on this disk.
  [[nodiscard]] std::unique_ptr<CrashDisk> after_crash(std::mt19937_64& random) const;

  // For the file system.
  int open(const std::string& name, int flags, Handle& handle);
  int write(Contents& file, std::size_t offset, const std::uint8_t* bytes, std::size_t size);
  int truncate(Contents& file, std::size_t size);
  int sync(Contents& file, bool names_too);
  int remove(const std::string& name, bool at_once);
  bool has(const std::string& name) const { return files_.contains(name); }
  std::recursive_mutex& mutex() { return mutex_; }

 private:
  bool dies();
  std::vector<std::uint8_t> survivors(const Contents& file, std::mt19937_64& random) const;

  std::string name_;
  std::unique_ptr<sqlite3_vfs> vfs_;
  std::map<std::string, std::shared_ptr<Contents>> files_;
  std::map<std::string, std::shared_ptr<Contents>> removed_;  // perhaps not yet on the disk
  std::recursive_mutex mutex_;
  std::size_t operations_ = 0;
  std::size_t syncs_ = 0;
  std::size_t dies_at_ = SIZE_MAX;
  std::size_t room_ = SIZE_MAX;
  bool fails_sync_ = false;
};

/// An open file of SQLite on such a disk; begins with what SQLite knows of it.
struct CrashDisk::Handle {
  sqlite3_file base;
  CrashDisk* disk;
  std::shared_ptr<Contents>* file;  ///< a plain struct to SQLite: held by pointer
  bool is_log;                      ///< journal or write-ahead log
  int level;                        ///< SQLITE_LOCK_...
  unsigned shared, exclusive;       ///< bits of the shared memory's locks
};

/// Fills in the file system's functions.
void fill_in(sqlite3_vfs& vfs, CrashDisk& disk, const char* name);

}  // namespace lynearm::store::test
