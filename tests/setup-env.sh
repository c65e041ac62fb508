# shellcheck shell=bash
# Sourced by tests/run and examples/run: makes the local environment .venv, with everything pinned in
# tests/requirements.txt, and installs libcook into it. A bare machine needs Python 3.10+ and a C++20 compiler; where
# apt-get is there and may be used, what is missing of those is installed.
#
# Functions: cook_setup_env, cook_install_package, cook_install_from_sdist, cook_need_doctest, cook_need_emscripten. Of a
# step that takes long they say how long it usually takes, and then how far it is.
# Environment: COOK_PYTHON (interpreter to make .venv with), CXX (compiler), COOK_JOBS (parallel jobs).

cook_root="$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)"
cook_venv="$cook_root/.venv"

cook_say() { printf '\n== %s\n' "$*"; }

cook_fail() {
  printf '\nerror: %s\n' "$*" >&2
  exit 1
}

# cook_watched <what it is> <usual seconds> <command>...: runs a command that says nothing for long, and says instead
# how long it has been running; of a build also how much is compiled. What it wrote is shown if it fails.
cook_watched() {
  local what="$1" usual="$2" log pid begun=$SECONDS shown=-10 built status=0
  shift 2
  log="$(mktemp)"
  printf '   %s: about %d s on two free cores\n' "$what" "$usual"
  "$@" >"$log" 2>&1 &
  pid=$!
  while kill -0 "$pid" 2>/dev/null; do
    sleep 0.2
    if [ $((SECONDS - begun - shown)) -ge "$([ -t 1 ] && echo 1 || echo 10)" ] && [ $SECONDS -gt $begun ]; then
      shown=$((SECONDS - begun))
      built="$(grep -oE '\[[0-9]+/[0-9]+\]' "$log" | tail -n 1 || true)"
      printf '%s   %s: %d s %s%s' "$([ -t 1 ] && printf '\r')" "$what" "$shown" "$built" "$([ -t 1 ] || echo ' ...')"
      [ -t 1 ] || echo
    fi
  done
  wait "$pid" || status=$?
  [ -t 1 ] && printf '\r%79s\r' ''
  if [ $status -ne 0 ]; then
    cat "$log" >&2
  else
    printf '   %s: done after %d s\n' "$what" $((SECONDS - begun))
  fi
  rm -f "$log"
  return $status
}

# cook_apt <package>...: installs system packages, if this user on this machine can.
cook_apt() {
  if [ "$(id -u)" -ne 0 ] || ! command -v apt-get >/dev/null; then
    return 1
  fi
  cook_say "installing $* with apt-get"
  export DEBIAN_FRONTEND=noninteractive
  apt-get install -y -q --no-install-recommends "$@" </dev/null ||
    { apt-get update -q && apt-get install -y -q --no-install-recommends "$@" </dev/null; }
}

# An interpreter that can make an environment (venv, ensurepip) and build an extension (Python.h).
cook_python_is_usable() {
  "$1" - >/dev/null 2>&1 <<'PY'
import ensurepip, pathlib, sys, sysconfig, venv
assert (3, 10) <= sys.version_info[:2] <= (3, 14)
assert pathlib.Path(sysconfig.get_path("include"), "Python.h").is_file()
PY
}

cook_find_python() {
  local candidate
  for candidate in python3 /usr/bin/python3 python3.13 python3.12 python3.11 python3.10 python3.14; do
    if cook_python_is_usable "$candidate"; then
      echo "$candidate"
      return
    fi
  done
  return 1
}

cook_make_venv() {
  local python
  if [ -n "${COOK_PYTHON:-}" ]; then
    python="$COOK_PYTHON"
    cook_python_is_usable "$python" ||
      cook_fail "COOK_PYTHON=$python is not Python 3.10 to 3.14 with the venv module and the C headers (Python.h)"
  elif ! python="$(cook_find_python)"; then
    cook_apt python3 python3-venv python3-dev || true
    python="$(cook_find_python)" ||
      cook_fail "no Python 3.10 to 3.14 with the venv module and the C headers was found.
On Debian and Ubuntu: apt-get install python3-venv python3-dev
Or name another interpreter: COOK_PYTHON=/path/to/python3 $0"
  fi
  cook_say "making .venv with $("$python" --version) ($(command -v "$python"))"
  rm -rf "$cook_venv"
  "$python" -m venv "$cook_venv" || cook_fail "$python could not make $cook_venv"
}

# What the examples need of tests/requirements.txt, and what compiles libcook.
cook_example_packages="cmake ninja scikit-build-core pybind11 cmeel-eigen boost-headers nlohmann-json
  numpy pint matplotlib pandas xarray scipy tqdm pyarrow SALib"

# cook_setup_env [examples]: leaves .venv active (PATH, VIRTUAL_ENV), so that CMake finds its Python, tools and headers.
# For the examples only what they need is installed, at the same versions.
cook_setup_env() {
  if ! command -v "${CXX:-c++}" >/dev/null; then
    [ -z "${CXX:-}" ] || cook_fail "CXX=$CXX is not a command"
    cook_apt g++ || cook_fail "no C++ compiler was found. On Debian and Ubuntu: apt-get install g++"
  fi

  # A copied or moved tree leaves an environment whose interpreter points elsewhere, or nowhere.
  if ! "$cook_venv/bin/python" -c "import sys; assert sys.prefix == '$cook_venv'" 2>/dev/null; then
    cook_make_venv
  fi
  export VIRTUAL_ENV="$cook_venv" PATH="$cook_venv/bin:$PATH"
  unset PYTHONHOME PYTHONPATH

  local stamp="$cook_venv/requirements.stamp"
  local few="$cook_venv/examples.stamp" pip=(python -m pip install -q --disable-pip-version-check)
  if [ "${1:-}" = examples ] && ! cmp -s "$cook_root/tests/requirements.txt" "$stamp"; then
    if ! cmp -s "$cook_root/tests/requirements.txt" "$few"; then
      cook_say "installing what the examples need into .venv"
      # shellcheck disable=SC2086 # a list of words
      cook_watched "installing" 30 "${pip[@]}" -c "$cook_root/tests/requirements.txt" $cook_example_packages ||
        cook_fail "the packages of tests/requirements.txt could not be installed"
      cp "$cook_root/tests/requirements.txt" "$few"
    fi
  elif ! cmp -s "$cook_root/tests/requirements.txt" "$stamp"; then
    cook_say "installing tests/requirements.txt into .venv"
    cook_watched "installing" 75 "${pip[@]}" -r "$cook_root/tests/requirements.txt" ||
      cook_fail "the packages of tests/requirements.txt could not be installed"
    cp "$cook_root/tests/requirements.txt" "$stamp"
  fi

  export CMAKE_BUILD_PARALLEL_LEVEL="${COOK_JOBS:-$(nproc 2>/dev/null || echo 2)}"
  export CTEST_PARALLEL_LEVEL="$CMAKE_BUILD_PARALLEL_LEVEL"
  if command -v ccache >/dev/null; then
    export CMAKE_CXX_COMPILER_LAUNCHER=ccache
  fi
}

# cook_install_package: builds the extension and installs libcook into .venv. The build folder is kept, so that a
# second run compiles only what changed, and nothing is done when no source changed.
cook_install_package() {
  local stamp="$cook_venv/libcook.stamp"
  cd "$cook_root" || exit 1
  if [ -f "$stamp" ] && python -m pip show -q libcook 2>/dev/null &&
    [ -z "$(find CMakeLists.txt pyproject.toml README.md libcook python -newer "$stamp" \
      -not -path '*/__pycache__*' -not -path 'python/page/*' -print -quit)" ]; then
    return
  fi
  cook_say "building and installing the libcook package; a second time only what changed is compiled"
  # Taken before the build: a source edited while it runs is built again next time.
  touch "$cook_venv/libcook.stamp.new"
  cook_watched "compiling" 90 python -m pip install -v --disable-pip-version-check --no-build-isolation --no-deps --force-reinstall \
    --config-settings=build-dir=build/python --config-settings=cmake.define.COOK_WERROR=ON . || return 1
  mv "$cook_venv/libcook.stamp.new" "$stamp"
}

# cook_install_from_sdist: the same by way of what a release hands out, into build/dist: an sdist, and a wheel that is
# built from it alone, in an environment of its own with what is pinned. That wheel is installed.
cook_install_from_sdist() {
  cd "$cook_root" || exit 1
  rm -rf build/dist
  touch "$cook_venv/libcook.stamp.new"
  python -m pip install -q --disable-pip-version-check build==1.6.1 || return 1
  PIP_CONSTRAINT="$cook_root/tests/requirements.txt" cook_watched "compiling" 120 \
    python -m build -v --outdir build/dist -C cmake.define.COOK_WERROR=ON || return 1
  python -m pip install -q --disable-pip-version-check --no-deps --force-reinstall build/dist/libcook-*.whl || return 1
  mv "$cook_venv/libcook.stamp.new" "$cook_venv/libcook.stamp"
}

# cook_need_doctest: the C++ tests' one dependency that no Python package carries. Where it cannot be installed, CMake's
# own search goes on, and its error names the other ways to get it.
cook_need_doctest() {
  if ! echo '#include <doctest/doctest.h>' | "${CXX:-c++}" -x c++ -fsyntax-only - 2>/dev/null; then
    cook_apt doctest-dev || cook_say "doctest is not a system header here; leaving it to CMake"
  fi
}

# cook_need_emscripten: the compiler of the teaching page, and in CI a browser to open it in. Without them the page is
# not built, or not opened, and its tests say so.
cook_need_emscripten() {
  command -v emcc >/dev/null || cook_apt emscripten node-acorn ||
    cook_say "no emcc here (apt-get install emscripten node-acorn): the teaching page is neither built nor tested"
  if [ -n "${CI:-}" ] && ! command -v chromium >/dev/null; then
    cook_apt chromium || cook_say "no Chromium here: what needs a browser is not tested"
  fi
}
