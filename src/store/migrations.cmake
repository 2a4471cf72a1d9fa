# lynearm_write_migrations(OUTPUT SQLITE number... POSTGRESQL number...)
# The listed migrations/NNNN.sql of the two databases as text in one source.

function(lynearm_write_migrations output)
  cmake_parse_arguments(OF "" "" "SQLITE;POSTGRESQL" ${ARGN})
  set(MIGRATIONS "")
  foreach(database sqlite postgresql)
    string(TOUPPER ${database} key)
    set(texts "")
    foreach(number ${OF_${key}})
      set(file ${CMAKE_CURRENT_SOURCE_DIR}/${database}/migrations/${number}.sql)
      file(READ ${file} sql)
      string(APPEND texts "    R\"sql(${sql})sql\",\n")
      set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${file})
    endforeach()
    string(APPEND MIGRATIONS "constexpr std::string_view ${database}_steps[] = {\n${texts}};\n\n")
  endforeach()
  file(CONFIGURE OUTPUT ${output} CONTENT
"// Made by src/store/migrations.cmake from the SQL files beside it.
#include \"store/migration.hpp\"

namespace lynearm::store {
namespace {

@MIGRATIONS@}  // namespace

std::span<const std::string_view> sqlite_migrations() { return sqlite_steps; }
std::span<const std::string_view> postgresql_migrations() { return postgresql_steps; }

}  // namespace lynearm::store
" @ONLY)
endfunction()
