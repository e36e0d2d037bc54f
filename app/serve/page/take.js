let view = "take", current = recall("current"), face = "A", open = null, drawing = null;
const fields = { board: "", species: recall("species"), thickness: recall("thickness"), moisture: "", place: recall("place") };
function words() { return Object.assign({}, fields); }
function job(id) { return state.jobs.find(function (j) { return j.id === id; }); }
function setCurrent(id) { current = id; remember("current", id); }

function picture(act, fromShelf) {
  const input = h("input", { type: "file", accept: "image/*", capture: fromShelf ? null : "environment", hidden: true });
  input.addEventListener("change", function () {
    if (input.files.length) act(input.files[0]);
    input.remove();
  });
  document.body.appendChild(input);
  input.click();
}
function taken(blob) {
  const id = newId();
  setCurrent(id);
  ["species", "thickness", "place"].forEach(function (k) { remember(k, fields[k]); });
  hold(id, 1, blob, words(), face);
}
function retake() {
  picture(function (blob) {
    const old = current, j = job(old);
    if (j) Object.keys(fields).forEach(function (k) { if (j.words[k] !== null) fields[k] = String(j.words[k]); });
    if (j) face = j.face;
    dropHeld(old);
    if (j) tell("/drop", { job: old });
    taken(blob);
  });
}
function addPhotograph() {
  const id = current, j = job(id);
  picture(function (blob) {
    const waiting = held.filter(function (p) { return p.id === id; }).length;
    hold(id, (j ? j.photos : 0) + waiting + 1, blob, words(), j ? j.face : face);
  });
}
function dropHeld(id) { held.filter(function (p) { return p.id === id; }).forEach(unshelve); showLink(); }
function drop(id) {
  if (!confirm("Delete this photograph? It cannot be brought back.")) return;
  dropHeld(id);
  if (job(id)) tell("/drop", { job: id });
  if (current === id) setCurrent("");
  refresh();
}
function nextBoard() {
  setCurrent("");
  fields.board = fields.moisture = "";
  face = "A";
  go("take");
}
function otherFace(name) {
  setCurrent("");
  fields.board = name;
  fields.moisture = "";
  face = "B";
  go("take");
}
