#!/usr/bin/env bash
# Passes every test on a fresh Debian machine: installs what is missing, builds, runs.
#   tests/run.sh [--preset release|debug|sanitize]
# Real temperature files are found through WINTERFOLIO_TEST_DATA; tests that want them say "skipped" where it is unset.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
preset=release
[ "${1:-}" = --preset ] && preset=$2
bash src/prepare.sh --tests --preset "$preset"
echo "Testing build/$preset"
ctest --preset "$preset" --output-on-failure
