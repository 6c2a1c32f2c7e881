#!/bin/sh
# Figures of the program in one table: as a user meets it, step by step, and beside slower ways to
# the same answers. About a quarter of an hour on two cores; README.md beside this tells more.
#   sh tests/bench/run.sh            the table
#   sh tests/bench/run.sh --builds   clean build of the program, and touching one planner file
set -u
root=$(cd "$(dirname "$0")/../.." && pwd) || exit 1
. "$root/tests/setup.sh"
folder=$root/build/bench

# seconds COMMAND...: runs it and prints the wall seconds it took.
seconds() {
  from=$(date +%s.%N)
  "$@" >"$folder/bench.log" 2>&1 || {
    tail -n 20 "$folder/bench.log" >&2
    fail "failed: $*"
  }
  to=$(date +%s.%N)
  echo "$from $to" | awk '{ printf "%.1f s", $2 - $1 }'
}

builds() {
  CCACHE_DISABLE=1
  export CCACHE_DISABLE
  configure "$folder" -DGLUEUP_TESTS=OFF -DGLUEUP_BENCH=ON
  ninja -C "$folder" clean >/dev/null
  printf '%s\n' "clean build of the program: $(seconds ninja -C "$folder" glueup)"
  for file in planner/work/joint.cpp planner/order/schedule.cpp planner/work/joint.h; do
    touch "$root/$file"
    printf '%s\n' "touching $file and relinking: $(seconds ninja -C "$folder" glueup)"
  done
}

# row WHAT REACH OURS BESIDE TIMES: as the programs print theirs (table.h).
row() {
  printf '| %-52s | %-9s | %-22s | %-42s | %-7s |\n' "$@"
}

# plan FOLDER RUNS REACH: what the plan of the job there costs with a shop that has enough.
plan() {
  name=$(basename "$1") runs=$2 reach=$3
  set -- "$folder/glueup" plan "$1/job.toml" --shop "$root/fixtures/shops/enough.toml"
  seen=$("$folder/tests/bench/whole_process" "$runs" "$@" | awk '{ print $7 " ms, " $14, $15 }') || return
  counted="no valgrind here"
  if [ "$runs" -lt 20 ]; then
    counted="" # what takes seconds takes valgrind minutes
  elif command -v valgrind >/dev/null 2>&1; then
    counted=$(valgrind --tool=callgrind --callgrind-out-file="$folder/callgrind.out" "$@" 2>&1 >/dev/null |
      sed -n 's/.*Collected : \([0-9]*\).*/\1/p' | awk '{ printf "%.0f million instructions", $1 / 1e6 }')
  fi
  row "whole plan of $name, median of $runs" "$reach" "$seen" "$counted" ""
}

table() {
  configure "$folder" -DGLUEUP_TESTS=OFF -DGLUEUP_BENCH=ON
  build "$folder" glueup whole_process solids solids_twins orders placements layouts pressure_lines meshes
  row "what" "to reach" "ours" "beside" "times"
  row "---" "---" "---" "---" "---"
  for fixture in "$root"/fixtures/*/; do
    reach=""
    [ "$(basename "$fixture")" != hive_tool_chest ] || reach="60 ms"
    [ ! -f "$fixture/job.toml" ] || plan "${fixture%/}" 20 "$reach"
  done
  mkdir -p "$folder/drawn_trellis"
  "$folder/tests/bench/meshes" "$folder/drawn_trellis" || fail "no job of a drawing"
  plan "$folder/drawn_trellis" 3 "10 s, 1 GB"
  for program in meshes solids solids_twins orders placements layouts pressure_lines; do
    (cd "$folder" && "tests/bench/$program") || fail "$program failed" # they leave files
  done
}

case "$#,${1-}" in
  0,) table ;;
  1,--builds) builds ;;
  *) fail "usage: sh tests/bench/run.sh [--builds]" ;;
esac
