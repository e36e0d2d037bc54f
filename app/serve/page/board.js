let seenFace = "a", zoom = 1, kind = "knot", marking = false;
function kindOf(name) { return open.kinds.find(function (k) { return k.name === name; }); }
function inverse(m) {   // picture from board: a b c d e f of an SVG matrix
  const d = m[0] * m[4] - m[1] * m[3];
  return [m[4] / d, -m[3] / d, -m[1] / d, m[0] / d, (m[1] * m[5] - m[4] * m[2]) / d, (m[3] * m[2] - m[0] * m[5]) / d];
}
function polygon(points, more) {
  return h("polygon", Object.assign({ points: points.map(function (p) { return p.join(","); }).join(" "), "vector-effect": "non-scaling-stroke", fill: "none" }, more));
}
function woodPicture() {
  const p = open[seenFace];
  if (!p) return h("p", {}, "This face was not photographed: it is unseen, not clear.");
  const high = 190 * zoom, wide = high * p.wide / p.high;
  const onWood = h("g", { transform: "matrix(" + inverse(p.map).join(" ") + ")" });
  onWood.appendChild(polygon(open.outline, { stroke: "#0a55c4", "stroke-width": 2 }));
  open.pieceList.forEach(function (piece) {
    onWood.appendChild(polygon(piece.outline, { stroke: "#fff", "stroke-width": 5 }));
    onWood.appendChild(polygon(piece.outline, { stroke: "#0b4f2c", "stroke-width": 3 }));
  });
  open.markList.forEach(function (m) {
    (m[seenFace] || []).forEach(function (ring) {
      onWood.appendChild(polygon(ring, { stroke: kindOf(m.kind).colour, "stroke-width": 3, "stroke-dasharray": m.taken ? null : "6 5",
        fill: kindOf(m.kind).colour, "fill-opacity": m.taken ? .3 : .1,
        onclick: function () { if (!marking) say(kindOf(m.kind).label + (m.taken ? "" : ", suggestion"), function () { unmark(m.id); }, "Remove"); } }));
    });
  });
  const svg = h("svg", { width: wide, height: high, viewBox: "0 0 " + p.wide + " " + p.high, class: marking ? "drawing" : null, role: "img", "aria-label": "Face " + seenFace.toUpperCase() + " with its marks and what is planned" },
    h("image", { href: "/face?board=" + open.id + "&picture=" + p.id + "&wide=" + Math.min(4000, Math.round(wide * (window.devicePixelRatio || 1))), width: p.wide, height: p.high }), onWood);
  open.pieceList.forEach(function (piece) {
    const c = piece.outline.reduce(function (s, q) { return [s[0] + q[0] / piece.outline.length, s[1] + q[1] / piece.outline.length]; }, [0, 0]);
    const i = inverse(p.map), s = p.high / high;
    svg.appendChild(h("text", { x: i[0] * c[0] + i[2] * c[1] + i[4], y: i[1] * c[0] + i[3] * c[1] + i[5] + 8 * s, "font-size": 24 * s, "font-weight": 700, "text-anchor": "middle", fill: "#fff", stroke: "#14110d", "stroke-width": 5 * s, "paint-order": "stroke" }, piece.code));
  });
  if (marking) drawWith(svg, onWood, p);
  return h("div", { class: "wood", id: "wood", tabindex: 0, "aria-label": "The board; scroll along it" }, svg);
}
// Touch where the mark is and draw outwards to its size; a check, split or shake is drawn end to end.
function drawWith(svg, onWood, p) {
  function at(e) {
    const box = svg.getBoundingClientRect();
    const x = (e.clientX - box.left) * p.wide / box.width - .5, y = (e.clientY - box.top) * p.high / box.height - .5, m = p.map;
    return [m[0] * x + m[1] * y + m[2], m[3] * x + m[4] * y + m[5]];
  }
  const straight = kindOf(kind).line;
  svg.addEventListener("pointerdown", function (e) {
    drawing = { from: at(e), to: at(e), shape: null };
    svg.setPointerCapture(e.pointerId);
    e.preventDefault();
  });
  svg.addEventListener("pointermove", function (e) {
    if (!drawing) return;
    drawing.to = at(e);
    if (drawing.shape) drawing.shape.remove();
    const f = drawing.from, t = drawing.to, look = { stroke: "#c01818", "stroke-width": 4, fill: "none", "vector-effect": "non-scaling-stroke" };
    drawing.shape = straight ? h("line", Object.assign({ x1: f[0], y1: f[1], x2: t[0], y2: t[1] }, look))
      : h("ellipse", Object.assign({ cx: f[0], cy: f[1], rx: Math.abs(t[0] - f[0]), ry: Math.abs(t[1] - f[1]) }, look));
    onWood.appendChild(drawing.shape);
  });
  svg.addEventListener("pointercancel", function () { drawing = null; refresh(true); });
  svg.addEventListener("pointerup", function () {
    if (!drawing) return;
    const d = drawing;
    drawing = null;
    tell("/mark", { board: open.id, face: seenFace.toUpperCase(), kind: kind, x0: d.from[0], y0: d.from[1], x1: d.to[0], y1: d.to[1] }).then(function (r) {
      if (r.status === 200) say(kindOf(kind).label + " added.", function () { unmark(r.body.mark); }, "Remove");
      reopen();
      if (r.status !== 200) refresh(true);
    });
  });
}
function unmark(mark) { tell("/unmark", { board: open.id, mark: mark }).then(reopen); }
function markControls() {
  const select = h("select", { id: "f-kind", onchange: function () { kind = select.value; refresh(true); } },
    open.kinds.map(function (k) { return h("option", { value: k.name, selected: k.name === kind }, k.label); }));
  return [h("div", { class: "row" }, h("button", { type: "button", "aria-pressed": String(seenFace === "a"), onclick: function () { seenFace = "a"; refresh(true); } }, "Face A"),
      h("button", { type: "button", "aria-pressed": String(seenFace === "b"), onclick: function () { seenFace = "b"; refresh(true); } }, "Face B"),
      h("button", { type: "button", "aria-label": "Zoom out", onclick: function () { zoom = Math.max(.5, zoom / 1.5); refresh(true); } }, "−"),
      h("button", { type: "button", "aria-label": "Zoom in", onclick: function () { zoom = Math.min(5, zoom * 1.5); refresh(true); } }, "+")),
    h("div", { class: "row" }, h("label", { for: "f-kind" }, "Kind of mark", select)),
    h("div", { class: "row" }, h("button", { type: "button", "aria-pressed": String(marking), onclick: function () { marking = !marking; refresh(true); } },
      marking ? "Stop adding marks" : "Add a mark")),
    marking && h("p", { class: "hint" }, kindOf(kind).line ? "Draw along it, from end to end." : "Touch its middle and draw outwards to its edge.")];
}
function cutList() {
  if (!open.cuts.length) return h("p", {}, open.pieceList.length ? "" : "Nothing is planned from this board.");
  return [h("p", { class: "hint" }, "Check each figure with a rule before the saw touches wood. Guard on, hands away; the machine's manual comes first."),
    open.cuts.map(function (c) {
      const box = h("input", { type: "checkbox", checked: c.made, onchange: function () {
        tell("/tick", { board: open.id, cut: c.number, made: box.checked }).then(function (r) { if (r.status !== 200) box.checked = c.made; else c.made = box.checked; });
      } });
      return h("label", { class: "tick" }, box, h("span", {}, h("b", {}, c.number + "  " + c.what + " "), c.where, c.frees && h("b", {}, " frees " + c.frees)));
    })];
}
function boardPage() {
  if (!open) return [h("p", {}, "Opening …")];
  return [h("h1", {}, "Board " + open.name),
    h("p", { class: "size" }, open.length + " × " + open.width),
    h("p", {}, [open.species, open.thickness && open.thickness + " thick", open.place, open.moisture && "moisture " + open.moisture + " %", open.tag && "tag " + open.tag].filter(Boolean).join(", ")),
    missing(open), woodPicture(), markControls(),
    open.pieceList.length > 0 && h("h2", {}, "Planned"), open.pieceList.map(function (p) { return h("p", {}, h("b", {}, p.code + "  "), p.title); }),
    h("h2", {}, "Cuts"), cutList(),
    h("h2", {}, "About this board"), moreFields(),
    h("div", { class: "row" }, button("Save", function () {
      tell("/fields", { board: open.id, words: Object.assign(words(), { board: "" }) }).then(function (r) {
        if (r.status !== 200) return;
        fields.moisture = "";
        say("Saved.");
        reopen();
      });
    }), !open.b && button("Photograph face B", function () { otherFace(open.name); })),
    h("div", { class: "row" }, button("Back to the boards", function () { go("boards"); }))];
}
