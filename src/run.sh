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

set=assets/doorsets/oar-store.toml
out=.build/demo
cd "$root"
mkdir -p "$out"

show() {
  printf '\n$ dryfit %s\n\n' "$*"
  "$build/dryfit" "$@" </dev/null
}

echo "Dryfit sets out the whole door set of $set."
show pieces "$set"
show fit "$set"
printf '\n$ dryfit order %s > %s\n' "$set" "$out/order.txt"
"$build/dryfit" order "$set" </dev/null >"$out/order.txt"
sed -n 1,30p "$out/order.txt"
echo "  ..."
show step "$set" -o "$out/oar-store.step"
show picture "$set" -o "$out/whole.png"
show picture "$set" -o "$out/plan.png" --section plan=1000
show picture "$set" -o "$out/spread.png" --spread 100
cat <<END

In $root/$out:
  order.txt       the order of work, each step with its reason
  oar-store.step  the solids; any CAD opens them
  whole.png, plan.png, spread.png
Try next:  sh src/run.sh --help
END
