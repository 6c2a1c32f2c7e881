#!/bin/sh
# What wants hours: any bytes as files, thousands of whole plans under sanitizers, thousands of jobs whose bytes must be
# the same here and in the page, 200 mistakes in the rules that tests must see. The last line says how many passed and failed.
#   sh tests/nightly.sh            three hours on two cores
#   sh tests/nightly.sh MINUTES    as much of each as goes into that
set -u
root=$(cd "$(dirname "$0")/.." && pwd) || exit 1
. "$root/tests/setup.sh"
. "$root/tests/checks.sh"

minutes=${1:-180}
case "$minutes" in
  '' | *[!0-9]*) fail "usage: sh tests/nightly.sh [MINUTES]" ;;
esac
passed=0
failed=0
# shellcheck disable=SC2086 # package names, one a word
install_missing $program_packages $test_packages $clang_packages
build_sanitized
configure "$root/build" -DGLUEUP_TESTS=ON
build "$root/build" all glueup_twins
export LLVM_PROFILE_FILE=/dev/null

# A third of the time each; so many whole plans a minute under sanitizers, as seen on two cores.
plans=$((minutes * 55 / 3))
check "any bytes as files, for $((minutes / 3)) minutes" \
  /usr/bin/python3 "$root/tests/fuzz/run.py" "$root/build/sanitized" "$root" $((minutes * 20))
check "$plans whole plans of random jobs under sanitizers" \
  env GLUEUP_RANDOM_JOBS=$((plans * 10)) GLUEUP_RANDOM_PLANS=$plans \
  "$root/build/sanitized/tests/plans_test" -ts=plans/properties
check "$((minutes * 400)) schedules beside their slow twin" \
  env GLUEUP_TWIN_JOBS=$((minutes * 400)) "$root/build/tests/schedules_test" -ts=tests/schedules
check "$((minutes * 60)) stages' clamps beside a mixed-integer solver" \
  env GLUEUP_STAGES=$((minutes * 60)) "$root/build/tests/placements_test" -ts=placements/random_stages
if [ -f "$root/build/page/core.wasm" ]; then
  check "the same bytes from the page's core" \
    /usr/bin/python3 "$root/tests/page_same.py" "$root/build/glueup" "$root" "$root/build/page/core.wasm" $((minutes * 6))
fi
check "mistakes in the rules of the craft, which tests must see" \
  /usr/bin/python3 "$root/tests/mutants/mutants.py" "$root" "$root/build/mutants"

printf '%s\n' "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
