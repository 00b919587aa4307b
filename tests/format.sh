#!/bin/sh
# Fails when a source is not formatted as .clang-format says. To format: clang-format -i FILE
set -eu
cd -- "$(dirname -- "$0")/.."
find geometry src tests \( -name '*.h' -o -name '*.cpp' \) -exec clang-format --dry-run -Werror {} +
