function field(key, label, hint, more) {
  const input = h("input", Object.assign({ type: "text", id: "f-" + key, value: fields[key], autocomplete: "off",
    autocapitalize: "none", maxlength: 60, oninput: function () { fields[key] = input.value; } }, more || {}));
  return h("label", { for: "f-" + key }, label, hint && h("span", { class: "hint" }, " " + hint), input);
}
function speciesList() {
  const seen = {};
  state.boards.forEach(function (b) { if (b.species) seen[b.species] = 1; });
  return h("datalist", { id: "species" }, Object.keys(seen).map(function (s) { return h("option", { value: s }); }));
}
function moreFields() {
  return [h("div", { class: "row" }, field("species", "Species", "", { list: "species" }),
                                     field("thickness", "Thickness", state.inches ? "in" : "mm")),
          h("div", { class: "row" }, field("moisture", "Moisture", "%", { inputmode: "decimal" }),
                                     field("place", "Location", "")), speciesList()];
}
function formPage() {
  function side(f, text) {
    return h("button", { type: "button", "aria-pressed": String(face === f), onclick: function () { face = f; refresh(true); } }, text);
  }
  return [h("h1", {}, "Photograph a board"),
    field("board", "Board number", "or from its tag"),
    h("div", { class: "row", role: "group", "aria-label": "Which face" }, side("A", "Face A"), side("B", "Face B")),
    moreFields(),
    h("div", { class: "row" }, button("Take photograph", function () { picture(taken); }, "main")),
    h("div", { class: "row" }, button("Choose a photograph", function () { picture(taken, true); }))];
}
function measuredLine(m) {
  return [h("span", { class: "figure" }, m.is), " ", h("span", { class: "by" }, m.by)];
}
function resultPage(j) {
  const mine = held.filter(function (p) { return p.id === current; });
  const fault = mine.find(function (p) { return p.fault; });
  if (fault) return [h("h1", {}, "Held on the phone"), h("p", { class: "bad" }, fault.fault),
    h("div", { class: "row" }, button("Try again", function () { fault.fault = ""; shelve(fault); send(); refresh(); }, "main")),
    h("div", { class: "row" }, button("Retake", retake), button("Delete", function () { drop(current); }, "away"))];
  if (mine.length) return [h("h1", {}, linked === "yes" ? "Sending …" : "Held on the phone"),
    h("p", {}, linked === "yes" ? h("span", { id: "sent" }, sent + " %") : "It is sent as soon as the computer is in reach. You can go on with the next board."),
    h("div", { class: "row" }, button("Next board", nextBoard))];
  if (!j) return [h("p", {}, "This photograph is not on the computer any more."), h("div", { class: "row" }, button("Next board", nextBoard, "main"))];
  if (j.state === "kept") return keptPage(j);
  if (j.state === "failed") return [h("h1", {}, "Retake this photograph"), seenPictures(j, 1), h("p", { class: "bad" }, j.say),
    h("div", { class: "row" }, button("Retake", retake, "main")),
    h("div", { class: "row" }, button("Add a photograph", addPhotograph), button("Delete", function () { drop(j.id); }, "away")),
    field("board", "Board number", "if it was wrong"),
    h("div", { class: "row" }, button("Measure again", function () { tell("/again", { job: j.id, words: words() }); }),
      button("Next board", nextBoard))];
  if (j.state !== "measured") return [h("h1", {}, "Measuring …"), h("p", {}, "About three seconds. You can go on with the next board meanwhile."),
    h("div", { class: "row" }, button("Add a photograph", addPhotograph), button("Next board", nextBoard))];
  return [h("h1", {}, "Board " + (j.name || "without a number") + (j.face === "B" ? ", face B" : "") + (j.known && j.face === "A" ? ", measured again" : "")),
    seenPictures(j, j.seen),
    h("div", { class: "card" },
      h("div", {}, h("span", { class: "hint" }, "Length "), measuredLine(j.length)),
      j.widths.map(function (w) { return h("div", {}, h("span", { class: "hint" }, "Width, " + w.where + " "), h("b", {}, w.is), " ", w.by); }),
      j.length.unchecked && h("p", { class: "hint" }, j.length.unchecked + " until the print of the cards is checked: measure the printed bar and enter it at the computer.")),
    j.advice.map(function (a) { return h("p", { class: "advice" }, a); }),
    h("div", { class: "row" }, button("Keep", keep, "main")),
    h("div", { class: "row" }, button("Retake", retake), button("Add a photograph", addPhotograph)),
    h("div", { class: "row" }, button("Later", nextBoard), button("Delete", function () { drop(j.id); }, "away")),
    h("h2", {}, "About this board"), field("board", "Board number"), moreFields()];
}
function seenPictures(j, n) {
  const list = [];
  for (let i = 1; i <= n; ++i)
    list.push(h("img", { class: "seen", src: "/seen?job=" + j.id + "&number=" + i + "&of=" + j.photos, alt: "The photograph with the board's outline", onerror: function () { this.remove(); } }));
  return list;
}
function keep() {
  const id = current;
  tell("/keep", { job: id, words: words() }).then(function (r) { if (r.status === 200) { say("Kept."); refresh(); } });
}
function keptPage(j) {
  const b = state.boards.find(function (x) { return x.id === j.board; });
  if (!b) return [h("h1", {}, "Kept"), h("div", { class: "row" }, button("Next board", nextBoard, "main"))];
  return [h("h1", {}, "Board " + b.name + " is on the rack"), h("p", { class: "size" }, b.length + " × " + b.width),
    missing(b),
    h("div", { class: "row" }, button("Next board", nextBoard, "main")),
    h("div", { class: "row" }, !b.b && button("Photograph face B", function () { otherFace(b.name); }),
      button("Open this board", function () { openBoard(b.id); }))];
}
function missing(b) {
  return b.missing.length ? h("p", {}, h("span", { class: "missing" }, "Missing: "), b.missing.join(", ")) : h("p", {}, "Nothing is missing.");
}
