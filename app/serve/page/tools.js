const main = document.getElementById("main");
const svgNames = { svg: 1, g: 1, image: 1, polygon: 1, line: 1, ellipse: 1, text: 1 };
// Text only ever goes in as text: nothing that a board is called can become part of the page.
function h(tag, attributes, ...children) {
  const e = svgNames[tag] ? document.createElementNS("http://www.w3.org/2000/svg", tag)
                          : document.createElement(tag);
  Object.keys(attributes || {}).forEach(function (k) {
    const v = attributes[k];
    if (v === null || v === undefined || v === false) return;
    if (k.slice(0, 2) === "on") e.addEventListener(k.slice(2), v);
    else if (k === "value" && tag !== "option") e.value = v;
    else if (k === "checked") e.checked = v;
    else e.setAttribute(k, v === true ? "" : v);
  });
  children.forEach(function add(c) {
    if (Array.isArray(c)) c.forEach(add);
    else if (c !== null && c !== undefined && c !== false)
      e.appendChild(typeof c === "object" ? c : document.createTextNode(String(c)));
  });
  return e;
}
function button(words, act, kind) { return h("button", { type: "button", class: kind, onclick: act }, words); }
let sayTimer = 0;
function say(words, act, actWords) {
  const box = document.getElementById("say");
  box.textContent = words;
  if (act) box.appendChild(button(actWords, function () { box.hidden = true; act(); }));
  box.hidden = false;
  clearTimeout(sayTimer);
  sayTimer = setTimeout(function () { box.hidden = true; }, act ? 8000 : 5000);
}
function newId() {
  const bytes = new Uint8Array(16);
  crypto.getRandomValues(bytes);
  return Array.from(bytes).map(function (b) { return (b + 256).toString(16).slice(1); }).join("");
}
function remember(key, value) { try { localStorage.setItem(key, value); } catch (e) { /* private mode */ } }
function recall(key) { try { return localStorage.getItem(key) || ""; } catch (e) { return ""; } }
