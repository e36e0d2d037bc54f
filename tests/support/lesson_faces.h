// SPDX-License-Identifier: GPL-3.0-or-later
// Painted faces to learn marks from: what labelled photographs of planed softwood do not show.
// Woods of no named species, fresh or grey, sawn or planed, with marks in many looks
// (lesson_brush.h), and with what is no mark: cards, tags, chalk, ink, shadows, glare, edges.
#pragma once

#include "tests/support/lesson_brush.h"

namespace rackside::synthetic {

inline constexpr int kLessonRows = 320, kLessonCols = 400;  // at 0.5 mm a pixel

// What is not wood at all, in the picture of labels.
inline constexpr uchar kNotWood = 254;

// The same seed gives the same lesson.
Lesson paintLesson(uint32_t seed);
// No marks, nothing laid on it: a surface for other wood's marks.
Lesson paintClearLesson(uint32_t seed);

// Lays what is no mark over it; what it hides is no mark any more.
void addDecoys(Lesson& lesson, Draw& draw);
// Beyond an edge or an end lies something else than wood.
void cutEdges(Lesson& lesson, Draw& draw);

}  // namespace rackside::synthetic
