let held = [];          // {key, id, number, blob, words, face, what, fault}
let shelf = null;       // IndexedDB, or null where a phone has none
let sending = null, sent = 0;
function openShelf() {
  return new Promise(function (resolve) {
    let r;
    try { r = indexedDB.open("rackside", 1); } catch (e) { resolve(); return; }
    r.onupgradeneeded = function () { r.result.createObjectStore("held", { keyPath: "key" }); };
    r.onerror = function () { resolve(); };
    r.onsuccess = function () {
      shelf = r.result;
      const all = shelf.transaction("held").objectStore("held").getAll();
      all.onsuccess = function () {
        held = all.result.sort(function (a, b) { return a.at - b.at; });
        resolve();
      };
      all.onerror = function () { resolve(); };
    };
  });
}
function shelve(p) {
  if (!shelf) return;
  shelf.transaction("held", "readwrite").objectStore("held").put(p).onerror = function () {
    say("The phone has no room to hold this photograph. Do not close the page until it is sent.");
  };
}
function unshelve(p) {
  held = held.filter(function (q) { return q.key !== p.key; });
  if (shelf) shelf.transaction("held", "readwrite").objectStore("held").delete(p.key);
}
function hold(id, number, blob, words, face, what) {
  const p = { key: id + "-" + number, id: id, number: number, blob: blob, words: words, face: face,
              what: what || "measure", at: Date.now(), fault: "" };
  held.push(p);
  shelve(p);
  showLink();
  refresh();
  send();
}
function send() {
  if (sending || linked === "code") return;
  const p = held.find(function (q) { return !q.fault; });
  if (!p) return;
  sending = p;
  sent = 0;
  const words = Object.assign({ job: p.id, number: p.number, face: p.face, what: p.what }, p.words);
  ask("POST", "/photo?" + query(words), p.blob, function (e) {
    sent = e.total ? Math.round(100 * e.loaded / e.total) : 0;
    const at = document.getElementById("sent");
    if (at) at.textContent = sent + " %";
  }).then(function (r) {
    sending = null;
    if (r.status === 200) unshelve(p);
    else if (r.status === 0 || r.status === 503 || r.status === 429) { setTimeout(send, 2500); showLink(); return; }
    else if (r.status === 403) linked = "code";
    else { p.fault = r.body.say || "The computer did not take this photograph."; shelve(p); say(p.fault); }
    showLink();
    refresh();
    look();
    send();
  });
}
