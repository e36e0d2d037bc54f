// SPDX-License-Identifier: GPL-3.0-or-later
// Looking for marks in the background. What is found is laid on the board as suggestions, one step
// of undo; what the maker does meanwhile stays.
#pragma once

#include <QObject>
#include <QThreadPool>
#include <deque>
#include <memory>

#include "app/window/document/document.h"
#include "vision/wood/suggest_board.h"

namespace rackside {

class SuggestSession : public QObject {
  Q_OBJECT
 public:
  explicit SuggestSession(Document& document, QObject* parent = nullptr);
  ~SuggestSession() override;

  bool running() const { return control_ != nullptr; }
  void look(const BoardId& board, const SuggestOptions& options);
  // One board after another, those that nobody has looked over and that have no suggestions yet.
  void lookAtAll(const SuggestOptions& options);
  int waiting() const { return static_cast<int>(queue_.size()); }
  void stop();

 signals:
  void started();
  void finished(int suggestions);  // that the board has now
  void failed(const QString& why);

 private:
  bool lookAtNext(const SuggestOptions& options);
  void end(const BoardId& board, const SuggestOptions& options, Result<BoardSuggestions> found);

  Document& document_;
  QThreadPool pool_;
  std::shared_ptr<RunControl> control_;
  std::deque<BoardId> queue_;
};

}  // namespace rackside
