function go(to) {
  view = to;
  open = null;
  marking = false;
  refresh(true);
  window.scrollTo(0, 0);
}
// Rebuilt as a whole when something changed, but never under the fingers of who is typing.
let shown = "";
function refresh(now) {
  const typing = document.activeElement && /^(INPUT|SELECT)$/.test(document.activeElement.tagName) && document.activeElement.type !== "checkbox";
  if (!now && view === "board") return reopen();
  const j = view === "take" && current ? job(current) : null;
  const stamp = JSON.stringify([view, current, j, held.map(function (p) { return p.key + p.fault; }), linked]);
  if (!now && typing && (stamp === shown || view === "boards" || view === "help")) return;
  if (!now && view === "take" && stamp === shown) return;
  if (!now && view === "help") return;
  if (j && j.state === "measured" && shown !== stamp && !typing && !fields.board) fields.board = j.name;
  shown = stamp;
  const scroll = document.getElementById("wood"), left = scroll ? scroll.scrollLeft : 0;
  const content = view === "take" ? (current ? resultPage(j) : formPage()) : view === "today" ? todayPage()
    : view === "boards" ? boardsPage() : view === "board" ? boardPage() : helpPage();
  if (view === "board" && !content.length) return;
  const typedIn = typing ? document.activeElement.id : "";
  main.textContent = "";
  content.forEach(function add(e) { if (Array.isArray(e)) e.forEach(add); else if (e) main.appendChild(e); });
  const again = typedIn && document.getElementById(typedIn);
  if (again) again.focus();
  const wood = document.getElementById("wood");
  if (wood) wood.scrollLeft = left;
  ["take", "today", "boards", "help"].forEach(function (v) {
    const b = document.getElementById("go-" + v);
    if (v === view || (v === "boards" && view === "board")) b.setAttribute("aria-current", "page");
    else b.removeAttribute("aria-current");
  });
}
["take", "today", "boards", "help"].forEach(function (v) {
  document.getElementById("go-" + v).addEventListener("click", function () { go(v); });
});
window.addEventListener("hashchange", arrive);
function arrive() {
  const code = location.hash.slice(1);
  if (!code) { look(); return; }
  history.replaceState(null, "", "/");
  enter(code);
}
refresh(true);
openShelf().then(function () { showLink(); refresh(true); arrive(); });
