# Which module uses which outside library. They are linked PRIVATE: no public header may need them.
# All of them are imported targets, whose include folders CMake passes as SYSTEM: their warnings are not ours.

find_package(PkgConfig REQUIRED)
find_package(fmt 9.1 REQUIRED)
find_package(Boost 1.74 REQUIRED)  # headers only: Boost.Math
find_package(nlohmann_json 3.11 REQUIRED)
find_package(CLI11 REQUIRED)
find_package(SQLite3 REQUIRED)
find_package(SQLiteCpp REQUIRED)
pkg_check_modules(CLP REQUIRED IMPORTED_TARGET clp)
pkg_check_modules(CBC REQUIRED IMPORTED_TARGET cbc)
# Always the compiled library: header-only toml++ 3.3 has undefined behaviour on stray non-ASCII bytes.
pkg_check_modules(TOML REQUIRED IMPORTED_TARGET tomlplusplus)
pkg_check_modules(TURBOJPEG REQUIRED IMPORTED_TARGET libturbojpeg)
pkg_check_modules(LIBPNG REQUIRED IMPORTED_TARGET libpng)
# Debian's small OpenCV packages bring neither a CMake config nor a .pc file (those pull in all of OpenCV).
find_path(OPENCV_INCLUDE opencv2/core.hpp PATH_SUFFIXES opencv4 REQUIRED)
function(benchgraft_find_opencv part)
  find_library(OPENCV_${part} opencv_${part} REQUIRED)
  add_library(benchgraft_opencv_${part} INTERFACE)
  target_include_directories(benchgraft_opencv_${part} SYSTEM INTERFACE ${OPENCV_INCLUDE})
  target_link_libraries(benchgraft_opencv_${part} INTERFACE ${OPENCV_${part}} ${ARGN})
endfunction()
benchgraft_find_opencv(core)
benchgraft_find_opencv(imgproc benchgraft_opencv_core)

if(BUILD_TESTING)
  find_package(GTest 1.12 REQUIRED)
  find_package(rapidcheck REQUIRED)
  # Only the renderer of test photos: it draws in over a hundred libraries, which the program must not load.
  benchgraft_find_opencv(imgcodecs benchgraft_opencv_imgproc)
endif()
if(BENCHGRAFT_BENCH)
  find_package(benchmark 1.7 REQUIRED)
endif()

set(BENCHGRAFT_USES_base fmt::fmt)
set(BENCHGRAFT_USES_num PkgConfig::CBC PkgConfig::CLP Boost::headers)
set(BENCHGRAFT_USES_catalogue PkgConfig::TOML fmt::fmt)
set(BENCHGRAFT_USES_shop PkgConfig::TOML fmt::fmt)
set(BENCHGRAFT_USES_store SQLiteCpp SQLite::SQLite3 fmt::fmt)
set(BENCHGRAFT_USES_fit fmt::fmt)
set(BENCHGRAFT_USES_plan fmt::fmt)
set(BENCHGRAFT_USES_steps fmt::fmt)
set(BENCHGRAFT_USES_align benchgraft_opencv_imgproc PkgConfig::TURBOJPEG PkgConfig::LIBPNG fmt::fmt)
set(BENCHGRAFT_USES_sheets nlohmann_json::nlohmann_json fmt::fmt)
set(BENCHGRAFT_USES_tasks fmt::fmt)
set(BENCHGRAFT_USES_cli CLI11::CLI11 nlohmann_json::nlohmann_json fmt::fmt)
