#!/usr/bin/env bash
# Fuzzes the temperature reader for SECONDS (default 60) from the kept corpus and the samples of the formats, with
# address and undefined-behaviour checks. Needs clang with libFuzzer; says so and leaves where there is none.
#
#   tests/fuzz/run.sh [SECONDS]        findings are kept in build/fuzz/, and the status is 1
set -euo pipefail
root=$(cd "$(dirname "$0")/../.." && pwd)
seconds=${1:-60}
out=$root/build/fuzz
if ! command -v clang++ >/dev/null; then
  echo "skipped: clang++ is not installed (Debian packages clang and libclang-rt-dev)"
  exit 0
fi
mkdir -p "$out/found" "$out/seeds"
if ! echo 'extern "C" int LLVMFuzzerTestOneInput(const unsigned char*, unsigned long) { return 0; }' |
  clang++ -x c++ -fsanitize=fuzzer,address - -o "$out/trial" 2>/dev/null; then
  echo "skipped: clang++ has no libFuzzer here (Debian package libclang-rt-dev)"
  exit 0
fi
cmake -D OUTPUT="$out/embedded_files.cpp" -D ROOT="$root" -P "$root/src/base/embed.cmake"
clang++ -std=c++20 -O1 -g -fsanitize=fuzzer,address,undefined -fno-sanitize-recover=undefined -I"$root/src" \
  -DHAS_STRING_VIEW=1 -DONLY_C_LOCALE=1 -DUSE_OS_TZDB=1 \
  "$root"/tests/fuzz/temperature_reader_fuzz.cpp "$root"/src/readers/temperature/*.cpp "$root"/src/weather/*.cpp \
  "$root"/src/base/*.cpp "$out/embedded_files.cpp" -o "$out/temperature_reader_fuzz" -lfmt -ldate-tz -lz
# A seed is one byte of options and then the file.
for sample in "$root"/tests/readers/temperature/samples/*; do
  { printf '\0'; head -c 3000 "$sample"; } >"$out/seeds/$(basename "$sample")"
done
cd "$out"
./temperature_reader_fuzz -max_total_time="$seconds" -max_len=4096 -timeout=20 -rss_limit_mb=2048 -print_final_stats=1 \
  found "$root/tests/fuzz/corpus" seeds
