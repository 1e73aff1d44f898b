# Turns tools/layers.txt into libraries: one module, one folder of src/, one static library bg_<module>.

include(GNUInstallDirs)

# Reads layers.txt into BENCHGRAFT_MODULES (in order) and BENCHGRAFT_MAY_<module>.
function(benchgraft_read_layers)
  set(layers_file ${PROJECT_SOURCE_DIR}/tools/layers.txt)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${layers_file})
  file(STRINGS ${layers_file} lines REGEX "^[^#]")
  set(earlier "")
  foreach(line IN LISTS lines)
    if(NOT line MATCHES "^([a-z]+):(.*)$")
      message(FATAL_ERROR "tools/layers.txt: \"${line}\" is not \"module: modules it may include\"")
    endif()
    set(module ${CMAKE_MATCH_1})
    string(REGEX MATCHALL "[a-z*]+" allowed "${CMAKE_MATCH_2}")
    if(allowed STREQUAL "*")
      set(allowed ${earlier})
    endif()
    foreach(name IN LISTS allowed)
      if(NOT name IN_LIST earlier)
        message(FATAL_ERROR "tools/layers.txt: ${module} names ${name}, which is not on an earlier line")
      endif()
    endforeach()
    set(BENCHGRAFT_MAY_${module} ${allowed} PARENT_SCOPE)
    list(APPEND earlier ${module})
  endforeach()
  set(BENCHGRAFT_MODULES ${earlier} PARENT_SCOPE)
endfunction()

# Fails when src/ holds a folder that layers.txt does not know.
function(benchgraft_refuse_unknown_folders)
  file(GLOB folders CONFIGURE_DEPENDS LIST_DIRECTORIES true RELATIVE ${PROJECT_SOURCE_DIR}/src
       ${PROJECT_SOURCE_DIR}/src/*)
  foreach(folder IN LISTS folders)
    if(IS_DIRECTORY ${PROJECT_SOURCE_DIR}/src/${folder} AND NOT folder IN_LIST BENCHGRAFT_MODULES)
      message(FATAL_ERROR "src/${folder} has no line in tools/layers.txt: add one, or move the folder")
    endif()
  endforeach()
endfunction()

# Judges the includes of one module before it compiles, so a forbidden one stops the build where it stands.
function(benchgraft_check_includes module files)
  set(stamp ${PROJECT_BINARY_DIR}/layers/${module}.checked)
  set(checker ${PROJECT_SOURCE_DIR}/tools/check_layers)
  add_custom_command(
    OUTPUT ${stamp}
    COMMAND ${checker} --module ${module}
    COMMAND ${CMAKE_COMMAND} -E touch ${stamp}
    DEPENDS ${files} ${checker} ${PROJECT_SOURCE_DIR}/tools/layers.txt
    COMMENT "Checking the includes of src/${module}"
    VERBATIM)
  add_custom_target(layers_${module} DEPENDS ${stamp})
  add_dependencies(bg_${module} layers_${module})
endfunction()

function(benchgraft_add_module module)
  file(GLOB sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/src/${module}/*.cpp)
  file(GLOB headers CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/src/${module}/*.hpp)
  set(judged ${sources} ${headers})
  list(REMOVE_ITEM sources ${PROJECT_SOURCE_DIR}/src/cli/main.cpp)

  if(sources)
    add_library(bg_${module} STATIC ${sources} ${headers})
    set(scope PUBLIC)
    target_link_libraries(bg_${module} PRIVATE ${BENCHGRAFT_USES_${module}})
  else()
    add_library(bg_${module} INTERFACE)
    set(scope INTERFACE)
  endif()
  add_library(benchgraft::${module} ALIAS bg_${module})
  target_include_directories(bg_${module} ${scope} ${PROJECT_SOURCE_DIR}/src)
  foreach(allowed IN LISTS BENCHGRAFT_MAY_${module})
    if(TARGET bg_${allowed})
      target_link_libraries(bg_${module} ${scope} benchgraft::${allowed})
    endif()
  endforeach()
  benchgraft_check_includes(${module} "${judged}")
endfunction()

# Defines every module; BENCHGRAFT_PRESENT lists those whose folder exists.
macro(benchgraft_add_modules)
  benchgraft_read_layers()
  benchgraft_refuse_unknown_folders()
  set(BENCHGRAFT_PRESENT "")
  foreach(module IN LISTS BENCHGRAFT_MODULES)
    if(IS_DIRECTORY ${PROJECT_SOURCE_DIR}/src/${module})
      benchgraft_add_module(${module})
      list(APPEND BENCHGRAFT_PRESENT ${module})
    else()
      message(STATUS "src/${module} does not exist yet: skipped")
    endif()
  endforeach()
endmacro()

# Links a target to every module present.
function(benchgraft_link_everything target)
  set(names ${BENCHGRAFT_PRESENT})
  list(TRANSFORM names PREPEND "benchgraft::")
  target_link_libraries(${target} PRIVATE ${names})
endfunction()

# The program, and what it reads at run time: kinds of set and part, safety limits.
# BENCHGRAFT_DATA_DIR is the data of this source tree; where that is gone, the program is an installed one.
function(benchgraft_add_program)
  if(TARGET bg_tasks)
    get_target_property(type bg_tasks TYPE)
    if(NOT type STREQUAL "INTERFACE_LIBRARY")
      target_compile_definitions(bg_tasks PRIVATE
        BENCHGRAFT_DATA_DIR="${PROJECT_SOURCE_DIR}/data"
        BENCHGRAFT_INSTALLED_DATA_DIR="${CMAKE_INSTALL_FULL_DATADIR}/benchgraft")
    endif()
  endif()
  file(GLOB main CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/src/cli/main.cpp)
  if(NOT main)
    message(STATUS "src/cli/main.cpp does not exist yet: no program")
    return()
  endif()
  add_executable(benchgraft ${main})
  target_link_libraries(benchgraft PRIVATE benchgraft::cli)
  set_target_properties(benchgraft PROPERTIES RUNTIME_OUTPUT_DIRECTORY ${PROJECT_BINARY_DIR})
  install(TARGETS benchgraft RUNTIME)
  foreach(folder IN ITEMS kinds limits)
    if(IS_DIRECTORY ${PROJECT_SOURCE_DIR}/data/${folder})
      install(DIRECTORY data/${folder} DESTINATION ${CMAKE_INSTALL_DATADIR}/benchgraft)
    endif()
  endforeach()
endfunction()
