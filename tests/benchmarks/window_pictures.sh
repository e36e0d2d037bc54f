#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A picture of each stage of the window, to be looked at: light, dark, and at 200 %.
# usage: window_pictures.sh [BUILD [RACK [OUT]]]
set -eu
here=$(cd "$(dirname "$0")/../.." && pwd)
build=${1:-$here/build}
out=${3:-$build/window-pictures}
rack=${2:-}
if [ -z "$rack" ]; then
  rack=$(mktemp -d)/made-rack
  "$build/tests/app/window/window_made_rack" "$rack" 8 0.5
fi
take="$build/tests/app/window/window_pictures"
# Without a display: off screen, where the window is active and so its keys act.
run() { if [ -n "${DISPLAY:-}" ]; then "$@"; else QT_QPA_PLATFORM=offscreen "$@"; fi; }
run "$take" "$rack" "$out/light" light
run "$take" "$rack" "$out/dark" dark
QT_SCALE_FACTOR=2 run "$take" "$rack" "$out/twice" light 1280x760
echo "pictures are in $out"
