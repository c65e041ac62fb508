# Where Python packages carry C++ headers. Sets cook_python_<Name> for each one that is installed.
#
# None of these packages announces itself to CMake, so the interpreter is asked. Under a Python build
# (scikit-build-core) that is the isolated build environment; elsewhere it is an active virtual environment.

if(SKBUILD OR DEFINED ENV{VIRTUAL_ENV})
  set(cook_python_headers_default ON)
else()
  set(cook_python_headers_default OFF)
endif()
option(COOK_PYTHON_HEADERS "Take header-only libraries from installed Python packages before the system's"
       ${cook_python_headers_default})

if(COOK_PYTHON_HEADERS OR COOK_BUILD_PYTHON)
  # The interpreter on PATH and the one building the extension can differ. Python_EXECUTABLE decides; without it an
  # active virtual environment goes first.
  set(Python_FIND_VIRTUALENV FIRST)
  if(COOK_BUILD_PYTHON)
    find_package(Python 3.10 REQUIRED COMPONENTS Interpreter Development.Module)
  else()
    find_package(Python 3.10 QUIET COMPONENTS Interpreter)
  endif()
endif()

if(Python_Interpreter_FOUND)
  execute_process(
    COMMAND
      "${Python_EXECUTABLE}" -c [[
import pathlib, sys

places = {
    "Eigen3": ("cmeel.prefix/include/eigen3", "Eigen/Core"),
    "Boost": ("boost_headers/include", "boost/numeric/odeint.hpp"),
    "nlohmann_json": ("nlohmann_json/include", "nlohmann/json.hpp"),
    "pybind11": ("pybind11/share/cmake/pybind11", "pybind11Config.cmake"),
}
for name, (folder, proof) in places.items():
    for entry in sys.path:
        place = pathlib.Path(entry, folder)
        if entry and (place / proof).is_file():
            print(f"{name}={place.resolve().as_posix()}")
            break
]]
    OUTPUT_VARIABLE cook_python_places
    RESULT_VARIABLE cook_python_failed
    OUTPUT_STRIP_TRAILING_WHITESPACE)
  if(cook_python_failed)
    message(WARNING "libcook: ${Python_EXECUTABLE} could not be asked for header packages")
  endif()
  string(REPLACE "\n" ";" cook_python_places "${cook_python_places}")
  foreach(place IN LISTS cook_python_places)
    # pybind11 belongs to the interpreter in any case; the others are a choice.
    if(place MATCHES "^([^=]+)=(.+)$")
      if(COOK_PYTHON_HEADERS OR CMAKE_MATCH_1 STREQUAL "pybind11")
        set(cook_python_${CMAKE_MATCH_1} "${CMAKE_MATCH_2}")
      endif()
    endif()
  endforeach()
endif()
