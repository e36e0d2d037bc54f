#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Fetches the open test pictures that are not ours to keep: Debian's opencv-doc (chessboards
# left01..left14.jpg) and visp-images-data (AprilTag.pgm). Unpacked only, never installed, since slim
# systems drop the documentation folder.
#
# The tests look there by themselves; elsewhere, `eval` the two lines that this prints:
#   export RACKSIDE_OPENCV_DOC=...
#   export RACKSIDE_VISP_IMAGES=...
# Usage: tests/fetch_data.sh [DIR]
# DIR: ${XDG_CACHE_HOME:-~/.cache}/rackside-test-data unless given. Nothing is fetched twice.
set -eu
dir=${1:-${XDG_CACHE_HOME:-$HOME/.cache}/rackside-test-data}
mkdir -p "$dir"
dir=$(cd "$dir" && pwd)

fetch() { # PACKAGE WHAT-TO-KEEP
  [ -f "$dir/$1/.done" ] && return 0
  rm -rf "$dir/$1" "$dir/$1.download"
  mkdir -p "$dir/$1.download"
  # apt's download user must be able to write there; it falls back to root and says so on stderr.
  (cd "$dir/$1.download" && apt-get download -qq "$1" >&2) || {
    echo "tests/fetch_data.sh: $1 could not be fetched; its tests will say that they are skipped" >&2
    return 0
  }
  mkdir -p "$dir/$1"
  dpkg-deb --fsys-tarfile "$dir/$1.download"/"$1"_*.deb |
    tar -x -C "$dir/$1" --wildcards "$2"
  rm -rf "$dir/$1.download"
  touch "$dir/$1/.done"
}

fetch opencv-doc './usr/share/doc/opencv-doc/examples/data/left*.jpg'
fetch visp-images-data './usr/share/visp-images-data/ViSP-images/AprilTag/AprilTag.pgm'
[ -f "$dir/opencv-doc/.done" ] && echo "export RACKSIDE_OPENCV_DOC='$dir/opencv-doc'"
[ -f "$dir/visp-images-data/.done" ] && echo "export RACKSIDE_VISP_IMAGES='$dir/visp-images-data'"
exit 0
