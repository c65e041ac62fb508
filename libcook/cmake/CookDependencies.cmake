# Finds the header-only libraries libcook is built with, and says where each came from.
#
# For each library, in this order:
#   1. a target of that name that a surrounding project already made;
#   2. with COOK_PYTHON_HEADERS: a Python package that carries the headers. Such packages sit at places CMake does
#      not look at by itself, and without this step it would silently take the system's copy instead;
#   3. find_package: the system, CMAKE_PREFIX_PATH, <Name>_ROOT;
#   4. with COOK_FETCH_DEPS: a pinned release archive, checked by hash (downloaded only if 1 to 3 found nothing);
#   5. otherwise one error that names every way out.
#
# Result: the target cook_third_party (Eigen, Boost, nlohmann_json) and, for the tests, doctest::doctest.

include(FetchContent)
include(CookPythonHeaders)

set(cook_summary "")
set(cook_missing "")

# Reads the version out of a header. VERSION_PATTERNS are regular expressions with one group, joined by dots.
function(_cook_header_version result file)
  set(parts "")
  if(EXISTS "${file}")
    foreach(pattern IN LISTS ARGN)
      file(STRINGS "${file}" lines REGEX "${pattern}" LIMIT_COUNT 1)
      if(lines MATCHES "${pattern}")
        string(REPLACE "_" "." part "${CMAKE_MATCH_1}")
        list(APPEND parts "${part}")
      endif()
    endforeach()
  endif()
  list(JOIN parts "." version)
  set(${result} "${version}" PARENT_SCOPE)
endfunction()

# A header-only imported target. Imported targets' include directories are SYSTEM.
function(_cook_header_target target include_dir)
  add_library(${target} INTERFACE IMPORTED GLOBAL)
  target_include_directories(${target} INTERFACE "${include_dir}")
endfunction()

# cook_dependency(<name> TARGET <target> VERSION <minimum> HEADER <path> [HINT <include dir>]
#                 FETCH <url> <sha256> [FETCH_DIR <include dir in the archive>]
#                 VERSION_FILE <header> VERSION_PATTERNS <regex>...  [COMPONENTS <component>...]
#                 APT <package> [PIP <requirement>])
function(cook_dependency name)
  cmake_parse_arguments(
    PARSE_ARGV 1 arg "" "TARGET;VERSION;HEADER;HINT;FETCH_DIR;VERSION_FILE;APT;PIP"
    "FETCH;VERSION_PATTERNS;COMPONENTS")
  set(include_dir "")
  set(version "")
  set(origin "")
  set(rejected "")

  if(TARGET ${arg_TARGET})
    set(origin "the surrounding project")
  endif()

  if(NOT origin AND arg_HINT AND EXISTS "${arg_HINT}/${arg_HEADER}")
    _cook_header_version(version "${arg_HINT}/${arg_VERSION_FILE}" ${arg_VERSION_PATTERNS})
    if(version VERSION_GREATER_EQUAL arg_VERSION)
      _cook_header_target(${arg_TARGET} "${arg_HINT}")
      set(origin "Python package")
      set(include_dir "${arg_HINT}")
    else()
      set(rejected " (the Python package's ${version} is too old)")
    endif()
  endif()

  if(NOT origin)
    set(components "")
    if(arg_COMPONENTS)
      set(components COMPONENTS ${arg_COMPONENTS})
    endif()
    find_package(${name} ${arg_VERSION} CONFIG QUIET GLOBAL ${components})
    if(${name}_FOUND AND TARGET ${arg_TARGET})
      set(origin "find_package")
      set(version "${${name}_VERSION}")
      get_target_property(include_dir ${arg_TARGET} INTERFACE_INCLUDE_DIRECTORIES)
    elseif(${name}_CONSIDERED_VERSIONS)
      string(APPEND rejected " (found ${${name}_CONSIDERED_VERSIONS}, not accepted)")
    endif()
  endif()

  if(NOT origin AND COOK_FETCH_DEPS)
    list(GET arg_FETCH 0 url)
    list(GET arg_FETCH 1 sha256)
    message(STATUS "libcook: downloading ${url}")
    # The archive is only unpacked: SOURCE_SUBDIR names a folder without a CMakeLists.txt, so that none of the
    # library's own targets, options or install rules come in.
    FetchContent_Declare(
      cook_${name}
      URL "${url}"
      URL_HASH "SHA256=${sha256}"
      DOWNLOAD_EXTRACT_TIMESTAMP ON
      SOURCE_SUBDIR "libcook-builds-nothing-here")
    FetchContent_MakeAvailable(cook_${name})
    string(TOLOWER "cook_${name}" lower_name)
    set(include_dir "${${lower_name}_SOURCE_DIR}")
    if(arg_FETCH_DIR)
      string(APPEND include_dir "/${arg_FETCH_DIR}")
    endif()
    if(NOT EXISTS "${include_dir}/${arg_HEADER}")
      message(FATAL_ERROR "libcook: ${name} was fetched but ${include_dir}/${arg_HEADER} is not there")
    endif()
    _cook_header_version(version "${include_dir}/${arg_VERSION_FILE}" ${arg_VERSION_PATTERNS})
    _cook_header_target(${arg_TARGET} "${include_dir}")
    set(origin "fetched")
  endif()

  if(origin)
    set(cook_summary "${cook_summary};${name} ${version}|${origin}|${include_dir}" PARENT_SCOPE)
  else()
    set(cook_missing "${cook_missing};${name} >= ${arg_VERSION}${rejected}|${arg_APT}|${arg_PIP}" PARENT_SCOPE)
  endif()
endfunction()

# One error for everything that is missing, with every way out.
function(_cook_report_missing)
  if(NOT cook_missing)
    return()
  endif()
  set(names "")
  set(apt "")
  set(pip "")
  foreach(entry IN LISTS cook_missing)
    if(entry MATCHES "^(.*)\\|(.*)\\|(.*)$")
      string(APPEND names "    ${CMAKE_MATCH_1}\n")
      string(APPEND apt " ${CMAKE_MATCH_2}")
      if(CMAKE_MATCH_3)
        string(APPEND pip " '${CMAKE_MATCH_3}'")
      endif()
    endif()
  endforeach()
  set(ways "    system packages (Debian, Ubuntu):  apt-get install${apt}\n")
  if(pip)
    string(APPEND ways "    Python packages:                   python -m pip install${pip}\n"
           "                                       and configure with -DCOOK_PYTHON_HEADERS=ON"
           " -DPython_EXECUTABLE=<that python>\n")
  endif()
  string(APPEND ways "    download while configuring:        -DCOOK_FETCH_DEPS=ON\n"
         "    already somewhere else:            -DCMAKE_PREFIX_PATH=<where it is installed>\n")
  message(FATAL_ERROR "libcook needs header-only libraries that were not found:\n${names}"
                      "Any one of these provides them:\n${ways}")
endfunction()

# cook_print_summary(): what was configured and where the libraries came from.
function(cook_print_summary)
  message(STATUS "libcook ${PROJECT_VERSION}: ${CMAKE_BUILD_TYPE}, ${CMAKE_CXX_COMPILER_ID} "
                 "${CMAKE_CXX_COMPILER_VERSION}, tests ${COOK_BUILD_TESTS}, Python ${COOK_BUILD_PYTHON}, "
                 "sanitizers ${COOK_SANITIZE}, native ${COOK_NATIVE}")
  foreach(entry IN LISTS cook_summary)
    if(entry MATCHES "^(.*)\\|(.*)\\|(.*)$")
      message(STATUS "  ${CMAKE_MATCH_1}: ${CMAKE_MATCH_2} (${CMAKE_MATCH_3})")
    endif()
  endforeach()
endfunction()

cook_dependency(
  Eigen3
  TARGET Eigen3::Eigen
  VERSION 3.4
  HEADER Eigen/Core
  HINT "${cook_python_Eigen3}"
  VERSION_FILE Eigen/src/Core/util/Macros.h
  VERSION_PATTERNS "#define EIGEN_WORLD_VERSION ([0-9]+)" "#define EIGEN_MAJOR_VERSION ([0-9]+)"
                   "#define EIGEN_MINOR_VERSION ([0-9]+)"
  FETCH "https://gitlab.com/libeigen/eigen/-/archive/3.4.0/eigen-3.4.0.tar.gz"
        8586084f71f9bde545ee7fa6d00288b264a2b7ac3607b974e54d13e7162c1c72
  APT libeigen3-dev
  PIP cmeel-eigen==3.4.1)

cook_dependency(
  Boost
  TARGET Boost::headers
  VERSION 1.74
  COMPONENTS headers
  HEADER boost/numeric/odeint.hpp
  HINT "${cook_python_Boost}"
  VERSION_FILE boost/version.hpp
  VERSION_PATTERNS "#define BOOST_LIB_VERSION \"([0-9_]+)\""
  FETCH "https://archives.boost.io/release/1.84.0/source/boost_1_84_0.tar.bz2"
        cc4b893acf645c9d4b698e9a0f08ca8846aa5d6c68275c14c3e7949c24109454
  APT libboost-dev
  PIP boost-headers==1.85.0.post1)

cook_dependency(
  nlohmann_json
  TARGET nlohmann_json::nlohmann_json
  VERSION 3.11
  HEADER nlohmann/json.hpp
  HINT "${cook_python_nlohmann_json}"
  VERSION_FILE nlohmann/detail/abi_macros.hpp
  VERSION_PATTERNS "#define NLOHMANN_JSON_VERSION_MAJOR ([0-9]+)" "#define NLOHMANN_JSON_VERSION_MINOR ([0-9]+)"
                   "#define NLOHMANN_JSON_VERSION_PATCH ([0-9]+)"
  FETCH "https://github.com/nlohmann/json/releases/download/v3.11.3/json.tar.xz"
        d6c65aca6b1ed68e7a182f4757257b107ae403032760ed6ef121c9d55e81757d
  FETCH_DIR include
  APT nlohmann-json3-dev
  PIP nlohmann-json==3.12.0)

if(COOK_BUILD_TESTS)
  cook_dependency(
    doctest
    TARGET doctest::doctest
    VERSION 2.4.9
    HEADER doctest/doctest.h
    VERSION_FILE doctest/doctest.h
    VERSION_PATTERNS "#define DOCTEST_VERSION_MAJOR ([0-9]+)" "#define DOCTEST_VERSION_MINOR ([0-9]+)"
                     "#define DOCTEST_VERSION_PATCH ([0-9]+)"
    FETCH "https://github.com/doctest/doctest/archive/refs/tags/v2.4.11.tar.gz"
          632ed2c05a7f53fa961381497bf8069093f0d6628c5f26286161fbd32a560186
      APT doctest-dev)
endif()

_cook_report_missing()

add_library(cook_third_party INTERFACE)
target_link_libraries(cook_third_party INTERFACE Eigen3::Eigen Boost::headers nlohmann_json::nlohmann_json)
# Only the part of Eigen under its permissive licence: anything else fails to compile.
target_compile_definitions(cook_third_party INTERFACE EIGEN_MPL2_ONLY)
