#!/bin/sh
# The planner as one HTML file: installs what is missing, compiles the core to WebAssembly, leaves
# build/glueup.html.
#   sh cli/page/build.sh [BUILD_FOLDER]
set -u
root=$(cd "$(dirname "$0")/../.." && pwd) || exit 1
. "$root/tests/setup.sh"

# shellcheck disable=SC2086 # package names, one a word
install_missing $page_packages cmake ninja-build make gcc libc6-dev xz-utils libcgal-dev libmpfr-dev libboost-dev \
  libeigen3-dev libfmt-dev libtomlplusplus-dev nlohmann-json3-dev
folder="${1:-$root/build}/page"
say "GMP for WebAssembly"
sh "$root/cli/page/wasm/gmp.sh" "$folder/gmp" || fail "GMP could not be built (above)"
configure "$folder" "$joined" -DCMAKE_TOOLCHAIN_FILE="$root/cli/page/wasm/toolchain.cmake"
build "$folder" page
page=$(dirname "$folder")/glueup.html
say "$page: $(wc -c <"$page") bytes, for any browser; on a web server with glueup_offline.js beside it"
