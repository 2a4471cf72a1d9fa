#include "store/house.hpp"

#include <optional>
#include <system_error>

#include "base/error.hpp"
#include "store/durable_file.hpp"
#include "store/postgresql/connection.hpp"
#include "store/postgresql/engine.hpp"
#include "store/postgresql/listener.hpp"
#include "store/postgresql/tables.hpp"
#include "store/sqlite/devices.hpp"
#include "store/sqlite/engine.hpp"

namespace lynearm::store {
namespace {

namespace fs = std::filesystem;

void require_folder(const Place& place) {
  std::error_code none;
  if (fs::is_directory(place.folder, none)) return;
  const fs::path above = fs::absolute(place.folder, none).parent_path();
  if (place.only_read || fs::exists(place.folder, none) || !fs::is_directory(above, none)) {
    throw base::InputError("store", place.folder.string(),
                           place.only_read
                               ? "the folder of a house"
                               : "a folder, or a new one in a folder that is there");
  }
  try {
    make_folder_durably(place.folder);
  } catch (const Trouble&) {
    throw base::InputError("store", place.folder.string(), "a folder that can be made");
  }
}

// An officer's role may not see the devices.
class NoDevices final : public DeviceTable {
 public:
  std::vector<Device> all() override { return {}; }
  void add(const Device&) override { refuse(); }
  void revoke(const std::string&, journal::Moment) override { refuse(); }
  void seen(const std::string&, journal::Moment) override {}

 private:
  [[noreturn]] static void refuse() {
    throw Trouble(Trouble::Kind::failed, "this role may only read the house");
  }
};

}  // namespace

// What keeps others out of the folder, or hears of them in the database.
struct House::Held {
  std::optional<Lock> lock;
  std::optional<postgresql::Listener> devices_elsewhere;
};

bool is_database(const std::string& uri) {
  return uri.starts_with("postgresql://") || uri.starts_with("postgres://");
}

House::House(const Place& place)
    : folder_(place.folder), database_(place.database), held_(std::make_unique<Held>()) {
  if (place.database.empty()) {
    open_folder(place);
  } else if (is_database(place.database)) {
    open_database(place);
  } else {
    throw base::InputError("store", place.database, "\"postgresql://...\", or nothing");
  }
}

House::~House() {
  // First whoever calls into the others.
  held_->devices_elsewhere.reset();
}

std::string House::where() const {
  return database_.empty() ? folder_.string() : postgresql::shown(database_);
}

void House::open_folder(const Place& place) {
  require_folder(place);
  const fs::path file = folder_ / "house.db";
  const sqlite::Use use = place.only_read ? sqlite::Use::read : sqlite::Use::keep;
  if (!place.only_read) held_->lock.emplace(folder_ / "house.lock");
  auto engine = std::make_unique<sqlite::SqliteEngine>(file, use);
  devices_ = std::make_unique<Devices>(
      std::make_unique<sqlite::SqliteDevices>(file, use, engine->log()));
  attachments_ = std::make_unique<AttachmentFolder>(folder_ / "files");
  journal_ = std::make_unique<Journal>(std::move(engine));
}

void House::open_database(const Place& place) {
  const std::string& uri = place.database;
  auto engine = std::make_unique<postgresql::PostgresqlEngine>(uri, place.only_read);
  if (place.only_read) {
    devices_ = std::make_unique<Devices>(std::make_unique<NoDevices>());
  } else {
    devices_ = std::make_unique<Devices>(std::make_unique<postgresql::PostgresqlDevices>(uri));
  }
  attachments_ = std::make_unique<postgresql::PostgresqlAttachments>(uri);
  journal_ = std::make_unique<Journal>(std::move(engine));
  if (place.only_read) return;
  const auto refresh = [this] { devices_->refresh(); };
  held_->devices_elsewhere.emplace(
      uri, postgresql::devices_channel, [refresh](const std::string&) { refresh(); }, refresh);
}

}  // namespace lynearm::store
