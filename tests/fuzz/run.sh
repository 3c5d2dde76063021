#!/usr/bin/env bash
# Fuzzes the temperature reader for SECONDS (default 60) from the kept corpus and the samples of the formats, with
# address and undefined-behaviour checks. Part of the tests; alone it builds the fuzzer first. Where clang or its
# libFuzzer is not installed it says so and leaves with status 4.
#
#   tests/fuzz/run.sh [SECONDS [BUILD]]        BUILD: a configured build folder, default build/release
#
# Findings stay in BUILD/fuzz/, and the status is 1.
set -euo pipefail
root=$(cd "$(dirname "$0")/../.." && pwd)
seconds=${1:-60}
build=$(realpath -m "${2:-$root/build/release}")
fuzzer=$build/tests/fuzz/temperature_reader_fuzz
[ $# -ge 2 ] || cmake --build "$build" --target fuzzer >/dev/null || true
if [ ! -x "$fuzzer" ]; then
  echo "skipped: no fuzzer was built; it needs the Debian packages clang and libclang-rt-dev, then a new configuration"
  exit 4
fi
out=$build/fuzz
rm -rf "$out/seeds" "$out/found"
mkdir -p "$out/found" "$out/seeds"
# A seed is one byte of options and then the file.
for sample in "$root"/tests/readers/temperature/samples/*; do
  { printf '\0'; head -c 3000 "$sample"; } >"$out/seeds/$(basename "$sample")"
done
cd "$out"
if ! "$fuzzer" -max_total_time="$seconds" -max_len=4096 -timeout=20 -rss_limit_mb=2048 -print_final_stats=1 \
  found "$root/tests/fuzz/corpus" seeds >log 2>&1; then
  tail -n 60 log
  echo "The fuzzer found something; its input stands in $out" >&2
  exit 1
fi
grep '^stat::number_of_executed_units' log
