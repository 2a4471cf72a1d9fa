// SQLite's file system on a CrashDisk: sqlite.org/c3ref/io_methods.html and vfs.html.
#include <algorithm>
#include <cstring>

#include "store/crash_disk.hpp"

namespace lynearm::store::test {
namespace {

using Handle = CrashDisk::Handle;

Handle& of(sqlite3_file* file) { return *reinterpret_cast<Handle*>(file); }
CrashDisk& disk_of(sqlite3_vfs* vfs) { return *static_cast<CrashDisk*>(vfs->pAppData); }
sqlite3_vfs* system_vfs() { return sqlite3_vfs_find("unix"); }

int close(sqlite3_file* file) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  (*handle.file)->handles.remove(&handle);
  delete handle.file;
  handle.file = nullptr;
  return SQLITE_OK;
}

int read(sqlite3_file* file, void* to, int size, sqlite3_int64 offset) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  const std::vector<std::uint8_t>& bytes = (*handle.file)->now;
  const auto from = std::min(static_cast<std::size_t>(offset), bytes.size());
  const auto got = std::min(static_cast<std::size_t>(size), bytes.size() - from);
  if (got > 0) std::memcpy(to, bytes.data() + from, got);
  std::memset(static_cast<char*>(to) + got, 0, static_cast<std::size_t>(size) - got);
  return got == static_cast<std::size_t>(size) ? SQLITE_OK : SQLITE_IOERR_SHORT_READ;
}

int write(sqlite3_file* file, const void* from, int size, sqlite3_int64 offset) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  return handle.disk->write(**handle.file, static_cast<std::size_t>(offset),
                            static_cast<const std::uint8_t*>(from),
                            static_cast<std::size_t>(size));
}

int truncate(sqlite3_file* file, sqlite3_int64 size) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  return handle.disk->truncate(**handle.file, static_cast<std::size_t>(size));
}

int sync(sqlite3_file* file, int) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  const bool new_log = handle.is_log && !(*handle.file)->named;
  return handle.disk->sync(**handle.file, new_log);
}

int size(sqlite3_file* file, sqlite3_int64* bytes) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  *bytes = static_cast<sqlite3_int64>((*handle.file)->now.size());
  return SQLITE_OK;
}

bool another_holds(Handle& handle, int level) {
  const auto& handles = (*handle.file)->handles;
  return std::any_of(handles.begin(), handles.end(),
                     [&](const Handle* one) { return one != &handle && one->level >= level; });
}

int lock_file(sqlite3_file* file, int level) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  if (handle.level >= level) return SQLITE_OK;
  if (level == SQLITE_LOCK_SHARED && another_holds(handle, SQLITE_LOCK_PENDING))
    return SQLITE_BUSY;
  if (level > SQLITE_LOCK_SHARED && another_holds(handle, SQLITE_LOCK_RESERVED))
    return SQLITE_BUSY;
  if (level == SQLITE_LOCK_EXCLUSIVE && another_holds(handle, SQLITE_LOCK_SHARED)) {
    handle.level = SQLITE_LOCK_PENDING;
    return SQLITE_BUSY;
  }
  handle.level = level;
  return SQLITE_OK;
}

int unlock_file(sqlite3_file* file, int level) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  handle.level = std::min(handle.level, level);
  return SQLITE_OK;
}

int check_reserved(sqlite3_file* file, int* held) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  *held = handle.level >= SQLITE_LOCK_RESERVED || another_holds(handle, SQLITE_LOCK_RESERVED);
  return SQLITE_OK;
}

int control(sqlite3_file*, int, void*) { return SQLITE_NOTFOUND; }
int sector_size(sqlite3_file*) { return CrashDisk::sector; }
int characteristics(sqlite3_file*) { return 0; }

int map_shared(sqlite3_file* file, int region, int bytes, int extend, void volatile** at) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  auto& regions = (*handle.file)->shared_memory;
  const auto place = static_cast<std::size_t>(region);
  if (place >= regions.size() && extend == 0) {
    *at = nullptr;
    return SQLITE_OK;
  }
  while (place >= regions.size()) {
    regions.push_back(
        std::make_unique<std::vector<std::uint8_t>>(static_cast<std::size_t>(bytes)));
  }
  *at = regions[place]->data();
  return SQLITE_OK;
}

int lock_shared(sqlite3_file* file, int first, int count, int flags) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  const unsigned mask = ((1U << (first + count)) - 1U) & ~((1U << first) - 1U);
  if ((flags & SQLITE_SHM_UNLOCK) != 0) {
    handle.shared &= ~mask;
    handle.exclusive &= ~mask;
    return SQLITE_OK;
  }
  for (const Handle* one : (*handle.file)->handles) {
    if (one == &handle) continue;
    const unsigned held =
        (flags & SQLITE_SHM_SHARED) != 0 ? one->exclusive : one->exclusive | one->shared;
    if ((held & mask) != 0) return SQLITE_BUSY;
  }
  ((flags & SQLITE_SHM_SHARED) != 0 ? handle.shared : handle.exclusive) |= mask;
  return SQLITE_OK;
}

void barrier(sqlite3_file* file) { const std::lock_guard lock(of(file).disk->mutex()); }

int unmap_shared(sqlite3_file* file, int) {
  Handle& handle = of(file);
  const std::lock_guard lock(handle.disk->mutex());
  handle.shared = handle.exclusive = 0;
  return SQLITE_OK;
}

constexpr sqlite3_io_methods methods = {2,
                                        close,
                                        read,
                                        write,
                                        truncate,
                                        sync,
                                        size,
                                        lock_file,
                                        unlock_file,
                                        check_reserved,
                                        control,
                                        sector_size,
                                        characteristics,
                                        map_shared,
                                        lock_shared,
                                        barrier,
                                        unmap_shared,
                                        nullptr,
                                        nullptr};

int open(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* out_flags) {
  CrashDisk& disk = disk_of(vfs);
  const std::lock_guard lock(disk.mutex());
  Handle& handle = of(file);
  std::memset(&handle, 0, sizeof handle);
  handle.disk = &disk;
  handle.is_log = (flags & (SQLITE_OPEN_WAL | SQLITE_OPEN_MAIN_JOURNAL)) != 0;
  const int code = disk.open(name == nullptr ? "nameless" : name, flags, handle);
  if (code == SQLITE_OK) handle.base.pMethods = &methods;
  if (out_flags != nullptr) *out_flags = flags;
  return code;
}

int remove(sqlite3_vfs* vfs, const char* name, int at_once) {
  const std::lock_guard lock(disk_of(vfs).mutex());
  return disk_of(vfs).remove(name, at_once != 0);
}

int access(sqlite3_vfs* vfs, const char* name, int, int* found) {
  const std::lock_guard lock(disk_of(vfs).mutex());
  *found = disk_of(vfs).has(name) ? 1 : 0;
  return SQLITE_OK;
}

int full_path(sqlite3_vfs*, const char* name, int size_of_full, char* full) {
  sqlite3_snprintf(size_of_full, full, "%s", name);
  return SQLITE_OK;
}

int randomness(sqlite3_vfs*, int bytes, char* to) {
  return system_vfs()->xRandomness(system_vfs(), bytes, to);
}
int sleep(sqlite3_vfs*, int microseconds) {
  return system_vfs()->xSleep(system_vfs(), microseconds);
}
int current_time(sqlite3_vfs*, double* time) {
  return system_vfs()->xCurrentTime(system_vfs(), time);
}
int last_error(sqlite3_vfs*, int, char*) { return 0; }

}  // namespace

void fill_in(sqlite3_vfs& vfs, CrashDisk& disk, const char* name) {
  vfs = {};
  vfs.iVersion = 1;
  vfs.szOsFile = sizeof(Handle);
  vfs.mxPathname = 512;
  vfs.zName = name;
  vfs.pAppData = &disk;
  vfs.xOpen = open;
  vfs.xDelete = remove;
  vfs.xAccess = access;
  vfs.xFullPathname = full_path;
  vfs.xRandomness = randomness;
  vfs.xSleep = sleep;
  vfs.xCurrentTime = current_time;
  vfs.xGetLastError = last_error;
}

}  // namespace lynearm::store::test
