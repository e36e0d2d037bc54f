// SPDX-License-Identifier: GPL-3.0-or-later
// One board, large, with the tools above it and what is known or planned beside it.
#pragma once

#include <QActionGroup>
#include <QMenu>
#include <QStackedWidget>
#include <QToolButton>
#include <QWidget>
#include <array>
#include <vector>

#include "app/window/face/face_view.h"
#include "app/window/pages/suggest_row.h"
#include "app/window/tools/draw_tool.h"
#include "app/window/tools/measure_tool.h"
#include "app/window/tools/outline_tool.h"
#include "app/window/tools/select_tool.h"

namespace rackside {

class BoardPage : public QWidget {
  Q_OBJECT
 public:
  enum class Side { wood, plan, cut };
  BoardPage(Document& document, Choice& choice, QWidget* parent = nullptr);
  ~BoardPage() override;

  FaceView& view() { return view_; }
  SuggestRow& suggestions() { return *suggest_; }
  void setSide(Side side);
  Side side() const { return side_; }
  // The panel shown beside the board while planning.
  void setPlanPanel(QWidget* panel);
  // The panel shown on cut day; to be set after it.
  void setCutPanel(QWidget* panel);
  // A tool that belongs to planning; first in the row while planning.
  void addPlanTool(Tool* tool, const QKeySequence& key);

 private:
  struct ToolEntry {
    Tool* tool;
    QAction* action;
    QToolButton* button;
    Side side;
    bool both;
  };
  QAction* addTool(Tool* tool, const QString& key, Side side, bool both);
  QWidget* buildToolRow();
  QWidget* buildFaceRow();
  QWidget* buildWoodPanel();
  void buildKindMenu();
  void buildLayerMenu();
  void take(Tool* tool);
  void setKind(MarkKind kind);
  void showFace();
  QAction* viewAction(const QString& text, const QString& key);

  Document& document_;
  Choice& choice_;
  FaceView view_;
  SelectTool select_;
  DrawTool area_, round_, line_;
  MeasureTool measure_;
  OutlineTool outline_;
  std::vector<ToolEntry> tools_;
  QActionGroup toolGroup_;
  QWidget* toolRow_ = nullptr;
  QToolButton kindButton_, layerButton_, faceA_, faceB_, turned_;
  QMenu kindMenu_, layerMenu_;
  QAction* flip_ = nullptr;
  SuggestRow* suggest_ = nullptr;
  std::array<QAction*, 5> layerActions_{};
  QStackedWidget sides_;
  Side side_ = Side::wood;
};

}  // namespace rackside
