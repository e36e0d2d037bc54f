#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Brings the translation files up to date with the sources' texts; what is new stands there as
# unfinished, to be translated.
set -euo pipefail
cd "$(dirname "$0")/../../.."
/usr/lib/qt6/bin/lupdate -no-obsolete -locations none -extensions cpp,h -source-language en \
  -target-language de -I . app/window -ts app/window/translations/rackside_de.ts
