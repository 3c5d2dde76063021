#!/usr/bin/env bash
# Makes a Debian machine ready and builds the program: installs the packages that are missing, says which, then compiles.
#   src/prepare.sh [--tests] [--preset NAME]
# Works as root or with sudo; does nothing twice; needs no network once the packages are there.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

preset=release
tests=no
while [ $# -gt 0 ]; do
  case $1 in
    --tests) tests=yes ;;
    --preset) preset=$2; shift ;;
    *) echo "prepare.sh: unknown option $1" >&2; exit 2 ;;
  esac
  shift
done

build_packages="g++ cmake ninja-build pkg-config libhpdf-dev libqpdf-dev libyaml-cpp-dev libcli11-dev libfmt-dev
  libhowardhinnant-date-dev nlohmann-json3-dev zlib1g-dev fonts-lato tzdata"
test_packages="catch2 libgsl-dev qpdf poppler-utils imagemagick gzip python3-jsonschema clang libclang-rt-dev"

wanted=$build_packages
[ "$tests" = yes ] && wanted="$wanted $test_packages"
missing=""
for package in $wanted; do
  dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q '^install ok installed$' || missing="$missing $package"
done
if [ -n "$missing" ]; then
  echo "Installing:$missing"
  as_root=""
  if [ "$(id -u)" != 0 ]; then
    command -v sudo >/dev/null || { echo "prepare.sh: run as root, or install sudo" >&2; exit 1; }
    as_root="sudo"
  fi
  $as_root apt-get update -q >/dev/null
  # shellcheck disable=SC2086  # one word a package
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends $missing >/dev/null
fi

on_off=OFF
[ "$tests" = yes ] && on_off=ON
# A build folder that also builds the tests stays as it is when only the program is wanted.
if [ ! -f "build/$preset/CMakeCache.txt" ] || { [ "$on_off" = ON ] && ! grep -q '^WINTERFOLIO_TESTS:BOOL=ON' "build/$preset/CMakeCache.txt"; }; then
  echo "Configuring build/$preset"
  cmake --preset "$preset" -DWINTERFOLIO_TESTS=$on_off >/dev/null
fi
echo "Building build/$preset"
if [ "$tests" = yes ]; then
  cmake --build --preset "$preset"
else
  cmake --build --preset "$preset" --target winterfolio
fi
