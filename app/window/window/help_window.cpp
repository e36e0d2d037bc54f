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
      "<li><b>Looks.</b> See each part cut out of every board that can give it, the handsomest "
      "first, and lay the strips of a panel in order.</li>"
      "<li><b>Plan.</b> Let the parts be placed; move and pin what you want elsewhere.</li>"
      "<li><b>Paper.</b> Print the sheets, cards and labels.</li>"
      "<li><b>Cut.</b> Tick the cuts as they are made; say where the saw went astray, mark a "
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
  using O = QObject;
  QString html = QObject::tr("<h2>Keys</h2>");
  html += table(O::tr("Anywhere"),
                {{"Alt+1 … Alt+7", O::tr("Photographs, Wood, Parts, Looks, Plan, Paper, Cut")},
                 {"Ctrl+O", O::tr("open or start a rack")},
                 {"Ctrl+Z, Ctrl+Shift+Z", O::tr("undo, redo")},
                 {"Page Down, Page Up", O::tr("next, previous board")},
                 {"Ctrl+F", O::tr("find a board")},
                 {"Ctrl+L, Ctrl+B", O::tr("to the list, to the board")},
                 {"Ctrl+U", O::tr("millimetres or inches")},
                 {"Ctrl+D", O::tr("light or dark")},
                 {"Space, Enter", O::tr("in the list of cuts: made, or not after all")},
                 {"F1", O::tr("this page")}});
  html +=
      table(O::tr("On the board"),
            {{"V", O::tr("choose, move and reshape marks")},
             {"A, R, L", O::tr("draw an area, a round spot, a line")},
             {"K", O::tr("kind of mark to draw")},
             {"G", O::tr("look for marks: suggestions, which count for nothing until taken")},
             {"Y, N", O::tr("take or refuse the suggestion in hand; the next one follows")},
             {"Shift+Y", O::tr("take all suggestions that are sure enough")},
             {"O", O::tr("redraw a stretch of the outline")},
             {"M", O::tr("measure")},
             {"P", O::tr("place parts (under Plan)")},
             {"F", O::tr("the other face, in the same place")},
             {"T", O::tr("as it lies turned over")},
             {"+, −, 0", O::tr("larger, smaller, the whole board")},
             {"Arrows", O::tr("move the view; while drawing, move the cross (Shift: finely)")},
             {"Enter, Ctrl+Enter", O::tr("set a point at the cross; set the last one")},
             {"Backspace, Esc", O::tr("take a point back; drop what is half drawn")},
             {"Tab, arrows, Delete", O::tr("with Choose: next mark, nudge it, remove it")},
             {"Shift+P, O, M, A, C", O::tr("show or hide picture, outline, marks, parts, cuts")}});
  html += table(O::tr("With the mouse"),
                {{"Wheel", O::tr("larger and smaller about the pointer")},
                 {"Middle or right button, or Space", O::tr("drag the view")},
                 {"Two fingers", O::tr("drag the view; with Ctrl larger and smaller")}});
  return html;
}

}  // namespace

HelpWindow::HelpWindow(QWidget* parent) : QDialog(parent) {
  setWindowTitle(tr("How it goes, and all keys"));
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
