// SPDX-License-Identifier: GPL-3.0-or-later
// The program as a worker: a process of its own that decodes and measures the photographs of one
// job, with limits on memory and time, and may fail without harm. It is started with kWorkerWord,
// reads one line of JSON and prints one:
//
//   → {"what": "measure" | "find", "photos": [files], "rack": folder, "out": folder,
//      "face": "A" | "B", "words": {…}}
//   ← {"ok": false, "say": why and what to do}
//     {"ok": true, "tags": [7]}                                       find
//     {"ok": true, "board": record as it would be stored, "known": true, "photos": 2,
//      "advice": [], "warnings": []}                                  measure
//
// Its pictures go to `out`: face.jpg (the face, perspective-true), seen-1.jpg, … (each photograph,
// upright, the board's outline drawn over it), small.jpg. The rack is only read.
#pragma once

#include <string>

namespace rackside::serve {

inline constexpr const char* kWorkerWord = "--measure-photographs";

// Was the program started as a worker? Asked first in main().
bool isWorker(int argc, char** argv);
// The whole life of a worker; returns the exit status.
int workerMain();

// Called in the child between fork and exec: no picture is ever decoded without the limits.
void setWorkerLimits();

}  // namespace rackside::serve
