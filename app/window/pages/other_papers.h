// SPDX-License-Identifier: GPL-3.0-or-later
// What is written besides the pack: labels on bought sheets, templates, drawings, tables, faces.
#pragma once

#include <QPushButton>
#include <QThreadPool>
#include <functional>

#include "app/sheets/paper.h"
#include "app/window/document/document.h"

namespace rackside {

class OtherPapers : public QPushButton {
  Q_OBJECT
 public:
  OtherPapers(Document& document, QThreadPool& pool, std::function<sheets::Paper()> paper,
              QWidget* parent = nullptr);
  // Each writes in the background; said() follows.
  void writeLabels(const std::string& sheetName, int used, const QString& pdf);
  void writeTemplates(const QString& pdf);
  void writeDrawings(bool dxf, const QString& folder);
  void writeTables(const QString& folder);
  void writeFaces(const QString& folder);

 signals:
  void said(const QString& text, bool bad);

 private:
  // Returns how many files were written.
  using Work = std::function<Result<int>(const Rack&, const std::filesystem::path& rackFolder)>;
  void write(const Work& work, const QString& to);
  void addLabelSheets(QMenu& menu);
  void askLabels(const std::string& sheetName, int most);
  QString askFile(const QString& title, const QString& proposed);
  QString askFolder(const QString& title);

  Document& document_;
  QThreadPool& pool_;
  std::function<sheets::Paper()> paper_;
};

}  // namespace rackside
