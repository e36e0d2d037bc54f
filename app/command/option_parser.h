// SPDX-License-Identifier: GPL-3.0-or-later
// The option parser, for the files that set options up.
#pragma once

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
