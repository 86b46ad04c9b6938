# Precompiled headers: Boost.JSON, fmt, spdlog and GoogleTest are most of what a file of ours compiles.
# They are read once, and every target of the same kind shares the result.  A file still includes
# what it uses: the plugins that tests/outside builds against the installed SDK have none of this.
set(barmkeep_common_headers
  <algorithm> <array> <chrono> <filesystem> <functional> <map> <memory> <mutex> <optional> <set>
  <span> <string> <string_view> <variant> <vector>)

# barmkeep_headers(TARGET HEADERS header... [LIBRARIES library...]): a target that holds one set.
function(barmkeep_headers target)
  cmake_parse_arguments(SET "" "" "HEADERS;LIBRARIES" ${ARGN})
  file(GENERATE OUTPUT ${CMAKE_BINARY_DIR}/precompiled/${target}.cpp CONTENT "// holds precompiled headers\n")
  add_library(${target} STATIC ${CMAKE_BINARY_DIR}/precompiled/${target}.cpp)
  target_link_libraries(${target} PRIVATE barmkeep_build ${SET_LIBRARIES})
  target_precompile_headers(${target} PRIVATE ${barmkeep_common_headers} ${SET_HEADERS})
endfunction()

# barmkeep_reuse(SET target...): these targets share that set.
function(barmkeep_reuse set)
  if(BARMKEEP_PRECOMPILED)
    foreach(target ${ARGN})
      get_target_property(sources ${target} SOURCES)
      if(NOT sources MATCHES "\\.c(;|$)") # the set is C++ only
        target_precompile_headers(${target} REUSE_FROM ${set})
      endif()
    endforeach()
  endif()
endfunction()

# barmkeep_precompile(folder...): every compiled target below these folders shares the common set.
function(barmkeep_precompile)
  foreach(folder ${ARGN})
    get_property(targets DIRECTORY ${folder} PROPERTY BUILDSYSTEM_TARGETS)
    foreach(target ${targets})
      get_target_property(kind ${target} TYPE)
      if(kind MATCHES "LIBRARY|EXECUTABLE" AND NOT kind STREQUAL "INTERFACE_LIBRARY")
        barmkeep_reuse(barmkeep_common ${target})
      endif()
    endforeach()
    get_property(below DIRECTORY ${folder} PROPERTY SUBDIRECTORIES)
    barmkeep_precompile(${below})
  endforeach()
endfunction()

if(BARMKEEP_PRECOMPILED)
  # What the set was compiled with must hold wherever it is used, also where a library is not linked.
  foreach(library Boost::json fmt::fmt spdlog::spdlog)
    target_compile_definitions(barmkeep_build INTERFACE
      $<BUILD_INTERFACE:$<TARGET_PROPERTY:${library},INTERFACE_COMPILE_DEFINITIONS>>)
  endforeach()
  barmkeep_headers(barmkeep_common HEADERS <boost/json.hpp> <fmt/format.h> <spdlog/logger.h>
    LIBRARIES Boost::json fmt::fmt spdlog::spdlog)
endif()
