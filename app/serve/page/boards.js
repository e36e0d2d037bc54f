let wanted = "", findId = "";
function boardsPage() {
  const found = job(findId);
  if (found && found.state === "measured") {
    const ids = found.boards, tags = found.tags;
    tell("/drop", { job: findId });
    findId = "";
    if (ids.length === 1) { openBoard(ids[0]); return []; }
    say(ids.length ? "Several tags are in view: move closer to one." : tags.length ? "Tag " + tags.join(", ") + " is on no board of this rack." : "No tag was found: move closer, with the whole tag in even light.");
  } else if (found && found.state === "failed") { say(found.say); tell("/drop", { job: findId }); findId = ""; }
  const list = h("div", {});
  function fill() {
    const w = wanted.trim().toLowerCase();
    list.textContent = "";
    state.boards.filter(function (b) { return !w || b.name.toLowerCase().indexOf(w) >= 0 || String(b.tag) === w; }).forEach(function (b) {
      list.appendChild(h("button", { type: "button", class: "line", onclick: function () { openBoard(b.id); } },
        h("img", { src: b.a ? "/face?board=" + b.id + "&picture=" + b.a.id + "&wide=240" : null, alt: "", loading: "lazy" }),
        h("span", {}, h("b", {}, "Board " + b.name), [b.length + " × " + b.width, b.species, b.place].filter(Boolean).join(", "),
          b.pieces > 0 && h("span", {}, " – " + b.pieces + (b.pieces === 1 ? " piece" : " pieces") + " planned"),
          b.missing.length > 0 && h("span", { class: "missing" }, " missing: " + b.missing.join(", ")))));
    });
    if (!list.firstChild) list.appendChild(h("p", {}, "No board of that number or name."));
  }
  const input = h("input", { type: "text", id: "f-find", value: wanted, autocomplete: "off", oninput: function () { wanted = input.value; fill(); } });
  fill();
  return [h("h1", {}, "Boards"), h("label", { for: "f-find" }, "Number or name", input),
    h("div", { class: "row" }, button(findId ? "Reading the tag …" : "Photograph its tag", function () {
      picture(function (blob) { findId = newId(); hold(findId, 1, blob, {}, "A", "find"); });
    })), list];
}
function openBoard(id) {
  open = null;
  view = "board";
  ask("GET", "/board?id=" + encodeURIComponent(id)).then(function (r) {
    if (r.status !== 200) { say(r.body.say || "No connection to the computer."); go("boards"); return; }
    open = r.body;
    seenFace = open.a || !open.b ? "a" : "b";
    refresh(true);
    window.scrollTo(0, 0);
  });
}
function reopen() {
  if (view !== "board" || !open || drawing) return;
  ask("GET", "/board?id=" + encodeURIComponent(open.id)).then(function (r) {
    if (r.status === 200 && view === "board" && !drawing && JSON.stringify(r.body) !== JSON.stringify(open)) { open = r.body; refresh(true); }
  });
}
