// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/test_classes.h"

#include "tests/app/window/cut_test.h"
#include "tests/app/window/geometry_test.h"
#include "tests/app/window/looks_test.h"
#include "tests/app/window/marks_test.h"
#include "tests/app/window/monkey_test.h"
#include "tests/app/window/parts_test.h"
#include "tests/app/window/phone_test.h"
#include "tests/app/window/photos_test.h"
#include "tests/app/window/plan_test.h"
#include "tests/app/window/rack_test.h"
#include "tests/app/window/suggest_test.h"
#include "tests/app/window/whole_job_test.h"

namespace rackside {

std::vector<std::function<std::unique_ptr<QObject>()>> testClasses() {
  return {[] { return std::make_unique<GeometryTest>(); },
          [] { return std::make_unique<RackTest>(); },
          [] { return std::make_unique<MarksTest>(); },
          [] { return std::make_unique<PartsTest>(); },
          [] { return std::make_unique<PhotosTest>(); },
          [] { return std::make_unique<PhoneTest>(); },
          [] { return std::make_unique<PlanTest>(); },
          [] { return std::make_unique<CutTest>(); },
          [] { return std::make_unique<SuggestTest>(); },
          [] { return std::make_unique<LooksTest>(); },
          [] { return std::make_unique<WholeJobTest>(); },
          [] { return std::make_unique<MonkeyTest>(); }};
}

}  // namespace rackside
