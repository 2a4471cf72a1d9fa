#include "store/crash_disk.hpp"

#include <algorithm>
#include <atomic>
#include <cstring>

namespace lynearm::store::test {
namespace {

std::string next_name() {
  static std::atomic<int> made{0};
  return "crash-disk-" + std::to_string(++made);
}

void carry_out(const CrashDisk::Change& change, std::vector<std::uint8_t>& to) {
  if (change.truncates) {
    to.resize(change.offset);
    return;
  }
  if (to.size() < change.offset + change.bytes.size()) {
    to.resize(change.offset + change.bytes.size());
  }
  std::copy(change.bytes.begin(), change.bytes.end(),
            to.begin() + static_cast<std::ptrdiff_t>(change.offset));
}

}  // namespace

CrashDisk::CrashDisk() : name_(next_name()), vfs_(std::make_unique<sqlite3_vfs>()) {
  fill_in(*vfs_, *this, name_.c_str());
  sqlite3_vfs_register(vfs_.get(), 0);
}

CrashDisk::~CrashDisk() { sqlite3_vfs_unregister(vfs_.get()); }

std::size_t CrashDisk::bytes() const {
  std::size_t sum = 0;
  for (const auto& [name, file] : files_) sum += file->now.size();
  return sum;
}

bool CrashDisk::dies() { return ++operations_ >= dies_at_; }

int CrashDisk::open(const std::string& name, int flags, Handle& handle) {
  auto found = files_.find(name);
  if (found == files_.end()) {
    if ((flags & SQLITE_OPEN_CREATE) == 0 || operations_ >= dies_at_) return SQLITE_CANTOPEN;
    found = files_.emplace(name, std::make_shared<Contents>()).first;
  }
  handle.file = new std::shared_ptr<Contents>(found->second);
  found->second->handles.push_back(&handle);
  return SQLITE_OK;
}

int CrashDisk::write(Contents& file, std::size_t offset, const std::uint8_t* bytes,
                     std::size_t size) {
  const bool last = dies();
  if (operations_ > dies_at_) return SQLITE_IOERR_WRITE;
  const std::size_t end = std::max(file.now.size(), offset + size);
  if (end > file.now.size() && this->bytes() + end - file.now.size() > room_)
    return SQLITE_FULL;
  Change change{offset, std::vector<std::uint8_t>(bytes, bytes + size), false};
  carry_out(change, file.now);
  file.pending.push_back(std::move(change));
  return last ? SQLITE_IOERR_WRITE : SQLITE_OK;
}

int CrashDisk::truncate(Contents& file, std::size_t size) {
  if (dies()) return SQLITE_IOERR_TRUNCATE;
  file.now.resize(size);
  file.pending.push_back({size, {}, true});
  return SQLITE_OK;
}

int CrashDisk::sync(Contents& file, bool names_too) {
  if (dies()) return SQLITE_IOERR_FSYNC;
  if (fails_sync_) {
    fails_sync_ = false;
    file.pending.clear();
    return SQLITE_IOERR_FSYNC;
  }
  ++syncs_;
  for (const Change& change : file.pending) carry_out(change, file.durable);
  file.pending.clear();
  if (names_too) {
    for (const auto& [name, one] : files_) one->named = true;
    removed_.clear();
  }
  return SQLITE_OK;
}

int CrashDisk::remove(const std::string& name, bool at_once) {
  if (dies()) return SQLITE_IOERR_DELETE;
  const auto found = files_.find(name);
  if (found == files_.end()) return SQLITE_IOERR_DELETE_NOENT;
  if (!at_once && found->second->named) removed_[name] = found->second;
  files_.erase(found);
  return SQLITE_OK;
}

std::vector<std::uint8_t> CrashDisk::survivors(const Contents& file,
                                               std::mt19937_64& random) const {
  std::vector<std::uint8_t> found = file.durable;
  for (const Change& change : file.pending) {
    const std::size_t before = found.size();
    switch (random() % 4) {
      case 0:
        break;
      case 1:
      case 2:
        carry_out(change, found);
        break;
      default:
        // Torn: each sector that it touches by itself.
        if (change.truncates) break;
        for (std::size_t at = 0; at < change.bytes.size();) {
          const std::size_t end =
              std::min(change.bytes.size(),
                       ((change.offset + at) / sector + 1) * sector - change.offset);
          if (random() % 2 == 0) {
            carry_out({change.offset + at,
                       {change.bytes.begin() + static_cast<std::ptrdiff_t>(at),
                        change.bytes.begin() + static_cast<std::ptrdiff_t>(end)},
                       false},
                      found);
          }
          at = end;
        }
    }
    // Where a file grew past what was written, anything may stand.
    if (found.size() > before && change.offset > before && random() % 2 == 0) {
      for (std::size_t at = before; at < change.offset; ++at) {
        found[at] = static_cast<std::uint8_t>(random());
      }
    }
  }
  return found;
}

std::unique_ptr<CrashDisk> CrashDisk::after_crash(std::mt19937_64& random) const {
  auto disk = std::make_unique<CrashDisk>();
  const auto put = [&](const std::string& name, const Contents& file) {
    auto contents = std::make_shared<Contents>();
    contents->durable = survivors(file, random);
    contents->now = contents->durable;
    contents->named = true;
    disk->files_.emplace(name, std::move(contents));
  };
  for (const auto& [name, file] : files_) {
    if (file->named || random() % 2 == 0) put(name, *file);
  }
  for (const auto& [name, file] : removed_) {
    if (!files_.contains(name) && random() % 2 == 0) put(name, *file);
  }
  return disk;
}

}  // namespace lynearm::store::test
