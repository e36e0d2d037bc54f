// SPDX-License-Identifier: GPL-3.0-or-later
// Photographs become boards: what was found in each, what to retake, and the scan as it goes.
#pragma once

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>
#include <QWidget>

#include "app/window/document/choice.h"
#include "app/window/document/photo_session.h"
#include "app/window/panels/length_edit.h"

namespace rackside {

// One board's photographs.
class PhotoGroupRow : public QFrame {
  Q_OBJECT
 public:
  PhotoGroupRow();
  void show(const BoardPhotos& group, const BoardDetails& details, bool canJoin,
            const LengthStyle& style);

 signals:
  void faceBWished(bool faceB);
  void joinWished();
  void removeWished();
  void boardWished();
  void detailsEntered(const rackside::BoardDetails& details);

 private:
  QWidget* buildDetails();
  void enter();
  QLineEdit species_, place_, price_;
  LengthEdit thickness_;
  std::optional<double> shownThickness_;
  QLabel picture_, title_, found_, advice_;
  QComboBox face_;
  QPushButton remove_, go_;
};

class PhotosPage : public QWidget {
  Q_OBJECT
 public:
  PhotosPage(Document& document, Choice& choice, PhotoSession& session, QWidget* parent = nullptr);
  void choosePhotographs();

 signals:
  void boardWished();
  void photosChosen(const QStringList& files);

 private:
  void build();
  QWidget* buildSettings();
  void refresh();
  void showProgress();
  QString summaryText() const;

  Document& document_;
  Choice& choice_;
  PhotoSession& session_;
  QPushButton choose_, scan_;
  QLabel empty_, summary_, stage_, mistake_;
  QProgressBar progress_;
  QLineEdit species_, place_, price_;
  LengthEdit thickness_, cardThickness_, bar_, bow_;
  QComboBox reference_;
  QComboBox cardsOn_;
  QVBoxLayout* rows_ = nullptr;
  std::vector<PhotoGroupRow*> shown_;
};

}  // namespace rackside
