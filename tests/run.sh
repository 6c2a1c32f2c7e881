#!/bin/sh
# Installs what is missing, builds, runs the tests. The last line says how many passed and failed.
#   sh tests/run.sh         what everybody runs: under ten minutes with the build on two cores
#   sh tests/run.sh --all   that, and what is slow or needs builds of its own: tests/everything.sh
set -u
root=$(cd "$(dirname "$0")/.." && pwd) || exit 1
. "$root/tests/setup.sh"

case "$#,${1-}" in
  0,) all=no ;;
  1,--all) all=yes ;;
  *) fail "usage: sh tests/run.sh [--all]" ;;
esac

passed=0
failed=0
# run_tests FOLDER [ctest options]: adds to passed and failed.
run_tests() {
  folder=$1
  shift
  say "testing $folder"
  rm -f "$folder/tests.xml"
  ctest --test-dir "$folder" --output-on-failure --no-tests=ignore -j "$(nproc 2>/dev/null || echo 2)" \
    --output-junit tests.xml "$@"
  ran=$(sed -n 's/^[[:space:]]*tests="\([0-9]*\)".*/\1/p' "$folder/tests.xml" | head -n 1)
  bad=$(sed -n 's/^[[:space:]]*failures="\([0-9]*\)".*/\1/p' "$folder/tests.xml" | head -n 1)
  passed=$((passed + ${ran:-0} - ${bad:-1}))
  failed=$((failed + ${bad:-1}))
}

# shellcheck disable=SC2086 # package names, one a word
install_missing $program_packages $test_packages
configure "$root/build" -DGLUEUP_TESTS=ON
if [ "$all" = no ]; then
  build "$root/build"
  run_tests "$root/build" -LE slow
else
  . "$root/tests/everything.sh"
fi

printf '%s\n' "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
