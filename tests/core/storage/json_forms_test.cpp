// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/json_forms.h"

#include <catch2/catch.hpp>

#include "../support/json_schema.h"
#include "../support/random_rack.h"
#include "core/storage/file_format.h"
#include "core/storage/json_text.h"

using namespace rackside;
using namespace rackside::tests;

namespace {

nlohmann::json throughText(const nlohmann::json& j) {
  const Result<std::string> text = jsonText(j);
  REQUIRE(text.ok());
  // The library's own parser is the oracle for the text.
  CHECK(nlohmann::json::parse(*text) == j);
  const Result<nlohmann::json> back = parseJson(*text);
  REQUIRE(back.ok());
  return *back;
}

void checkSchema(const char* name, const nlohmann::json& document) {
  const auto faults = schemaFaults(schemaNamed(name), document);
  CAPTURE(name, faults, document.dump(1));
  CHECK(faults.empty());
}

// Puts an unknown key into every object of a document, however deep.
void strew(nlohmann::json& j, int& count) {
  if (j.is_object()) {
    for (auto& [key, value] : j.items()) strew(value, count);
    j["y_from_later"] = ++count;
  } else if (j.is_array()) {
    for (auto& element : j) strew(element, count);
  }
}

}  // namespace

TEST_CASE("every document comes back from its JSON as it was, and keeps to its schema") {
  for (unsigned seed = 0; seed < 60; ++seed) {
    RandomRack source(seed);
    const Rack rack = source.rack(2, 3);
    for (const Board& board : rack.boards) {
      const nlohmann::json j = toJson(board);
      checkSchema("board", j);
      const Result<Board> back = boardFromJson(throughText(j));
      REQUIRE(back.ok());
      CHECK(toJson(*back) == j);
    }
    const nlohmann::json parts = toJson(rack.parts, *rack.partsExtra);
    checkSchema("parts", parts);
    const auto partsBack = partsFromJson(throughText(parts));
    REQUIRE(partsBack.ok());
    CHECK(toJson(*partsBack, partsExtraFromJson(parts)) == parts);
    const nlohmann::json shop = toJson(rack.shop);
    checkSchema("shop", shop);
    const Result<Shop> shopBack = shopFromJson(throughText(shop));
    REQUIRE(shopBack.ok());
    CHECK(toJson(*shopBack) == shop);
    const nlohmann::json plan = toJson(source.plan(rack));
    checkSchema("plan", plan);
    const Result<Plan> planBack = planFromJson(throughText(plan));
    REQUIRE(planBack.ok());
    CHECK(toJson(*planBack) == plan);
  }
}

TEST_CASE("fields survive, not only their JSON") {
  // Guards against a field that both directions forget: compared in memory.
  RandomRack source(5);
  const Board b = source.board();
  const Board back = boardFromJson(toJson(b)).value();
  CHECK(back.name == b.name);
  CHECK(back.tag == b.tag);
  CHECK(back.place == b.place);
  CHECK(back.species == b.species);
  CHECK(back.thicknessMm == b.thicknessMm);
  CHECK(back.outline.polygon() == b.outline.polygon());
  CHECK(back.lengthMm.u95Total == b.lengthMm.u95Total);
  CHECK(back.bowMm == b.bowMm);
  CHECK(back.sawn == b.sawn);
  CHECK(back.pictures.size() == b.pictures.size());
  CHECK(back.marks.size() == b.marks.size());
  const Mark m = source.mark();
  const Mark markBack = markFromJson(toJson(m)).value();
  CHECK(markBack.onA == m.onA);
  CHECK(markBack.onB == m.onB);
  CHECK(markBack.depthMm == m.depthMm);
  CHECK(markBack.kind == m.kind);
  CHECK(markBack.soundness == m.soundness);
  CHECK(markBack.confidence == m.confidence);
  const Part p = source.part();
  const auto parts = partsFromJson(toJson({p}, {})).value();
  CHECK(parts[0].show == p.show);
  CHECK(parts[0].back == p.back);
  CHECK(parts[0].glueUp == p.glueUp);
  CHECK(parts[0].outline == p.outline);
  CHECK(parts[0].look == p.look);
  const Shop s = source.shop();
  const Shop shopBack = shopFromJson(toJson(s)).value();
  CHECK(shopBack.clearanceMm == s.clearanceMm);
  CHECK(shopBack.ripKerfMm == s.ripKerfMm);
  CHECK(shopBack.offcutWeight == s.offcutWeight);
  CHECK(shopBack.widePartMm == s.widePartMm);
  CHECK(shopBack.show.denominator == s.show.denominator);
  const Plan plan = source.plan(source.rack(1, 1));
  const Plan planBack = planFromJson(toJson(plan)).value();
  CHECK(planBack.seed == plan.seed);
  CHECK(planBack.stockMm2 == plan.stockMm2);
  CHECK(planBack.remarks == plan.remarks);
  CHECK(planBack.blanks[0].remarks == plan.blanks[0].remarks);
  CHECK(planBack.blanks[0].boardFromBlank == plan.blanks[0].boardFromBlank);
  CHECK(planBack.cuts[0].line == plan.cuts[0].line);
  CHECK(planBack.cuts[0].parent == plan.cuts[0].parent);
  CHECK(planBack.cuts[0].offsetAtToMm == plan.cuts[0].offsetAtToMm);
  CHECK(planBack.pieces[0].outline == plan.pieces[0].outline);
  CHECK(planBack.pieces[0].showFace == plan.pieces[0].showFace);
  CHECK(planBack.cuts[0].made == plan.cuts[0].made);
  CHECK(planBack.cuts[0].planned == plan.cuts[0].planned);
  CHECK(planBack.spares[0].board == plan.spares[0].board);
  CHECK(planBack.spares[0].place == plan.spares[0].place);
  CHECK(planBack.panels[0].strips == plan.panels[0].strips);
  CHECK(planBack.panels[0].turned == plan.panels[0].turned);
  CHECK(back.offcutOf == b.offcutOf);
  CHECK(back.leftEndSawn == b.leftEndSawn);
  CHECK(back.cutUp == b.cutUp);
}

TEST_CASE("unknown keys survive at every level of every document") {
  for (unsigned seed = 100; seed < 110; ++seed) {
    RandomRack source(seed);
    Rack rack = source.rack(1, 2);
    rack.boards[0].marks.push_back(source.mark());
    int count = 0;
    nlohmann::json board = toJson(rack.boards[0]), parts = toJson(rack.parts, {});
    nlohmann::json shop = toJson(rack.shop), plan = toJson(source.plan(rack));
    for (nlohmann::json* j : {&board, &parts, &shop, &plan}) strew(*j, count);
    REQUIRE(count > 20);
    CHECK(toJson(boardFromJson(board).value()) == board);
    CHECK(toJson(partsFromJson(parts).value(), partsExtraFromJson(parts)) == parts);
    CHECK(toJson(shopFromJson(shop).value()) == shop);
    CHECK(toJson(planFromJson(plan).value()) == plan);
  }
}

TEST_CASE("a schema refuses what does not hold") {
  RandomRack source(9);
  Rack rack = source.rack(1, 1);
  Mark mark = source.mark();
  mark.onA = Ellipse{{1, 1}, 2, 2, 0};
  rack.boards[0].marks = {mark};
  const nlohmann::json good = toJson(rack.boards[0]);
  const auto refused = [&good](const char* pointer, const nlohmann::json& value) {
    nlohmann::json bad = good;
    bad[nlohmann::json::json_pointer(pointer)] = value;
    return !schemaFaults(schemaNamed("board"), bad).empty();
  };
  CHECK_FALSE(refused("/name", "Rust"));
  CHECK(refused("/format", "another"));
  CHECK(refused("/version", 2));
  CHECK(refused("/id", "../away"));
  CHECK(refused("/thickness_mm", "thick"));
  CHECK(refused("/thickness_mm", -1));
  CHECK(refused("/tag", 1000));
  CHECK(refused("/marks/0/kind", "Hole 7"));  // which kinds there are the reader knows
  CHECK(refused("/marks/0/on_a/shape", "blob"));
  CHECK(refused("/marks/0/on_a/semi_x_mm", 0));
  CHECK(refused("/marks/0/confidence", 1.5));
  CHECK(refused("/outline/points_mm/0", {1, 2, 3}));
  CHECK(refused("/outline/state/0", "certain"));
  nlohmann::json lacking = good;
  lacking["marks"][0].erase("on_a");
  lacking["marks"][0].erase("on_b");
  CHECK_FALSE(schemaFaults(schemaNamed("board"), lacking).empty());
  CHECK_THROWS_AS(schemaFaults({{"maxProperties", 1}}, good), std::logic_error);
}

TEST_CASE("a fault in a file is named with its place and what belongs there") {
  RandomRack source(21);
  Board board = source.board();
  Mark mark = source.mark();
  mark.onA = Ellipse{{1, 1}, 2, 2, 0};
  board.marks = {source.mark(), mark};
  const nlohmann::json good = toJson(board);
  const auto message = [&good](const char* pointer, const nlohmann::json& value) {
    nlohmann::json bad = good;
    bad[nlohmann::json::json_pointer(pointer)] = value;
    const Result<Board> read = boardFromJson(bad);
    return read.ok() ? std::string("accepted") : read.error().message;
  };
  CHECK(message("/thickness_mm", "27") == "thickness_mm should be a number.");
  CHECK(message("/marks/1/on_a/semi_x_mm", nullptr) ==
        "marks[1].on_a.semi_x_mm should be a number.");
  CHECK(message("/marks/1/kind", "hole").find("a kind of mark") != std::string::npos);
  CHECK(message("/marks/1/on_a/semi_x_mm", -3).find("size in both directions") !=
        std::string::npos);
  CHECK(message("/marks/1/id", good["marks"][0]["id"]).find("unlike") != std::string::npos);
  CHECK(message("/id", "../../etc").find("letters, digits") != std::string::npos);
  CHECK(message("/outline/sigma_mm", nlohmann::json::array()).find("as long as") !=
        std::string::npos);
  CHECK(message("/marks", 3) == "marks should be a list [...].");
  CHECK(message("/marks/0", 3) == "marks[0] should be an object {…}.");
  CHECK(message("/tag", 1.5) == "tag should be a whole number from 1 to 999.");
  CHECK(boardFromJson(3).ok() == false);
  board.pictures.resize(1);
  nlohmann::json escaping = toJson(board);
  escaping["pictures"][0]["file"] = "../../secret.jpg";
  CHECK_FALSE(boardFromJson(escaping).ok());
}

TEST_CASE("an older version is brought up step by step and a newer one refused") {
  FileFormat format{"rackside trial", {}};
  format.steps.push_back([](nlohmann::json& j) {
    j["width_mm"] = j["width_cm"].get<double>() * 10;
    j.erase("width_cm");
  });
  format.steps.push_back([](nlohmann::json& j) { j["widths_mm"] = {j["width_mm"]}; });
  const auto from = [&format](const nlohmann::json& j) -> Result<nlohmann::json> {
    const auto current = upToDate(j, format);
    if (!current) return current.error();
    return **current;
  };
  const nlohmann::json old{{"format", "rackside trial"}, {"version", 1}, {"width_cm", 12}};
  const Result<nlohmann::json> now = from(old);
  REQUIRE(now.ok());
  CHECK(*now == nlohmann::json{{"format", "rackside trial"},
                               {"version", 3},
                               {"width_mm", 120.0},
                               {"widths_mm", {120.0}}});
  nlohmann::json newer = old;
  newer["version"] = 4;
  REQUIRE_FALSE(from(newer).ok());
  CHECK(from(newer).error().message.find("newer program") != std::string::npos);
  newer["version"] = 0;
  CHECK_FALSE(from(newer).ok());
  newer["version"] = "1";
  CHECK_FALSE(from(newer).ok());
  CHECK_FALSE(from({{"version", 1}}).ok());
  CHECK_FALSE(from({{"format", "other"}, {"version", 1}}).ok());
  nlohmann::json laterBoard = toJson(RandomRack(1).board());
  laterBoard["version"] = 99;
  CHECK(boardFromJson(laterBoard).error().message.find("99") != std::string::npos);
}

TEST_CASE("broken JSON is placed by line and column, and what JSON cannot hold is refused") {
  const Result<nlohmann::json> read = parseJson("{\n  \"a\": 1,\n  oops\n}");
  REQUIRE_FALSE(read.ok());
  CHECK(read.error().message.find("line 3") != std::string::npos);
  CHECK_FALSE(parseJson("").ok());
  CHECK_FALSE(jsonText({{"a", NAN}}).ok());
  CHECK_FALSE(jsonText({{"a", "\xff\xfe"}}).ok());
}

TEST_CASE("a shop's own woods, air and meter go out and come back") {
  Shop shop;
  Species bubinga;
  bubinga.name = "bubinga";
  bubinga.alsoCalled = {"kevazingo"};
  bubinga.shrinkage.tangential = Figure{8.4, Provenance::shop};
  bubinga.shrinkage.radial = Figure{5.8, Provenance::shop};
  bubinga.specificGravity12 = Figure{0.8, Provenance::shop};
  shop.ownSpecies = {bubinga};
  shop.homeDryAir = Air{21, 30};
  shop.homeHumidAir = Air{25, 60};
  shop.meterCorrections["bubinga"] = 1.5;
  const nlohmann::json j = toJson(shop);
  CHECK(schemaFaults(schemaNamed("shop"), j).empty());
  const auto back = shopFromJson(j);
  REQUIRE(back.ok());
  CHECK(toJson(*back) == j);
  const Species* wood = speciesNamed("Kevazingo", back->ownSpecies);
  REQUIRE(wood != nullptr);
  CHECK(changeOf(*wood).tangential->value == Approx(8.4 / 3000 / (1 - 8.4 / 150)));
  CHECK(wood->specificGravity12->from == Provenance::shop);
  // The shop's air tells its moisture where no figure does: 70 °F and 50 % are 9.2 (Table 4-2).
  nlohmann::json air = toJson(Shop{});
  air.erase("shop_moisture_percent");
  air["air"]["shop"] = {{"celsius", 21.11}, {"humidity_percent", 50}};
  REQUIRE(shopFromJson(air).ok());
  CHECK(std::abs(shopFromJson(air)->shopMoisturePercent - 9.2) <= 0.07);
  air["air"]["shop"]["humidity_percent"] = 150;
  CHECK_FALSE(shopFromJson(air).ok());
  nlohmann::json wrong = j;
  wrong["own_species"][0]["specific_gravity_12"] = 80;
  REQUIRE_FALSE(shopFromJson(wrong).ok());
  CHECK(shopFromJson(wrong).error().message.find("specific_gravity_12") != std::string::npos);
}
