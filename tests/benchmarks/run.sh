#!/usr/bin/env bash
# What `winterfolio` costs beside the least that anyone must spend on the same, in one run on this machine.
#   tests/benchmarks/run.sh [--program PATH] [--runs N]
# The season report: instructions (callgrind) for one hourly winter and 40 trees, beside a bare parse of the winter, the
# bare models of its hours and a bare PDF of twelve pages, with the ratio and the ten heaviest functions.
# Tally: instructions (one year of 5-minute readings and of hours), CPU seconds and memory (30 years of 5-minute
# readings), each beside a bare parse with the ratio. Builds the release preset where no program is given.
# What a machine lacks is said and skipped.
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
fonts=/usr/share/fonts/truetype/lato
build() { # yardstick [libraries...]
  local tool=$1
  shift
  "${CXX:-g++}" -O2 -std=c++20 "$here/$tool.cpp" -o "$work/$tool" "$@"
}
for tool in make_readings bare_parse; do build "$tool"; done
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

heaviest() { # name: the profile's ten heaviest functions
  callgrind_annotate "$work/$1.callgrind" 2> /dev/null |
    awk '/^ *[0-9][0-9,]* *\(/ && !/PROGRAM TOTALS/ && ++shown <= 10'
}

# An orchard of 40 trees on a grid, nine cultivars in turn, with the readings of one winter. Nothing in it is chance, so
# every machine prints the same pages.
orchard() { # temperature file
  cat <<YAML
version: 1
orchard: {id: bench, name: Bench, latitude: 38, longitude: -121, time_zone: America/Los_Angeles}
temperatures:
  - {file: $1, unit: C}
trees:
YAML
  local kinds=('apple:Granny Smith' 'apple:Golden Delicious' 'peach:Redhaven' 'apricot:Bergeron' 'sweet_cherry:Burlat'
    'pear:Conference' 'walnut:Chandler' 'fig:Kadota' 'nectarine:Fantasia')
  local tree kind
  for ((tree = 0; tree < 40; ++tree)); do
    kind=${kinds[tree % 9]}
    printf '  - {id: T%03d, species: %s, cultivar: "%s", at: [%d, %d], form: open centre, height: 4 m, planted: 1980, see_to: [dead, crossing, inward]}\n' \
      $((tree + 1)) "${kind%%:*}" "${kind#*:}" $((tree / 8 + 1)) $((tree % 8 + 1))
  done
}

season() {
  if ! command -v valgrind > /dev/null; then
    echo "season report skipped: valgrind is not installed, so instructions are not counted"
    return
  fi
  if [ ! -e "$here/bare_pdf.cpp" ] || [ ! -e "$here/bare_models.cpp" ]; then
    echo "season report skipped: its yardsticks bare_pdf.cpp and bare_models.cpp are not in tests/benchmarks"
    return
  fi
  if ! build bare_pdf -lhpdf -lqpdf 2> "$work/log" || ! build bare_models 2>> "$work/log"; then
    echo "season report skipped: its yardsticks do not build here; bare_pdf takes libhpdf-dev and libqpdf-dev"
    return
  fi
  if [ ! -e "$fonts/Lato-Regular.ttf" ]; then
    echo "season report skipped: fonts-lato is not installed"
    return
  fi
  "$work/make_readings" 2 60 | awk -F, 'NR == 1 || ($1 >= "1990-10-01" && $1 < "1991-05-01")' > "$work/winter.csv"
  orchard winter.csv > "$work/orchard.yaml"
  # A report without its trees would be cheap for nothing.
  if ! "$program" figures "$work/orchard.yaml" --as csv 2> "$work/log" | grep -c '^/verdicts/resting_trees,40,' > "$work/out"; then
    echo "season report not measured: its orchard does not come out with 40 trees that rest in winter" >&2
    exit 1
  fi
  local hours parse models pdf least full
  hours=$(($(wc -l < "$work/winter.csv") - 1))
  parse=$(instructions bare-parse "$work/bare_parse" "$work/winter.csv")
  models=$(instructions bare-models "$work/bare_models" "$hours")
  pdf=$(instructions bare-pdf "$work/bare_pdf" "$fonts/Lato-Regular.ttf" "$fonts/Lato-Bold.ttf" "$work/bare.pdf")
  full=$(instructions season "$program" print "$work/orchard.yaml" --report season --into "$work")
  least=$((parse + models + pdf))
  echo "season report, one winter of $hours hours and 40 trees, instructions:"
  echo "  bare parse $parse + bare models $models + bare PDF $pdf = $least; season $full; ratio $(ratio "$full" "$least")"
  echo "season's ten heaviest functions:"
  heaviest season
}
season

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
  heaviest tally-year
else
  echo "tally's instructions skipped: valgrind is not installed, so nothing is counted"
fi
