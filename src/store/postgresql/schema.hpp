// The schema `lynearm` of a PostgreSQL database: made new, or brought from any earlier version
// to ours.
#pragma once

#include <string>

#include "store/postgresql/connection.hpp"

namespace lynearm::store::postgresql {

/// In one transaction: all steps or none; two servers that start at once wait for each other.
/// throws     InputError at "store" when the schema is newer than this program's, or the role
///            may not make one
void bring_up_to_date(Connection& connection, const std::string& uri);

/// For a role that only reads.
/// throws     InputError at "store" unless there is a schema of our version that it may read
void require_up_to_date(Connection& connection, const std::string& uri);

}  // namespace lynearm::store::postgresql
