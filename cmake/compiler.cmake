# Language, warnings, sanitizers and the compiler cache: the same for every target.

if(NOT CMAKE_BUILD_TYPE AND NOT CMAKE_CONFIGURATION_TYPES)
  set(CMAKE_BUILD_TYPE Release CACHE STRING "Kind of build" FORCE)
endif()

set(CMAKE_CXX_STANDARD 20)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)
# -O2, not CMake's -O3: no slower here, and g++ 12 warns falsely less often.
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG")

# A warning stops the build; `cmake --compile-no-warning-as-error` lets a packager pass.
if(NOT DEFINED CMAKE_COMPILE_WARNING_AS_ERROR)
  set(CMAKE_COMPILE_WARNING_AS_ERROR ON)
endif()
add_compile_options(-Wall -Wextra -Wpedantic)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # g++ 12 reports a false overlap for `"text" + std::to_string(n)` (GCC bug 105651).
  add_compile_options(-Wno-restrict)
endif()

if(CMAKE_CXX_COMPILER_ID STREQUAL "Clang" AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 16)
  message(FATAL_ERROR "clang ${CMAKE_CXX_COMPILER_VERSION} has no std::source_location with libstdc++: use clang++-16 or g++ 12")
endif()

if(BENCHGRAFT_FUZZ)
  if(NOT CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
    message(FATAL_ERROR "BENCHGRAFT_FUZZ needs clang: cmake --preset fuzz, or -DCMAKE_CXX_COMPILER=clang++-16")
  endif()
  # Our own code must be instrumented, not only the target: otherwise the fuzzer runs blind.
  add_compile_options(-fsanitize=fuzzer-no-link)
endif()

if(BENCHGRAFT_SANITIZE)
  set(sanitize_flags -fsanitize=${BENCHGRAFT_SANITIZE} -fno-sanitize-recover=all)
  add_compile_options(${sanitize_flags} -fno-omit-frame-pointer -g1)
  add_link_options(${sanitize_flags})
endif()

find_program(CCACHE_PROGRAM ccache)
if(CCACHE_PROGRAM AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${CCACHE_PROGRAM})
endif()
