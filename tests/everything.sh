# shellcheck shell=sh disable=SC2154 # root and the packages are set by who sources this
# The rest of `sh tests/run.sh --all`: what is slow, and what needs builds of its own. Sourced by
# run.sh, whose functions and counts it uses; over an hour on two cores with nothing built before.

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

say "what needs builds of its own, all before the first long test: a compiler's complaint comes soon"
configure "$root/build/fuzz" -DGLUEUP_TESTS=OFF -DGLUEUP_FUZZ=ON -DCMAKE_CXX_COMPILER=clang++
build "$root/build/fuzz" fuzz_targets glueup
configure "$root/build/debug" -DGLUEUP_TESTS=OFF -DCMAKE_BUILD_TYPE=Debug -DGLUEUP_BENCH=ON
build "$root/build/debug" glueup whole_process solids orders placements layouts pressure_lines
configure "$root/build/sanitized" -DGLUEUP_TESTS=ON -DGLUEUP_SANITIZE=ON
build "$root/build/sanitized"
configure "$root/build/coverage" -DGLUEUP_TESTS=ON -DGLUEUP_COVERAGE=ON \
  "-DCMAKE_CXX_FLAGS_RELEASE=-O1 -DNDEBUG"
build "$root/build/coverage" geometry_test planner_test schedules_test scenes_test plans_test \
  placements_test
build "$root/build" glueup_twins

say "slow twins, thousands of random jobs, hostile input"
run_tests "$root/build" -L slow

say "once more under the address and undefined-behaviour sanitizers"
run_tests "$root/build/sanitized" -LE slow

check "any bytes as files, for a minute" \
  /usr/bin/python3 "$root/tests/fuzz/run.py" "$root/build/fuzz" "$root" 60

check "the same bytes, run after run and build after build" \
  /usr/bin/python3 "$root/tests/determinism_test.py" "$root/build/glueup" "$root" \
  "$root/build/debug/glueup" "$root/build/sanitized/glueup" "$root/build/fuzz/glueup"

check "lines of geometry/ and planner/ that tests run" \
  /usr/bin/python3 "$root/tests/coverage.py" "$root/build/coverage" "$root"
