const stateWords = { waiting: "waits to be measured", measuring: "being measured", measured: "measured: keep or retake", failed: "retake", kept: "kept" };
function openJob(j) {
  setCurrent(j.id);
  Object.keys(fields).forEach(function (k) { fields[k] = j.words[k] === null ? "" : String(j.words[k] || ""); });
  if (!fields.board) fields.board = j.name || "";
  face = j.face;
  go("take");
}
function todayPage() {
  const here = held.map(function (p) {
    return h("div", { class: "card" }, h("b", {}, "Board " + (p.words.board || "by its tag")), h("p", {}, p.fault || "held on this phone until the computer takes it"),
      h("div", { class: "row" }, p.fault && button("Try again", function () { p.fault = ""; shelve(p); send(); refresh(); }),
        button("Delete", function () { drop(p.id); }, "away")));
  });
  const jobs = state.jobs.filter(function (j) { return j.what === "measure"; }).reverse().map(function (j) {
    const b = state.boards.find(function (x) { return x.id === j.board; });
    const name = b ? b.name : j.name || j.words.board || "by its tag";
    return h("button", { type: "button", class: "line", onclick: function () { openJob(j); } },
      h("img", { src: "/seen?job=" + j.id + "&number=0&of=" + j.state, alt: "", loading: "lazy" }),
      h("span", {}, h("b", {}, "Board " + name + (j.face === "B" ? ", face B" : "")),
        b ? b.length + " × " + b.width : stateWords[j.state], j.state === "failed" && h("span", { class: "missing" }, " – " + j.say),
        b && b.missing.length > 0 && h("span", { class: "missing" }, " missing: " + b.missing.join(", "))));
  });
  return [h("h1", {}, "Today"), here, jobs,
    here.length + jobs.length === 0 && h("p", {}, "Nothing yet. Boards you photograph are listed here, with what is missing.")];
}
