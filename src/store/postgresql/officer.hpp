// An officer who looks over the house's books: a role of the database that reads the journal
// and the attachments, and nothing else. The database itself refuses it all the rest.
#pragma once

#include <string>

namespace lynearm::store::postgresql {

/// What lets a role read the journal and the attachments, and nothing else, as statements.
///
/// throws     InputError at "officer" when this cannot be a role's name
[[nodiscard]] std::string officers_grants(const std::string& role);

/// Carries them out: for an officer who looks over the house's books. The role is made by
/// whoever runs the database.
///
/// uri        of the role that the server uses
/// throws     InputError at "officer" when there is no such role, or it may write into the
///            house; at "store" when there is no house, or this role may not admit others to
///            it; Trouble
void admit_officer(const std::string& uri, const std::string& role);

}  // namespace lynearm::store::postgresql
