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
# The address and undefined-behaviour sanitizers, by the other compiler and with its fuzzer.
configure "$root/build/sanitized" -DGLUEUP_TESTS=ON -DGLUEUP_SANITIZE=ON -DCMAKE_CXX_COMPILER=clang++
build "$root/build/sanitized" all
# No optimisation, every assert, every line counted.
configure "$root/build/unoptimised" -DGLUEUP_TESTS=ON -DGLUEUP_BENCH=ON -DGLUEUP_COVERAGE=ON \
  -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG=-O0
build "$root/build/unoptimised" glueup schedule_digest \
  whole_process solids orders placements layouts pressure_lines \
  geometry_test planner_test schedules_test scenes_test plans_test placements_test

say "what everybody runs; with it slow twins, thousands of random jobs, hostile input"
run_tests "$root/build"

say "once more under sanitizers"
run_tests "$root/build/sanitized" -LE slow

say "the clock's answers without optimisation, and the tests whose lines count"
# Those say themselves where they count (tests/CMakeLists.txt); other programs nowhere.
export LLVM_PROFILE_FILE=/dev/null
rm -rf "$root/build/unoptimised/profiles"
run_tests "$root/build/unoptimised" \
  -R '^(schedule_digest|geometry|planner|schedules|scenes|plans|placements)$'

check "any bytes as files, for a minute" \
  /usr/bin/python3 "$root/tests/fuzz/run.py" "$root/build/sanitized" "$root" 60

check "the same bytes, run after run and build after build" \
  /usr/bin/python3 "$root/tests/determinism_test.py" "$root/build/glueup" "$root" \
  "$root/build/unoptimised/glueup" "$root/build/sanitized/glueup"

check "lines of geometry/ and planner/ that tests run" \
  /usr/bin/python3 "$root/tests/coverage.py" "$root/build/unoptimised" "$root"
