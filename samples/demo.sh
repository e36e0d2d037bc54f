#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# The main job on the sample photographs: boards scanned in one batch, their marks loaded, a hall
# bench and a wall cabinet planned, the pack printed. Installs and builds first what is missing.
set -euo pipefail
cd "$(dirname "$0")/.."
. tests/install.sh

install_missing "${build_packages[@]}"
build_rackside build rackside
rackside=$PWD/build/app/rackside
out=out/demo
rack=$out/rack
rm -rf "$out"
mkdir -p "$out"
start=$SECONDS

step() { printf '\n== %s\n' "$1"; }

step "Scan the faces of every board, told apart by their tags"
"$rackside" scan --batch samples/photos --list samples/boards.csv --rack "$rack"
if [ -d samples/photos-face-b ]; then
  step "Scan the other faces that were photographed"
  "$rackside" scan --batch samples/photos-face-b --face B --rack "$rack" ||
  echo "What must be retaken is left out; the other faces are on the rack."
fi

step "Load the marks"
"$rackside" mark load samples/marks.json --rack "$rack"

step "Import the parts of the bench and the cabinet"
"$rackside" parts import samples/parts.csv --rack "$rack"

step "Plan"
"$rackside" plan --rack "$rack" --seconds 10 --seed 1

step "Tally the rack"
"$rackside" tally --rack "$rack"

step "Reckon what has to be filled"
"$rackside" fill --rack "$rack"

step "Print the pack"
"$rackside" sheets --rack "$rack" --pdf "$out/pack.pdf"

cat <<TEXT

Done in $((SECONDS - start)) s. The results are in $out:
  pack.pdf   the sheets for the bench: overview, a page a board to cut, milling by batch, labels
  rack/      the rack: one folder a board, parts.json, shop.json, plan.json
TEXT
