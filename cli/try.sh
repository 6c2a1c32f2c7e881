#!/bin/sh
# Installs what is missing, builds the program and plans the hive-tool chest with it.
#   sh cli/try.sh
set -u
root=$(cd "$(dirname "$0")/.." && pwd) || exit 1
. "$root/tests/setup.sh"
[ "$#" -eq 0 ] || fail "usage: sh cli/try.sh"

# shellcheck disable=SC2086 # package names, one a word
install_missing $program_packages
# Tests need more packages: left out, unless a run of the tests has them in already.
if [ -f "$root/build/build.ninja" ]; then
  configure "$root/build"
else
  configure "$root/build" "$joined" -DGLUEUP_TESTS=OFF
fi
build "$root/build" glueup

job=$root/fixtures/hive_tool_chest/job.toml
shop=$root/fixtures/shops/enough.toml
json=$root/build/hive_tool_chest.json
say "glueup plan fixtures/hive_tool_chest/job.toml --shop fixtures/shops/enough.toml"
printf '\n'
"$root/build/glueup" plan "$job" --shop "$shop"
status=$?
# 1 is an answer too: it doesn't work with what the shop has, and the plan says why.
[ "$status" -le 1 ] || fail "glueup ended with exit status $status"
"$root/build/glueup" plan "$job" --shop "$shop" --json "$json" >/dev/null
[ $? -eq "$status" ] || fail "glueup answered differently the second time"
printf '\n'
say "the same plan for other programs (docs/plan.schema.json): $json"
