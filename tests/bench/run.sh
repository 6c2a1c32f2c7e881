#!/bin/sh
# Figures of the program as a user meets it. See README.md beside this for the figures to reach.
#   sh tests/bench/run.sh            time, memory and instructions of every fixture's plan
#   sh tests/bench/run.sh --builds   clean build of the program, and touching one planner file
#   sh tests/bench/run.sh --pressure a glue line's pressure
#   sh tests/bench/run.sh --orders   order, clock and stages, and beside Gecode where it is installed
#   sh tests/bench/run.sh --solids   exact geometry of 4 to 300 parts, and beside its twins
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
  for file in planner/joint.cpp planner/schedule.cpp planner/joint.h; do
    touch "$root/$file"
    printf '%s\n' "touching $file and relinking: $(seconds ninja -C "$folder" glueup)"
  done
}

# plan FIXTURE: what its plan costs with a shop that has enough.
plan() {
  printf '%s: ' "$(basename "$1")"
  set -- "$folder/glueup" plan "$1/job.toml" --shop "$root/fixtures/shops/enough.toml"
  "$folder/whole_process" 20 "$@" || return
  if command -v valgrind >/dev/null 2>&1; then
    valgrind --tool=callgrind --callgrind-out-file="$folder/callgrind.out" "$@" 2>&1 >/dev/null |
      sed -n 's/.*Collected : \([0-9]*\).*/\1/p' |
      awk '{ printf "    %.1f million instructions\n", $1 / 1e6 }'
  fi
}

# Each solved instance with Gecode through MiniZinc, a minute at most, and the ratio.
beside_gecode() {
  for name in mitred_frame door_floating_panel open_tray rabbeted_box case_4_shelves panel_6_boards; do
    for people in 1 2; do
      python3 "$root/tests/reference/schedule_dzn.py" "$root/tests/reference/schedules.json" \
        "$name" "$people" >"$folder/instance.dzn"
      from=$(date +%s.%N)
      timeout 60 minizinc --solver gecode "$root/tests/reference/schedule.mzn" "$folder/instance.dzn" \
        >"$folder/gecode.txt" 2>&1
      to=$(date +%s.%N)
      proof=$(grep -q '^=====' "$folder/gecode.txt" && echo proven || echo "not proven")
      echo "$from $to $("$folder/orders" "$name" "$people")" |
        awk -v what="$name, people $people" -v proof="$proof" \
          '{ ms = ($2 - $1) * 1000; printf "%s: gecode %.0f ms, %s; ours %s ms: %.0f times\n", what, ms, proof, $3, ms / $3 }'
    done
  done
}

case "$#,${1-}" in
  0,)
    configure "$folder" -DGLUEUP_TESTS=OFF -DGLUEUP_BENCH=ON
    build "$folder" glueup whole_process
    for fixture in "$root"/fixtures/*/; do
      [ ! -f "$fixture/job.toml" ] || plan "${fixture%/}"
    done
    ;;
  1,--builds) builds ;;
  1,--pressure)
    configure "$folder" -DGLUEUP_TESTS=OFF -DGLUEUP_BENCH=ON
    build "$folder" pressure_lines
    "$folder/pressure_lines"
    ;;
  1,--orders)
    configure "$folder" -DGLUEUP_TESTS=OFF -DGLUEUP_BENCH=ON
    build "$folder" orders
    "$folder/orders"
    if command -v minizinc >/dev/null 2>&1; then
      beside_gecode
    else
      say "minizinc isn't installed: no other solver to compare with"
    fi
    ;;
  1,--solids)
    configure "$folder" -DGLUEUP_TESTS=OFF -DGLUEUP_BENCH=ON
    build "$folder" solids solids_twins
    "$folder/solids"
    "$folder/solids_twins"
    if command -v valgrind >/dev/null 2>&1; then
      for parts in 10 30 100 300; do
        valgrind --tool=callgrind --callgrind-out-file=/dev/null "$folder/solids" carcass "$parts" 2>&1 |
          sed -n "s/.*Collected : \\([0-9]*\\).*/$parts \\1/p" |
          awk '{ printf "%d parts: %d instructions, %d a part\n", $1, $2, $2 / $1 }'
      done
    fi
    ;;
  *) fail "usage: sh tests/bench/run.sh [--builds | --pressure | --orders | --solids]" ;;
esac
