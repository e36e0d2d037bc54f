// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/mark.h"

#include <catch2/catch.hpp>
#include <set>

#include "core/geometry/polygon.h"
#include "core/wood/board.h"
#include "core/wood/mark_traits.h"

using namespace rackside;

namespace {
Mark knot() {
  Mark m;
  m.kind = MarkKind::knot;
  m.onA = Ellipse{{100, 50}, 12, 8, 0};
  return m;
}
}  // namespace

TEST_CASE("every kind of mark has one name, read back in any spelling") {
  // The kinds that design and schema name, counted by hand.
  CHECK(allMarkKinds().size() == 16);
  std::set<std::string> names, letters;
  for (const MarkTraits& t : allMarkTraits()) {
    names.insert(std::string(t.name));
    letters.insert(std::string(t.letters));
  }
  CHECK(names.size() == 16);
  CHECK(letters.size() == 16);
  for (const MarkKind kind : allMarkKinds()) CHECK(markKindFromName(name(kind)) == kind);
  CHECK(markKindFromName("Hole to fill") == MarkKind::holeToFill);
  CHECK(markKindFromName("worm_holes") == MarkKind::wormHoles);
  CHECK_FALSE(markKindFromName("knothole"));
}

TEST_CASE("a sound mark is accepted and each fault is named") {
  CHECK(validate(knot()).ok());
  const auto refused = [](const Mark& m, const char* word) {
    const Status s = validate(m);
    REQUIRE_FALSE(s.ok());
    CHECK(s.error().message.find(word) != std::string::npos);
  };
  Mark m = knot();
  m.onA.reset();
  refused(m, "no face");
  m = knot();
  m.onB = Polygon{{0, 0}, {10, 10}, {10, 0}, {0, 10}};
  refused(m, "crosses itself");
  m = knot();
  m.onA = Ellipse{{0, 0}, 0, 5, 0};
  refused(m, "size");
  m = knot();
  m.onA = Stroke{{{0, 0}}, 1};
  refused(m, "two points");
  m = knot();
  m.depthMm = 3;
  m.through = true;
  refused(m, "goes through");
  m = knot();
  m.live = true;
  refused(m, "live");
  m = knot();
  m.kind = MarkKind::stain;
  m.soundness = Soundness::sound;
  refused(m, "sound or loose");
  m = knot();
  m.onA = Ellipse{{NAN, 0}, 3, 5, 0};
  refused(m, "not a number");
}

TEST_CASE("the newest picture of a face is its last") {
  Board b;
  CHECK_FALSE(b.seen(Face::A));
  b.pictures.resize(3);
  b.pictures[0].file = "old";
  b.pictures[1].file = "new";
  b.pictures[2].face = Face::B;
  REQUIRE(b.newestPicture(Face::A) != nullptr);
  CHECK(b.newestPicture(Face::A)->file == "new");
}
