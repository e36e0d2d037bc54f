#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Static analysis of the sources that changed: against the branch's base, or the last commit on the
# main branch itself, and whatever is not committed. tidy.sh BUILD_DIR
set -euo pipefail
cd "$(dirname "$0")/.."
build=$1
longest_seconds=${RACKSIDE_TIDY_SECONDS:-150}

if ! git rev-parse HEAD >/dev/null 2>&1; then
  echo "Static analysis: no version history here, skipped."
  exit 0
fi
base=$(git merge-base HEAD origin/main 2>/dev/null || git merge-base HEAD main 2>/dev/null || true)
if [ -z "$base" ] || [ "$base" = "$(git rev-parse HEAD)" ]; then
  base=$(git rev-parse -q --verify HEAD~1 || true)
fi
if [ -z "$base" ]; then
  echo "Static analysis: no earlier commit to compare with, skipped."
  exit 0
fi
mapfile -t files < <({ git diff --name-only --diff-filter=d "$base" -- '*.cpp'
                       git ls-files --others --exclude-standard -- '*.cpp'; } | sort -u)
if [ ${#files[@]} -eq 0 ]; then
  echo "Static analysis: no source changed."
  exit 0
fi

# The analyser cannot read the compiler's precompiled headers, so each file has to stand without them.
database=$(mktemp -d)
trap 'rm -rf "$database"' EXIT
sed -E 's/-Winvalid-pch//; s/-include [^ ]*cmake_pch\.hxx//' "$build/compile_commands.json" \
  > "$database/compile_commands.json"

start=$SECONDS
checked=0
for ((i = 0; i < ${#files[@]}; i += 2)); do
  if [ $((SECONDS - start)) -gt $longest_seconds ]; then
    echo "Static analysis: ${longest_seconds} s are over; $((${#files[@]} - checked)) files not checked."
    break
  fi
  printf '%s\0' "${files[@]:i:2}" |
    xargs -0 -n 1 -P 2 clang-tidy -p "$database" --quiet --extra-arg=-Wno-unknown-warning-option
  checked=$((checked + 1))
  [ -n "${files[i + 1]:-}" ] && checked=$((checked + 1))
done
echo "Static analysis: $checked of ${#files[@]} changed files checked."
