#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs what is missing (Debian 12), builds, and runs every test.
set -euo pipefail
cd "$(dirname "$0")/.."
. tests/install.sh

install_missing "${build_packages[@]}" "${test_packages[@]}"
if [ -x tests/fetch_data.sh ]; then tests/fetch_data.sh; fi
build_rackside build
tests/tidy.sh build
ctest --test-dir build --output-on-failure -j2
