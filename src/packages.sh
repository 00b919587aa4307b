# Shell functions shared by src/run.sh and tests/run.sh; not run by itself.
# Wants: root, the project's folder. POSIX sh.

say() { printf '%s\n' "$*" >&2; }

# Stops with 3, the status for "the system failed us".
give_up() {
  say "$@"
  exit 3
}

# Names in the list, one a line; $1 is "program" or "tests" (which needs the program's too).
listed_packages() {
  while read -r purpose name _; do
    case $purpose in
      program) printf '%s\n' "$name" ;;
      tests) if [ "$1" = tests ]; then printf '%s\n' "$name"; fi ;;
    esac
  done <"$root/src/packages.txt"
}

# Of the names given, those that are not installed.
missing_packages() {
  present=$(dpkg-query -W -f '${db:Status-Status} ${Package}\n' "$@" 2>/dev/null </dev/null || true)
  for name; do
    printf '%s\n' "$present" | grep -Fqx "installed $name" || printf '%s\n' "$name"
  done
}

# apt-get as root: "", "sudo" or "sudo -n" (with no terminal nobody can type a password); fails when there is no way.
as_root() {
  if [ "$(id -u)" = 0 ]; then
    printf ''
  elif command -v sudo >/dev/null 2>&1; then
    if sudo -n true 2>/dev/null </dev/null; then
      printf 'sudo -n'
    elif [ -t 0 ] && [ -t 2 ]; then
      printf 'sudo'
    else
      return 1
    fi
  else
    return 1
  fi
}

apt_install() {
  # shellcheck disable=SC2086  # $become is none, one or two words
  $become env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@" >&2
}

# Sees to it that the packages for $1 are installed.
need_packages() {
  # shellcheck disable=SC2046  # package names have no spaces
  set -- $(listed_packages "$1")
  if ! command -v dpkg-query >/dev/null 2>&1; then
    give_up "Dryfit is built on Debian 12. This system has no dpkg; install what these Debian packages hold:" "$@"
  fi
  # shellcheck disable=SC2046
  set -- $(missing_packages "$@")
  if [ $# = 0 ]; then return 0; fi
  if ! command -v apt-get >/dev/null 2>&1 || ! become=$(as_root); then
    say "Dryfit needs these Debian packages, which are not installed: $*"
    give_up "Neither root nor sudo is at hand; as root run:  apt-get install $*"
  fi
  say "Installing with apt-get: $*"
  # The package lists may be missing or old: fetch them once and try again.
  if ! apt_install "$@"; then
    # shellcheck disable=SC2086
    $become apt-get update >&2 || true
    apt_install "$@" || give_up "apt-get could not install: $*"
  fi
}

# Configures and builds $3 in the folder $1 with the CMake option $2; quiet when there is nothing to do.
build_in() {
  launcher=$(command -v ccache || true)
  # A moved checkout or a ccache that has gone would break the old configuration.
  wanted="$root|$launcher|$2"
  mkdir -p "$1" || give_up "Cannot make the folder $1"
  # Two starts at once would write over each other's objects.
  (: >>"$1/.lock") 2>/dev/null || give_up "Cannot write in the folder $1"
  exec 9>>"$1/.lock"
  if command -v flock >/dev/null 2>&1; then flock 9; fi
  if [ ! -f "$1/build.ninja" ] || [ "$(cat "$1/.configured" 2>/dev/null)" != "$wanted" ]; then
    say "Building in $1 (the first time takes some minutes)"
    rm -rf "$1/CMakeCache.txt" "$1/CMakeFiles" "$1/.configured"
    cmake -S "$root" -B "$1" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_COMPILER_LAUNCHER="$launcher" \
      "$2" >&2 </dev/null || give_up "The build could not be configured."
    printf '%s\n' "$wanted" >"$1/.configured"
    ninja -C "$1" "$3" >&2 </dev/null || give_up "The build failed."
  else
    # Nothing to do is nothing to tell; a pipe hides ninja's status, so that goes by a file.
    rm -f "$1/.built"
    { if ninja --quiet -C "$1" "$3" </dev/null; then : >"$1/.built"; fi; } 2>&1 | sed '/no work to do/d' >&2
    [ -f "$1/.built" ] || give_up "The build failed."
  fi
  exec 9>&-
}
