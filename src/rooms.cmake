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
# Libraries that a library we use names, but whose code we do not call, need not be loaded at start.
add_link_options(-Wl,--as-needed -Wl,-O1 -Wl,--hash-style=gnu)
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

# leafwright_room(<name> [DIR <folder under src>] [USES <room>...])
# The target is room_<name>; DIR defaults to <name>. Headers are included as "<DIR>/header.h". Those at the top of
# the folder are the room's door and open to rooms that name it under USES; what lies in its internal/ is the room's
# own (its tests may look in too). Every .cpp of internal/ belongs to it without being listed.
function(leafwright_room name)
  cmake_parse_arguments(ROOM "" "DIR" "USES" ${ARGN})
  if(NOT ROOM_DIR)
    set(ROOM_DIR ${name})
  endif()
  set(folder ${CMAKE_SOURCE_DIR}/src/${ROOM_DIR})
  set(door ${CMAKE_BINARY_DIR}/doors/${name})
  set(whole ${CMAKE_BINARY_DIR}/rooms/${name})
  file(GLOB headers CONFIGURE_DEPENDS ${folder}/*.h)
  # Links that stand stay as they are, so that configuring anew makes nothing look changed.
  file(MAKE_DIRECTORY ${door}/${ROOM_DIR})
  file(GLOB links LIST_DIRECTORIES false RELATIVE ${door}/${ROOM_DIR} ${door}/${ROOM_DIR}/*.h)
  foreach(header IN LISTS headers)
    get_filename_component(file ${header} NAME)
    if(NOT file IN_LIST links)
      file(CREATE_LINK ${header} ${door}/${ROOM_DIR}/${file} SYMBOLIC)
    endif()
    list(REMOVE_ITEM links ${file})
  endforeach()
  foreach(gone IN LISTS links)
    file(REMOVE ${door}/${ROOM_DIR}/${gone})
  endforeach()
  get_filename_component(parent ${whole}/${ROOM_DIR} DIRECTORY)
  file(MAKE_DIRECTORY ${parent})
  if(NOT EXISTS ${whole}/${ROOM_DIR})
    file(CREATE_LINK ${folder} ${whole}/${ROOM_DIR} SYMBOLIC)
  endif()
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${folder}/internal/*.cpp)
  add_library(room_${name} STATIC ${sources})
  target_include_directories(room_${name} PRIVATE ${whole} PUBLIC ${door})
  target_link_libraries(room_${name} PRIVATE leafwright_warnings PUBLIC fmt::fmt)
  set_target_properties(room_${name} PROPERTIES UNITY_BUILD ${LEAFWRIGHT_UNITY} UNITY_BUILD_BATCH_SIZE 8)
  foreach(used IN LISTS ROOM_USES)
    target_link_libraries(room_${name} PUBLIC room_${used})
  endforeach()
endfunction()

# leafwright_always_optimized(<name>): also with sanitizers, for rooms whose searches take most of the tests' time.
function(leafwright_always_optimized name)
  if(LEAFWRIGHT_SANITIZE)
    target_compile_options(room_${name} PRIVATE -O2)
  endif()
endfunction()

# leafwright_tests(<name> USES <room>... FILES <source>...): one doctest program, one ctest entry.
function(leafwright_tests name)
  cmake_parse_arguments(T "" "" "USES;FILES" ${ARGN})
  add_executable(${name}_tests ${T_FILES})
  set_target_properties(${name}_tests PROPERTIES UNITY_BUILD ${LEAFWRIGHT_UNITY} UNITY_BUILD_BATCH_SIZE 6)
  target_link_libraries(${name}_tests PRIVATE leafwright_warnings doctest_main)
  foreach(used IN LISTS T_USES)
    target_link_libraries(${name}_tests PRIVATE room_${used})
    target_include_directories(${name}_tests BEFORE PRIVATE ${CMAKE_BINARY_DIR}/rooms/${used})
  endforeach()
  target_compile_definitions(${name}_tests PRIVATE
    LEAFWRIGHT_SOURCE_DIR="${CMAKE_SOURCE_DIR}" LEAFWRIGHT_BINARY_DIR="${CMAKE_BINARY_DIR}")
  add_test(NAME ${name} COMMAND ${name}_tests)
endfunction()
