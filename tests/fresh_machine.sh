#!/usr/bin/env bash
# Tries both commands from a fresh clone in an empty Debian of its own, so that a package someone once installed by hand
# cannot hide a missing step. Needs root and debootstrap.
#   tests/fresh_machine.sh bookworm|trixie [BASE.tar]     BASE.tar: a minimal system unpacked instead of a new one
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
suite=${1:?which Debian: bookworm or trixie}
base=${2:-}
root=$(mktemp -d "/var/tmp/winterfolio-$suite.XXXXXX")
leave() {
  umount "$root/proc" 2>/dev/null || true
  # What is still mounted belongs to the machine outside: then the folder stays.
  if grep -q " $root/" /proc/mounts; then
    echo "$root stays: something is still mounted in it" >&2
  else
    rm -rf --one-file-system "$root"
  fi
}
trap leave EXIT

if [ -n "$base" ]; then tar xf "$base" -C "$root"; else debootstrap --variant=minbase "$suite" "$root" >/dev/null; fi
cp /etc/resolv.conf "$root/etc/"
mount -t proc proc "$root/proc"
# Device nodes of its own: nothing done to this folder can reach the machine's.
node() { [ -c "$root/dev/$1" ] || { rm -f "$root/dev/$1"; mknod -m 666 "$root/dev/$1" c "$2" "$3"; }; }
node null 1 3
node zero 1 5
node full 1 7
node random 1 8
node urandom 1 9
node tty 5 0
ln -sfn /proc/self/fd "$root/dev/fd"
git clone -q . "$root/winterfolio"
if [ -n "${WINTERFOLIO_TEST_DATA:-}" ]; then cp -r "$WINTERFOLIO_TEST_DATA" "$root/data"; fi
inside() { chroot "$root" env -i HOME=/root PATH=/usr/sbin:/usr/bin:/sbin:/bin \
  ${WINTERFOLIO_TEST_DATA:+WINTERFOLIO_TEST_DATA=/data} bash -c "cd /winterfolio && $1"; }
inside "bash tests/run.sh"
inside "bash sample-orchard/print.sh"
echo "Both commands pass on a fresh $suite"
