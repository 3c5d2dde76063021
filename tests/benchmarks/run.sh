#!/usr/bin/env bash
# What `winterfolio tally` costs beside a bare parse of the same file, in one run on this machine.
#   tests/benchmarks/run.sh [--program PATH] [--runs N]
# Prints instructions (callgrind, one year of 5-minute readings and of hours), CPU seconds and memory (30 years of
# 5-minute readings), each beside the bare parse with the ratio. Builds the release preset where no program is given.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
program=$root/build/release/src/winterfolio
runs=5
while [ $# -gt 0 ]; do
  case $1 in
    --program) program=$(realpath "$2"); shift 2 ;;
    --runs) runs=$2; shift 2 ;;
    *) echo "usage: tests/benchmarks/run.sh [--program PATH] [--runs N]" >&2; exit 2 ;;
  esac
done
if [ ! -x "$program" ]; then
  bash "$root/src/prepare.sh" --tests --preset release
fi
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
for tool in make_readings bare_parse; do
  "${CXX:-g++}" -O2 -std=c++20 "$here/$tool.cpp" -o "$work/$tool"
done
"$work/make_readings" 30 5 > "$work/years.csv"
"$work/make_readings" 1 5 > "$work/year.csv"
"$work/make_readings" 1 60 > "$work/hours.csv"

ratio() { awk -v a="$1" -v b="$2" 'BEGIN { printf "%.2f", a / b }'; }

# User and system seconds of one run, and its largest memory [KiB].
cost() { # command...
  { TIMEFORMAT='%U %S'; time "$@" > "$work/out"; } 2>&1 | tail -n 1 | awk '{ printf "%.3f\n", $1 + $2 }'
}
# The least of several runs: everything above it is the machine's doing.
least() { # command...
  for ((i = 0; i < runs; ++i)); do cost "$@"; done | sort -n | head -n 1
}
memory() { # command...: largest resident size [KiB], as the kernel counts it for a waited child
  python3 - "$@" <<'PY' 2> /dev/null || echo "not measured"
import resource, subprocess, sys
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
PY
}
instructions() { # name command...
  local name=$1
  shift
  valgrind --tool=callgrind --callgrind-out-file="$work/$name.callgrind" "$@" > "$work/out" 2> "$work/log"
  awk '/Collected/ { print $NF }' "$work/log"
}

lines=$(($(wc -l < "$work/years.csv") - 1))
echo "30 years of 5-minute readings, $lines lines, least of $runs runs"
bare=$(least "$work/bare_parse" "$work/years.csv")
full=$(least "$program" tally "$work/years.csv")
echo "  bare parse $bare s; tally $full s; ratio $(ratio "$full" "$bare")"
echo "  tally's memory: $(memory "$program" tally "$work/years.csv") KiB"

if command -v valgrind > /dev/null; then
  for file in year hours; do
    bare=$(instructions "bare-$file" "$work/bare_parse" "$work/$file.csv")
    full=$(instructions "tally-$file" "$program" tally "$work/$file.csv")
    echo "one $file file, instructions: bare parse $bare; tally $full; ratio $(ratio "$full" "$bare")"
  done
  echo "tally's ten heaviest functions, one year of 5-minute readings:"
  callgrind_annotate "$work/tally-year.callgrind" 2> /dev/null | awk '/^ *[0-9][0-9,]* *\(/ && !/PROGRAM TOTALS/' | head -n 10
else
  echo "skipped: valgrind is not installed, so instructions are not counted"
fi
