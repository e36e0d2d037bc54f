// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/window/help_window.h"

#include <QDialogButtonBox>
#include <QTextBrowser>
#include <QVBoxLayout>
#include <utility>
#include <vector>

#include "app/window/look/mark_look.h"

namespace rackside {

namespace {

using Keys = std::vector<std::pair<QString, QString>>;

QString table(const QString& title, const Keys& keys) {
  QString html = QStringLiteral("<h3>%1</h3><table cellpadding='3'>").arg(title);
  for (const auto& [key, what] : keys)
    html += QStringLiteral("<tr><td><b>%1</b></td><td>%2</td></tr>")
                .arg(key.toHtmlEscaped(), what.toHtmlEscaped());
  return html + QStringLiteral("</table>");
}

QString job() {
  return QObject::tr(
      "<h2>How a job goes</h2><ol>"
      "<li><b>Photographs.</b> Lay printed cards along each board, its numbered tag in view, and "
      "take the picture from above. Drop the pictures on the window.</li>"
      "<li><b>Wood.</b> Look over the outline: a solid line was seen, a dashed one is doubtful, a "
      "dotted one was hidden by a card and bridged, dash and dot was drawn by you. Mark what a "
      "part "
      "may not hold.</li>"
      "<li><b>Parts.</b> Type the parts list or paste it from a spreadsheet.</li>"
      "<li><b>Looks.</b> See each part cut out of every board that can give it, the best-looking "
      "first, and lay the strips of a panel in order.</li>"
      "<li><b>Plan.</b> Let the parts be placed; move and pin what you want elsewhere.</li>"
      "<li><b>Paper.</b> Print the sheets, cards and labels.</li>"
      "<li><b>Cut.</b> Tick the cuts as they are made; record a miscut, mark a "
      "defect that came to light, and the rest is planned anew.</li></ol>"
      "<p>Everything is saved by itself and can be undone.</p>");
}

QString kinds() {
  QString html = QObject::tr("<h3>Kinds of mark</h3>") + QStringLiteral("<table cellpadding='3'>");
  for (const MarkKind kind : allMarkKinds()) {
    const MarkLook& look = markLook(kind);
    html += QStringLiteral("<tr><td><b>%1</b></td><td>%2</td><td>%3</td></tr>")
                .arg(look.letters.toHtmlEscaped(), look.label, look.meaning);
  }
  return html + QStringLiteral("</table>");
}

QString keys() {
  QString html = QObject::tr("<h2>Keys</h2>");
  html += table(
      QObject::tr("Anywhere"),
      {{"Alt+1 … Alt+8", QObject::tr("Photographs, Wood, Parts, Looks, Plan, Paper, Cut, Shop")},
       {"Ctrl+N, Ctrl+O", QObject::tr("start a rack, open one")},
       {"Ctrl+Z, Ctrl+Shift+Z", QObject::tr("undo, redo")},
       {"Page Down, Page Up", QObject::tr("next, previous board")},
       {"Ctrl+F", QObject::tr("find a board")},
       {"Ctrl+L, Ctrl+B", QObject::tr("to the list, to the board")},
       {"Ctrl+U", QObject::tr("millimetres or inches")},
       {"Ctrl+D", QObject::tr("light or dark")},
       {"Space, Enter", QObject::tr("in the list of cuts: made, or not after all")},
       {"Ctrl+T", QObject::tr("enter boards by tape")},
       {"F4", QObject::tr("find an action")},
       {"F1", QObject::tr("this page")}});
  html += table(
      QObject::tr("On the board"),
      {{"1", QObject::tr("select, move and reshape marks")},
       {"2, 3, 4", QObject::tr("draw an area, an ellipse, a line")},
       {"K", QObject::tr("kind of mark to draw")},
       {"G", QObject::tr("look for marks: suggestions, which count for nothing until accepted")},
       {"Y, N", QObject::tr("accept or refuse the selected suggestion; the next one follows")},
       {"Shift+Y", QObject::tr("accept all suggestions that are sure enough")},
       {"5", QObject::tr("redraw a stretch of the outline")},
       {"6", QObject::tr("measure")},
       {"7", QObject::tr("place parts (under Plan)")},
       {"F", QObject::tr("the other face, in the same place")},
       {"T", QObject::tr("flip the view end for end")},
       {"+, −, 0", QObject::tr("zoom in, zoom out, fit the board")},
       {"Arrows", QObject::tr("move the view; while drawing, move the cross (Shift: finely)")},
       {"Enter, Ctrl+Enter", QObject::tr("set a point at the cross; set the last one")},
       {"Backspace, Esc", QObject::tr("take a point back; drop what is half drawn")},
       {"Tab, arrows, Delete", QObject::tr("with Select: next mark, nudge it, remove it")},
       {"Shift+P, O, M, A, C", QObject::tr("show or hide picture, outline, marks, parts, cuts")}});
  html += table(QObject::tr("With the mouse"),
                {{"Wheel", QObject::tr("zoom about the pointer")},
                 {"Middle or right button, or Space", QObject::tr("drag the view")},
                 {"Two fingers", QObject::tr("drag the view; with Ctrl zoom")}});
  return html;
}

}  // namespace

HelpWindow::HelpWindow(QWidget* parent) : QDialog(parent) {
  setWindowTitle(tr("Guide and shortcuts"));
  resize(640, 640);
  auto* text = new QTextBrowser;
  text->setHtml(job() + keys() + kinds());
  text->setFrameShape(QFrame::NoFrame);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::close);
  auto* column = new QVBoxLayout(this);
  column->addWidget(text);
  column->addWidget(buttons);
}

}  // namespace rackside
