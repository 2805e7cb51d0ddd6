# How the rooms under src/ are built. Each room is a static library with an include root of its own
# (a folder that holds nothing but a link to that room), so that a header of a room that was not
# named under USES cannot be found: a wrong include fails to compile.

find_package(PkgConfig REQUIRED)
find_package(fmt REQUIRED)
find_package(Threads REQUIRED)

add_library(leafwright_warnings INTERFACE)
target_compile_options(leafwright_warnings INTERFACE -Wall -Wextra -Wpedantic -Wconversion -Wshadow
                                                     -Werror)
if(CMAKE_CXX_COMPILER_ID STREQUAL GNU)
  # Two warnings of g++ 12 speak falsely in optimised builds (known faults of that version): overlaps
  # inside std::string's own operator+, and members of a std::variant's other alternatives "used
  # uninitialized". The sanitizers and clang's analyser look for the real ones.
  target_compile_options(leafwright_warnings INTERFACE -Wno-restrict -Wno-maybe-uninitialized)
endif()
if(LEAFWRIGHT_SANITIZE)
  add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=all
                      -fno-omit-frame-pointer)
  add_link_options(-fsanitize=address,undefined)
endif()

# leafwright_packages(<target> PUBLIC|PRIVATE <pkg-config name>...): system headers, no warnings.
function(leafwright_packages target scope)
  foreach(name IN LISTS ARGN)
    string(MAKE_C_IDENTIFIER ${name} id)
    if(NOT TARGET PkgConfig::lw_${id})
      pkg_check_modules(lw_${id} REQUIRED IMPORTED_TARGET GLOBAL ${name})
    endif()
    target_link_libraries(${target} ${scope} PkgConfig::lw_${id})
  endforeach()
endfunction()

# leafwright_room(<name> [DIR <folder under src>] [USES <room>...] FILES <source>...)
# The target is room_<name>; DIR defaults to <name>. Headers are included as "<DIR>/header.h".
function(leafwright_room name)
  cmake_parse_arguments(ROOM "" "DIR" "USES;FILES" ${ARGN})
  if(NOT ROOM_DIR)
    set(ROOM_DIR ${name})
  endif()
  set(root ${CMAKE_BINARY_DIR}/rooms/${name})
  get_filename_component(parent ${root}/${ROOM_DIR} DIRECTORY)
  file(MAKE_DIRECTORY ${parent})
  if(NOT EXISTS ${root}/${ROOM_DIR})
    file(CREATE_LINK ${CMAKE_SOURCE_DIR}/src/${ROOM_DIR} ${root}/${ROOM_DIR} SYMBOLIC)
  endif()
  add_library(room_${name} STATIC ${ROOM_FILES})
  target_include_directories(room_${name} PUBLIC ${root})
  target_link_libraries(room_${name} PRIVATE leafwright_warnings PUBLIC fmt::fmt)
  set_target_properties(room_${name} PROPERTIES UNITY_BUILD ${LEAFWRIGHT_UNITY} UNITY_BUILD_BATCH_SIZE 8)
  foreach(used IN LISTS ROOM_USES)
    target_link_libraries(room_${name} PUBLIC room_${used})
  endforeach()
endfunction()

# leafwright_tests(<name> USES <room>... FILES <source>...): one doctest program, one ctest entry.
function(leafwright_tests name)
  cmake_parse_arguments(T "" "" "USES;FILES" ${ARGN})
  add_executable(${name}_tests ${T_FILES})
  target_link_libraries(${name}_tests PRIVATE leafwright_warnings doctest_main)
  foreach(used IN LISTS T_USES)
    target_link_libraries(${name}_tests PRIVATE room_${used})
  endforeach()
  target_compile_definitions(${name}_tests PRIVATE
    LEAFWRIGHT_SOURCE_DIR="${CMAKE_SOURCE_DIR}" LEAFWRIGHT_BINARY_DIR="${CMAKE_BINARY_DIR}")
  add_test(NAME ${name} COMMAND ${name}_tests)
endfunction()
