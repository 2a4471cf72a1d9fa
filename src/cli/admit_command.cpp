// lynearm admit: an officer's role may read a house in PostgreSQL, and nothing else.
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/house_place.hpp"
#include "store/postgresql/officer.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_role = "ROLE";
constexpr const char* option_store = "--store";
constexpr const char* option_show = "--show";

std::string run(Arguments& arguments, const Look& look) {
  const std::string role =
      arguments.required_text(option_role, "the name of a role of the database");
  const bool show = arguments.has(option_show);
  std::string database;
  if (!show || arguments.has(option_store)) {
    database =
        arguments.required_text(option_store, "a connection such as postgresql://host/house");
  }
  if (look.json) arguments.refuse("--json", "given", "nothing: there are no figures here");
  arguments.settle();

  return with_names({{"officer", option_role}, {"store", "--store"}}, [&] {
    if (show) return store::postgresql::officers_grants(role);
    if (!store::is_database(database)) {
      throw base::InputError("store", "not a PostgreSQL connection", "\"postgresql://...\"");
    }
    store::postgresql::admit_officer(database, role);
    return fmt::format("{} may read the journal and its attachments, and nothing else.\n",
                       role);
  });
}

}  // namespace

Command admit_command() {
  return {
      "admit",
      "lets an officer's role read a house in PostgreSQL",
      {{option_role, "ROLE", "a role of the database, made by whoever runs it"},
       {option_store, "URL", "the house: \"postgresql://host/house\", as its server has it"},
       {option_show, "", "prints the statements instead of carrying them out"}},
      {"officer --show", "GRANT USAGE ON SCHEMA lynearm TO \"officer\";"},
      "The role sees every entry as it was kept, corrections too, and the photographs; it sees "
      "no\n"
      "paired phone and writes nothing: the database itself refuses that. The officer reads "
      "with any\n"
      "tool that speaks to PostgreSQL, or with \"lynearm export --store URL\" under that "
      "role.\n",
      run};
}

}  // namespace lynearm::cli
