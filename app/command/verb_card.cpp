// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_card.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/decimal_option.h"
#include "app/command/option_parser.h"
#include "app/sheets/card_pdf.h"
#include "app/sheets/gui_session.h"
#include "vision/cards/card_model.h"

namespace rackside::command {
namespace {

struct CardVerb {
  CommonOptions common;
  std::string paper = "a4", pdf, pngFolder, tags;
  sheets::CardOptions cards;
  double dpi = 300;
  bool crayon = false;
};

// "1-20" or "7".
Result<std::pair<int, int>> readRange(const std::string& text) {
  try {
    size_t used = 0;
    const int from = std::stoi(text, &used);
    if (used == text.size()) return std::pair(from, from);
    size_t usedTo = 0;
    const int to = std::stoi(text.substr(used + 1), &usedTo);
    if (text[used] == '-' && used + 1 + usedTo == text.size()) return std::pair(from, to);
  } catch (const std::exception&) {
    // falls through to the message
  }
  return Error{"--tags wants numbers such as 1-20; got \"" + text + "\"."};
}

using Files = std::vector<std::filesystem::path>;

template <class Options>
Status writeBoth(const CardVerb& v, const Options& options, Files& files,
                 Status (*writePdf)(const Options&, const std::filesystem::path&),
                 Result<Files> (*writePngs)(const Options&, double, const std::filesystem::path&)) {
  if (!v.pdf.empty()) {
    if (const Status s = writePdf(options, v.pdf); !s) return s;
    files.emplace_back(v.pdf);
  }
  if (v.pngFolder.empty()) return success();
  auto pngs = writePngs(options, v.dpi, v.pngFolder);
  if (!pngs) return pngs.error();
  files.insert(files.end(), pngs->begin(), pngs->end());
  return success();
}

Status writeAll(const CardVerb& v, sheets::Paper paper, Files& files) {
  if (v.crayon) {
    files.emplace_back(v.pdf);
    return sheets::writeCrayonPdf(paper, v.pdf);
  }
  if (v.tags.empty()) {
    sheets::CardOptions options = v.cards;
    options.paper = paper;
    return writeBoth(v, options, files, sheets::writeCardPdf, sheets::writeCardPngs);
  }
  auto range = readRange(v.tags);
  if (!range) return range.error();
  const sheets::TagOptions options{paper, range->first, range->second};
  return writeBoth(v, options, files, sheets::writeTagPdf, sheets::writeTagPngs);
}

int run(const CardVerb& v) {
  if (v.pdf.empty() && v.pngFolder.empty())
    return usageAtFault("card wants --pdf with a file, or --png with a folder.");
  if (v.crayon && v.pdf.empty()) return usageAtFault("The crayon card is a PDF: give --pdf.");
  const sheets::GuiSession gui;
  Files files;
  const sheets::Paper paper = v.paper == "letter" ? sheets::Paper::letter : sheets::Paper::a4;
  if (const Status s = writeAll(v, paper, files); !s) return inputAtFault(s.error());
  if (v.common.json) {
    auto list = nlohmann::json::array();
    for (const auto& f : files) list.push_back(f.string());
    const CardModel card = cardModel(1);
    const TagModel tag = tagModel(1);
    printJson({{"files", list},
               {"card_size_mm", {card.lengthMm, card.heightMm}},
               {"tag_size_mm", {tag.sizeMm, tag.heightMm}}});
    return kDone;
  }
  for (const auto& f : files) say(f.string());
  say("Print at 100 % (\"actual size\"), then check the bar on the card with a rule.");
  return kDone;
}

}  // namespace

VerbRun setUpCard(CLI::App& app) {
  auto v = std::make_shared<CardVerb>();
  app.add_option("--paper", v->paper, "Paper")->check(CLI::IsMember({"a4", "letter"}));
  auto* count = app.add_option("--count", v->cards.count, "How many cards, of ascending numbers");
  auto* from = app.add_option("--from", v->cards.firstNumber, "Number of the first card");
  auto* tags = app.add_option("--tags", v->tags, "Board tags instead of cards: numbers FROM-TO");
  app.add_flag("--crayon", v->crayon, "The card of the four crayon strokes")
      ->excludes(tags)
      ->excludes(count)
      ->excludes(from);
  tags->excludes(count)->excludes(from);
  app.add_option("--pdf", v->pdf, "PDF to write");
  app.add_option("--png", v->pngFolder,
                 "Folder for pictures of the sheets, and of each card or tag alone");
  app.add_option("--dpi", v->dpi, "Resolution of the pictures")
      ->transform(decimalNumber())
      ->check(CLI::Range(50, 1200));
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
