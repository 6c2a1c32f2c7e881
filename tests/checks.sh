# shellcheck shell=sh disable=SC2034,SC2154 # variables shared with who sources this
# What `run.sh --all` and `nightly.sh` have in common. Sourced, after setup.sh; counts in passed and failed.

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

# By the other compiler, with its address and undefined-behaviour sanitizers, its fuzzer, every line counted,
# and every assert but those of the linear algebra, which asks at each number; the benchmarks too, so that
# they can be built.
build_sanitized() {
  configure "$root/build/sanitized" $joined -DGLUEUP_TESTS=ON -DGLUEUP_BENCH=ON -DGLUEUP_SANITIZE=ON -DGLUEUP_COVERAGE=ON \
    -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG=-DEIGEN_NO_DEBUG
  build "$root/build/sanitized" all
}
