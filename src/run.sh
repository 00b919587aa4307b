#!/bin/sh
# Builds Dryfit and starts it; what is missing of src/packages.txt is installed first.
#   sh src/run.sh                 the demo
#   sh src/run.sh pieces FILE     any command of the program, with its own exit status
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd -P)
. "$root/src/packages.sh"

need_packages program
build="$root/.build/release"
build_in "$build" -DDRYFIT_TESTS=OFF dryfit
if [ $# -gt 0 ]; then exec "$build/dryfit" "$@"; fi

work=assets/works/practice-corner.toml
out=.build/demo
cd "$root"
mkdir -p "$out"

show() {
  printf '\n$ dryfit %s\n\n' "$*"
  "$build/dryfit" "$@" </dev/null
}

echo "Dryfit sets out the practice corner of $work."
show pieces "$work"
show fit "$work"
show order "$work"
show step "$work" -o "$out/practice-corner.step"
show picture "$work" -o "$out/practice-corner.png" --labels --sizes
printf '\nThe solids are in %s; any CAD opens them.\nThe picture is %s.\nTry next:  sh src/run.sh --help\n' \
  "$root/$out/practice-corner.step" "$root/$out/practice-corner.png"
