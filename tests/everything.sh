# shellcheck shell=sh disable=SC2154 # root and the packages are set by who sources this
# `sh tests/run.sh --all`: what everybody runs, what is slow, and what needs builds of its own. Each test
# runs once a build. Sourced by run.sh, whose functions and counts it uses; about an hour on two
# cores with nothing built before.

# check WHAT COMMAND...: runs it, and counts it as one test.
check() {
  say "$1"
  shift
  if "$@"; then
    passed=$((passed + 1))
  else
    failed=$((failed + 1))
  fi
}

# shellcheck disable=SC2086 # package names, one a word
install_missing $browser_packages $clang_packages

say "all builds before the first test: a compiler's complaint comes soon"
build "$root/build" all glueup_twins
# By the other compiler, with its address and undefined-behaviour sanitizers, its fuzzer, every line counted,
# and every assert but those of the linear algebra, which asks at each number; the benchmarks too, so that
# they can be built.
configure "$root/build/sanitized" -DGLUEUP_TESTS=ON -DGLUEUP_BENCH=ON -DGLUEUP_SANITIZE=ON -DGLUEUP_COVERAGE=ON \
  -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG=-DEIGEN_NO_DEBUG
build "$root/build/sanitized" all

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
