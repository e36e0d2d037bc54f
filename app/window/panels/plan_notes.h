// SPDX-License-Identifier: GPL-3.0-or-later
// What a plan has to say for itself, as rich text for the panel beside the board; empty where it
// has nothing to say. Links carry a board's id.
#pragma once

#include <QString>
#include <QStringList>

#include "app/window/document/plan_aim.h"
#include "core/document/rack.h"

namespace rackside {

// "12 of 14 pieces placed."
QString placedWords(const PlanFigures& figures);
// "5 boards opened, 34 cuts, 62 % of the wood used, …"
QString figuresWords(const PlanFigures& figures);

// Does the rack's plan still hold, and was anything changed since it was made? Empty where all is
// as it was.
QString planStateWords(const Rack& rack);

// What stands between this plan and the saw: that it no longer holds, unfinished rows of the parts
// list, faces of its boards that nobody has looked over.
QStringList planCautions(const Rack& rack, const Plan& plan);

// The terms that the plan's value is made of, each with its weight.
QString scoreNotes(const Plan& plan);

// For each part that shows, the wood that could take it should its piece fail.
QString spareNotes(const Rack& rack, const Plan& plan, const LengthStyle& style);

// Panels strip by strip, in the order they are glued up.
QString panelNotes(const Rack& rack, const Plan& plan, const LengthStyle& style);

// Remarks on the plan as a whole, and on blanks that need more care than others.
QString remarkNotes(const Rack& rack, const Plan& plan, const LengthStyle& style);

}  // namespace rackside
