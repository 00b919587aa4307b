#!/bin/sh
# Builds Dryfit with its tests and runs them all; what is missing of src/packages.txt is installed first.
#   sh tests/run.sh               everything
#   sh tests/run.sh -R Layers     arguments go to ctest
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd -P)
. "$root/src/packages.sh"

need_packages tests
build="$root/.build/tests"
build_in "$build" -DDRYFIT_TESTS=ON all
cd "$build"
exec ctest --output-on-failure -j2 "$@" </dev/null
