# shellcheck shell=sh disable=SC2154 # root and the packages are set by who sources this
# `sh tests/run.sh --all`: what everybody runs, what is slow, and what needs builds of its own. Each test
# runs once a build. Sourced by run.sh, whose functions and counts it uses; about an hour on two
# cores with nothing built before.

. "$root/tests/checks.sh"

# shellcheck disable=SC2086 # package names, one a word
install_missing $browser_packages $clang_packages

say "all builds before the first test: a compiler's complaint comes soon"
build "$root/build" all glueup_twins
build_sanitized

say "what everybody runs; with it slow twins, thousands of random jobs, hostile input"
run_tests "$root/build"

say "once more under sanitizers, but for what asks about words and other programs"
# Those whose lines count say so themselves (tests/CMakeLists.txt); the rest count nowhere.
export LLVM_PROFILE_FILE=/dev/null
rm -rf "$root/build/sanitized/profiles"
run_tests "$root/build/sanitized" -LE '^(slow|words)$'

check "any bytes as files, for a minute" \
  /usr/bin/python3 "$root/tests/fuzz/run.py" "$root/build/sanitized" "$root" 60

check "the same bytes, run after run and build after build" \
  /usr/bin/python3 "$root/tests/determinism_test.py" "$root/build/glueup" "$root" "$root/build/sanitized/glueup"

check "lines of geometry/ and planner/ that tests run" \
  /usr/bin/python3 "$root/tests/coverage.py" "$root/build/sanitized" "$root"

# Last, since nothing else needs its compiler.
say "the page for browsers"
if sh "$root/cli/page/build.sh"; then
  # Side by side: each of the two keeps one core busy.
  /usr/bin/python3 "$root/tests/page_same.py" "$root/build/glueup" "$root" "$root/build/page/core.wasm" 10 \
    >"$root/build/page_same.log" 2>&1 &
  same=$!
  said_the_same() {
    wait "$same"
    ended=$?
    cat "$root/build/page_same.log"
    return "$ended"
  }
  check "the page in a browser" \
    /usr/bin/python3 "$root/tests/page_test.py" "$root/build/glueup" "$root" "$root/build/glueup.html"
  check "the page says what the program says" said_the_same
else
  failed=$((failed + 1))
fi
