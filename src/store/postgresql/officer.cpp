#include "store/postgresql/officer.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "store/postgresql/connection.hpp"
#include "store/postgresql/schema.hpp"

namespace lynearm::store::postgresql {

std::string officers_grants(const std::string& role) {
  constexpr std::size_t most = 63;  // a longer name would be cut short, and mean another role
  if (role.empty() || role.size() > most || role.find('\0') != std::string::npos) {
    throw base::InputError("officer", role, fmt::format("a role's name, up to {} bytes", most));
  }
  std::string name;
  for (const char c : role) name += c == '"' ? std::string("\"\"") : std::string(1, c);
  return fmt::format(
      "GRANT USAGE ON SCHEMA lynearm TO \"{0}\";\n"
      "GRANT SELECT ON lynearm.entry, lynearm.attachment, lynearm.version TO \"{0}\";\n",
      name);
}

namespace {

Connection reached(const std::string& uri) {
  try {
    return Connection(uri);
  } catch (const Trouble& trouble) {
    refuse_place(uri, trouble);
  }
}

}  // namespace

void admit_officer(const std::string& uri, const std::string& role) {
  const std::string grants = officers_grants(role);
  Connection connection = reached(uri);
  require_up_to_date(connection, uri);
  if (connection.run("SELECT 1 FROM pg_roles WHERE rolname = $1", {role}).rows() == 0) {
    throw base::InputError("officer", role, "a role that the database knows");
  }
  const auto may = [&](const char* what) {
    return connection.run("SELECT has_table_privilege($1, 'lynearm.entry', $2)", {role, what})
               .text(0, 0) == "t";
  };
  // A superuser, the keeper itself or one of its members: nothing we grant would bound it.
  if (may("INSERT")) {
    throw base::InputError("officer", role, "a role of its own: this one may write");
  }
  try {
    connection.run_all(grants);
  } catch (const Trouble& trouble) {
    if (trouble.kind() != Trouble::Kind::failed) throw;
  }
  // Where the grants are not ours to give, PostgreSQL may only warn.
  if (!may("SELECT")) {
    throw base::InputError("store", shown(uri), "the role that keeps the house");
  }
}

}  // namespace lynearm::store::postgresql
