// The schema `lynearm` of a PostgreSQL database: made new, or brought from any earlier version
// to ours; and who may read it.
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

/// Lets a role read the journal and the attachments, and nothing else: for an officer who looks
/// over the house's books. The role is made by whoever runs the database.
///
/// uri        of the role that the server uses
/// throws     InputError at "officer" when there is no such role; Trouble
void admit_officer(const std::string& uri, const std::string& role);

}  // namespace lynearm::store::postgresql
