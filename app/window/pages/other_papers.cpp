// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/other_papers.h"

#include <QFileDialog>
#include <QInputDialog>
#include <QMenu>

#include "app/sheets/label_sheet.h"
#include "app/sheets/other_files.h"
#include "app/sheets/part_template.h"
#include "app/window/document/background.h"
#include "app/window/look/text.h"
#include "core/storage/atomic_file.h"

namespace rackside {
namespace {

const sheets::LabelSheet* sheetNamed(const std::string& name) {
  for (const sheets::LabelSheet& s : sheets::labelSheets())
    if (s.name == name) return &s;
  return nullptr;
}

Result<int> writeOne(const QString& file, const Result<std::string>& bytes) {
  if (!bytes) return bytes.error();
  if (const Status s = writeFileAtomically(pathOf(file), *bytes); !s) return s.error();
  return 1;
}

Result<int> writeMany(const sheets::Files& files) {
  if (const Status s = sheets::writeFiles(files); !s) return s.error();
  return static_cast<int>(files.size());
}

}  // namespace

OtherPapers::OtherPapers(Document& document, QThreadPool& pool,
                         std::function<sheets::Paper()> paper, QWidget* parent)
    : QPushButton(tr("&Other sheets and files"), parent),
      document_(document),
      pool_(pool),
      paper_(std::move(paper)) {
  setObjectName(QStringLiteral("paperOther"));
  auto* menu = new QMenu(this);
  addLabelSheets(*menu->addMenu(tr("End labels on bought sheets")));
  const auto add = [&](const QString& text, const std::function<void()>& act) {
    connect(menu->addAction(text), &QAction::triggered, this, act);
  };
  add(tr("Full-size templates of shaped parts …"), [this] {
    const QString f = askFile(tr("Save the templates"), QStringLiteral("templates.pdf"));
    if (!f.isEmpty()) writeTemplates(f);
  });
  menu->addSeparator();
  for (const bool dxf : {false, true})
    add(dxf ? tr("One drawing per board, DXF …") : tr("One drawing per board, SVG …"), [this, dxf] {
      const QString f = askFolder(tr("Folder for the drawings"));
      if (!f.isEmpty()) writeDrawings(dxf, f);
    });
  add(tr("Tables for a spreadsheet, CSV …"), [this] {
    const QString f = askFolder(tr("Folder for the tables"));
    if (!f.isEmpty()) writeTables(f);
  });
  add(tr("Face pictures with their scale, PNG …"), [this] {
    const QString f = askFolder(tr("Folder for the face pictures"));
    if (!f.isEmpty()) writeFaces(f);
  });
  setMenu(menu);
}

void OtherPapers::addLabelSheets(QMenu& menu) {
  for (const sheets::LabelSheet& s : sheets::labelSheets()) {
    const int count = s.columns * s.rows;
    const QString paper = s.paper == sheets::Paper::a4 ? tr("A4") : tr("US Letter");
    connect(menu.addAction(tr("%1, %2 labels …").arg(paper).arg(count)), &QAction::triggered, this,
            [this, name = std::string(s.name), count] { askLabels(name, count - 1); });
  }
}

void OtherPapers::askLabels(const std::string& sheetName, int most) {
  bool yes = false;
  const int used = QInputDialog::getInt(
      this, tr("End labels"), tr("Labels already gone from the first sheet:"), 0, 0, most, 1, &yes);
  if (!yes) return;
  const QString f = askFile(tr("Save the end labels"), QStringLiteral("labels.pdf"));
  if (!f.isEmpty()) writeLabels(sheetName, used, f);
}

QString OtherPapers::askFile(const QString& title, const QString& proposed) {
  return QFileDialog::getSaveFileName(this, title, proposed, tr("PDF (*.pdf)"));
}

QString OtherPapers::askFolder(const QString& title) {
  return QFileDialog::getExistingDirectory(this, title);
}

void OtherPapers::writeLabels(const std::string& sheetName, int used, const QString& pdf) {
  const sheets::LabelSheet* sheet = sheetNamed(sheetName);
  if (!sheet) return;
  write(
      [sheet, used, pdf, lengths = document_.lengths()](const Rack& rack, const auto&) {
        return writeOne(pdf, sheets::labelSheetPdf(rack, lengths, *sheet, used));
      },
      pdf);
}

void OtherPapers::writeTemplates(const QString& pdf) {
  write(
      [pdf, paper = paper_(), lengths = document_.lengths()](const Rack& rack, const auto&) {
        return writeOne(pdf, sheets::templatesPdf(rack, paper, lengths));
      },
      pdf);
}

void OtherPapers::writeDrawings(bool dxf, const QString& folder) {
  write(
      [dxf, folder](const Rack& rack, const auto&) {
        const auto format = dxf ? sheets::DrawingFormat::dxf : sheets::DrawingFormat::svg;
        return writeMany(sheets::drawingFiles(rack, format, pathOf(folder)));
      },
      folder);
}

void OtherPapers::writeTables(const QString& folder) {
  write([folder](const Rack& rack,
                 const auto&) { return writeMany(sheets::tableFiles(rack, pathOf(folder))); },
        folder);
}

void OtherPapers::writeFaces(const QString& folder) {
  write(
      [folder](const Rack& rack, const std::filesystem::path& rackFolder) -> Result<int> {
        const auto files = sheets::writeFaceFiles(rack, rackFolder, pathOf(folder));
        if (!files) return files.error();
        return static_cast<int>(files->size());
      },
      folder);
}

void OtherPapers::write(const Work& work, const QString& to) {
  setEnabled(false);
  inBackground(
      pool_, this,
      [work, rack = std::make_shared<const Rack>(document_.rack()), folder = document_.folder()] {
        return std::make_shared<Result<int>>(work(*rack, folder));
      },
      [this, to](const std::shared_ptr<Result<int>>& done) {
        setEnabled(true);
        if (!done->ok()) return emit said(qt(done->error().message), true);
        emit said(done->value() == 1 ? tr("Saved: %1.").arg(to)
                                     : tr("%1 files saved to %2.").arg(done->value()).arg(to),
                  false);
      });
}

}  // namespace rackside
