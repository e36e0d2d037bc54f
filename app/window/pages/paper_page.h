// SPDX-License-Identifier: GPL-3.0-or-later
// The pack for the bench: looked at page by page, then written as one PDF.
#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QImage>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QThreadPool>
#include <QTimer>
#include <QWidget>
#include <memory>

#include "app/sheets/page.h"
#include "app/window/document/document.h"
#include "app/window/pages/other_papers.h"

class QPrinter;

namespace rackside {

// One page as painted, as large as fits.
class SheetView : public QWidget {
  Q_OBJECT
 public:
  explicit SheetView(QWidget* parent = nullptr);
  void show(const QImage& sheet);
  void say(const QString& text);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QImage sheet_;
  QString text_;
};

class PaperPage : public QWidget {
  Q_OBJECT
 public:
  explicit PaperPage(Document& document, QWidget* parent = nullptr);
  ~PaperPage() override;
  // Called when the page comes into view: sheets are drawn only then.
  void refresh();
  // Writes the pack in the background; said() follows.
  void writeTo(const QString& pdf);
  int pages() const { return list_.count(); }
  // The board that "only this board" means.
  void setBoard(const BoardId& board);

 signals:
  void said(const QString& text, bool bad);
  void written(const QString& pdf);

 protected:
  void resizeEvent(QResizeEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  struct Drawn {
    QStringList titles;
    QImage sheet;
    int page = 0;
  };
  void build();
  sheets::Paper paper() const;
  sheets::PackOptions options() const;
  void draw();
  void take(const Drawn& drawn);
  void chooseFile();
  void print();
  void printTo(QPrinter& printer);

  Document& document_;
  QComboBox paper_;
  QCheckBox boards_, parts_, cuts_, labels_;
  QPushButton write_, print_;
  QCheckBox overview_, milling_, fill_, movement_, tally_, oneBoard_;
  QLabel count_;
  BoardId board_;  // the one in view
  QListWidget list_;
  SheetView sheet_;
  QLabel state_, note_;
  QThreadPool pool_;
  OtherPapers others_;
  QTimer pause_;
  int drawing_ = 0;  // number of the latest request
  bool showing_ = false;
};

}  // namespace rackside
