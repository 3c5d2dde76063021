#!/usr/bin/env bash
# Prints the sample orchard on a fresh Debian machine: installs what is missing, builds, prints into output/.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
bash src/prepare.sh
program=$PWD/build/release/src/winterfolio
output=$PWD/output
cd sample-orchard
"$program" print orchard.yaml --into "$output"
