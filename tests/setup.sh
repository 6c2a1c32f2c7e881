# What `sh tests/run.sh` and `sh cli/try.sh` have in common: install what is missing, configure,
# build. Sourced, not run. Expects `root` to be the checkout; any POSIX shell will do.

# What the program needs to be built, and the tests on top of it: names of Debian 12 packages.
program_packages="g++ cmake ninja-build libcgal-dev libgmp-dev libmpfr-dev libboost-dev libeigen3-dev
libfmt-dev libtomlplusplus-dev libcli11-dev nlohmann-json3-dev"
test_packages="doctest-dev python3 python3-jsonschema glpk-utils zsh fish"
# For run.sh --all: the bench sheet as a phone shows it; another compiler, its fuzzer and its count of lines.
browser_packages="chromium fonts-dejavu-core poppler-utils nodejs"
clang_packages="clang libclang-rt-14-dev llvm"
# For the page: a compiler to WebAssembly with its libraries.
page_packages="clang-22 lld-22 wasi-libc libc++-22-dev-wasm32 libc++abi-22-dev-wasm32 libclang-rt-22-dev-wasm32"

say() { printf '%s\n' "-- $*"; }
fail() {
  printf '%s\n' "** $*" >&2
  exit 1
}

# Those of the packages named that are not installed, on one line.
missing_of() {
  for package in "$@"; do
    status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null) || status=none
    [ "$status" = installed ] || printf '%s ' "$package"
  done
}

# As root: run it. As anyone else: through sudo, which may ask for the password.
as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    env DEBIAN_FRONTEND=noninteractive "$@"
  else
    sudo env DEBIAN_FRONTEND=noninteractive "$@"
  fi
}

# Installs through apt what is missing of the packages named.
install_missing() {
  if ! command -v dpkg-query >/dev/null 2>&1 || ! command -v apt-get >/dev/null 2>&1; then
    say "no apt here: going on with what is installed. Needed, by Debian's names: $*"
    return
  fi
  missing=$(missing_of "$@")
  missing=${missing% }
  if [ -z "$missing" ]; then
    say "every package needed is installed"
    return
  fi
  by_hand="apt-get update && apt-get install $missing"
  if [ "$(id -u)" -ne 0 ] && ! command -v sudo >/dev/null 2>&1; then
    fail "missing: $missing. You are not root and there is no sudo. As root: $by_hand"
  fi
  say "installing through apt: $missing"
  log=$(mktemp)
  if ! as_root apt-get update >"$log" 2>&1; then
    tail -n 5 "$log" >&2
    say "apt-get update failed (above); trying with the package lists that are here"
  fi
  # shellcheck disable=SC2086 # names, one a word
  if ! as_root apt-get install -y --no-install-recommends $missing >"$log" 2>&1; then
    tail -n 5 "$log" >&2
    rm -f "$log"
    still=$(missing_of "$@")
    fail "apt could not install: ${still% }. By hand, as root: $by_hand"
  fi
  rm -f "$log"
}

# configure FOLDER [cmake options]: quick when nothing has changed.
configure() {
  folder=$1
  shift
  mkdir -p "$folder" || fail "cannot write to $folder"
  if command -v ccache >/dev/null 2>&1; then
    set -- -DCMAKE_CXX_COMPILER_LAUNCHER=ccache "$@"
    # Whatever the user's own settings: precompiled headers are found in the cache only with these, and
    # none of our sources asks for the time.
    export CCACHE_SLOPPINESS=pch_defines,time_macros
    # And what was compiled in one checkout is known again in another.
    export CCACHE_BASEDIR="$root" CCACHE_NOHASHDIR=1
  fi
  say "configuring $folder"
  if ! cmake -S "$root" -B "$folder" -G Ninja "$@" >"$folder/configure.log" 2>&1; then
    cat "$folder/configure.log" >&2
    fail "cmake could not configure $folder; if it was made elsewhere or by another generator, remove it"
  fi
}

# For builds from nothing: CMakeLists.txt says why.
joined="-DCMAKE_UNITY_BUILD=ON"

# build FOLDER [targets]: ninja says on one line how far it is.
build() {
  folder=$1
  shift
  say "building in $folder${*:+: $*}"
  ninja -C "$folder" "$@" || fail "the build failed (above)"
}
