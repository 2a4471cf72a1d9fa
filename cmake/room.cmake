# lynearm_room(NAME USES room... LIBRARIES target... SOURCES file... [ALONE file...])
#
# Makes the library target lynearm_<name> (alias lynearm::<name>) from the
# sources beside the calling file, with the house's warnings, and notes which
# rooms it uses; tests/house/room_uses_test.py holds the includes against that
# note. A header-only room gives no SOURCES. Sources are compiled eight together
# (LYNEARM_TOGETHER), since most of the time goes to the headers that they share;
# those ALONE have a name in their unnamed namespace that another of the eight has
# too, and are compiled one by one, as all are under preset "debug".

add_library(lynearm_warnings INTERFACE)
target_compile_options(
  lynearm_warnings
  INTERFACE -Wall
            -Wextra
            -Wpedantic
            -Wconversion
            -Werror
            # A local name may well be that of another source's unnamed namespace.
            $<$<NOT:$<BOOL:${LYNEARM_TOGETHER}>>:-Wshadow>
            # The same figures from every compiler: no fused multiply-add.
            -ffp-contract=off)

set_property(GLOBAL PROPERTY LYNEARM_ROOM_USES "")

# Rooms of texts, files and sockets: no kernel is in them.
set(LYNEARM_ROOMS_OF_TEXT recipe journal wire sheet store serve station cli)

# What a target is compiled from: its sources, or files that include eight of them each. CMake's
# own unity build names sources by their absolute path, so that the compiler cache finds nothing
# of it in another clone; these are named from `top`, which must be an include folder.
function(lynearm_together target top sources alone out)
  set(together)
  set(result)
  foreach(source ${sources})
    if(LYNEARM_TOGETHER AND source MATCHES "^[a-z0-9_]+\\.cpp$" AND NOT source IN_LIST alone)
      list(APPEND together ${source})
    else()
      list(APPEND result ${source})
    endif()
  endforeach()
  file(RELATIVE_PATH folder ${top} ${CMAKE_CURRENT_SOURCE_DIR})
  set(number 0)
  while(together)
    list(SUBLIST together 0 8 eight)
    list(REMOVE_ITEM together ${eight})
    list(TRANSFORM eight REPLACE "(.+)" "#include \"${folder}/\\1\"")
    list(JOIN eight "\n" content)
    set(file ${CMAKE_CURRENT_BINARY_DIR}/together/${target}_${number}.cpp)
    file(CONFIGURE OUTPUT ${file} CONTENT "${content}\n" @ONLY)
    list(APPEND result ${file})
    math(EXPR number "${number} + 1")
  endwhile()
  set(${out} ${result} PARENT_SCOPE)
endfunction()

function(lynearm_room name)
  cmake_parse_arguments(ROOM "" "" "USES;LIBRARIES;SOURCES;ALONE" ${ARGN})
  set(target lynearm_${name})
  lynearm_together(${target} ${CMAKE_SOURCE_DIR}/src "${ROOM_SOURCES}" "${ROOM_ALONE}" compiled)
  list(TRANSFORM ROOM_USES PREPEND "lynearm::" OUTPUT_VARIABLE used_targets)
  if(ROOM_SOURCES)
    add_library(${target} STATIC ${compiled})
    target_include_directories(${target} PUBLIC ${CMAKE_SOURCE_DIR}/src)
    target_link_libraries(
      ${target}
      PUBLIC ${used_targets}
      PRIVATE lynearm_warnings ${ROOM_LIBRARIES})
  else()
    add_library(${target} INTERFACE)
    target_include_directories(${target} INTERFACE ${CMAKE_SOURCE_DIR}/src)
    target_link_libraries(${target} INTERFACE ${used_targets} ${ROOM_LIBRARIES})
  endif()
  if(LYNEARM_TEXT_AS_WRITTEN AND name IN_LIST LYNEARM_ROOMS_OF_TEXT)
    target_compile_options(${target} PRIVATE -O0)
  endif()
  add_library(lynearm::${name} ALIAS ${target})
  string(REPLACE ";" " " uses "${ROOM_USES}")
  set_property(GLOBAL APPEND PROPERTY LYNEARM_ROOM_USES "${name}: ${uses}")
endfunction()

# One line a room, "spirit: units numeric", for the test that guards the floors.
function(lynearm_write_room_uses)
  get_property(lines GLOBAL PROPERTY LYNEARM_ROOM_USES)
  string(REPLACE ";" "\n" text "${lines}")
  file(WRITE ${CMAKE_BINARY_DIR}/room_uses.txt "${text}\n")
endfunction()

# Where the sources and the build stand, for the few tests that open files. In a header of its
# own, so that the compiler cache holds for every other test in another clone.
file(
  CONFIGURE
  OUTPUT ${CMAKE_BINARY_DIR}/generated/places.hpp
  CONTENT
    "#pragma once\n#define LYNEARM_SOURCE_DIR \"@CMAKE_SOURCE_DIR@\"\n#define LYNEARM_BUILD_DIR \"@CMAKE_BINARY_DIR@\"\n"
  @ONLY)

# lynearm_test(NAME USES room... SOURCES file... [ALONE file...])
# A GoogleTest program of its own; each source file is a test file.
function(lynearm_test name)
  cmake_parse_arguments(TEST "" "" "USES;LIBRARIES;SOURCES;ALONE" ${ARGN})
  lynearm_together(${name} ${CMAKE_SOURCE_DIR}/tests "${TEST_SOURCES}" "${TEST_ALONE}" compiled)
  list(TRANSFORM TEST_USES PREPEND "lynearm::" OUTPUT_VARIABLE used_targets)
  add_executable(${name} ${compiled})
  target_link_libraries(${name} PRIVATE ${used_targets} lynearm_warnings ${TEST_LIBRARIES}
                                        GTest::gmock GTest::gtest_main)
  # The rooms are what is to be fast; a test's own text is compiled in two thirds of the time so.
  if(LYNEARM_TEXT_AS_WRITTEN)
    target_compile_options(${name} PRIVATE -O0)
  else()
    target_compile_options(${name} PRIVATE $<$<NOT:$<CONFIG:Debug>>:-O1>)
  endif()
  target_include_directories(${name} PRIVATE ${CMAKE_SOURCE_DIR}/tests
                                             ${CMAKE_BINARY_DIR}/generated)
  add_test(NAME ${name} COMMAND ${name})
endfunction()
