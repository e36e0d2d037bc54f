function ask(method, path, body, onProgress) {
  return new Promise(function (resolve) {
    const x = new XMLHttpRequest();
    x.open(method, path);
    x.timeout = body && body.size ? 180000 : 15000;
    x.onload = function () {
      let j = {};
      try { j = JSON.parse(x.responseText); } catch (e) { /* no words */ }
      resolve({ status: x.status, body: j });
    };
    x.onerror = x.ontimeout = x.onabort = function () { resolve({ status: 0, body: {} }); };
    if (onProgress) x.upload.onprogress = onProgress;
    x.send(body || null);
  });
}
function tell(path, what) {
  return ask("POST", path, JSON.stringify(what)).then(function (r) {
    if (r.status === 0) say("No connection to the computer: nothing was changed. Try again nearer.");
    else if (r.status !== 200) say(r.body.say || "The computer refused this.");
    look();
    return r;
  });
}
function query(o) {
  return Object.keys(o).map(function (k) { return k + "=" + encodeURIComponent(o[k]); }).join("&");
}

let state = { jobs: [], boards: [], rack: "" };
let linked = null;      // null: not asked yet; "yes", "no", "code"
let lookTimer = 0, looking = false;
function look() {
  clearTimeout(lookTimer);
  if (looking) { lookTimer = setTimeout(look, 300); return; }
  looking = true;
  ask("GET", "/state?since=" + (state.version || "")).then(function (r) {
    looking = false;
    const before = linked;
    linked = r.status === 200 ? "yes" : r.status === 403 ? "code" : "no";
    if (r.status === 503) say(r.body.say);
    const fresh = r.status === 200 && !r.body.same;
    if (fresh) state = r.body;
    if (linked === "yes" && before !== "yes") send();
    if (fresh || before !== linked) { showLink(); refresh(); }
    const busy = state.jobs.some(function (j) { return j.state === "waiting" || j.state === "measuring"; });
    lookTimer = setTimeout(look, document.hidden ? 8000 : busy ? 500 : 2500);
  });
}
document.addEventListener("visibilitychange", function () { if (!document.hidden) look(); });

function showLink() {
  const e = document.getElementById("link"), n = held.length;
  const waits = n === 0 ? "" : n === 1 ? " 1 photograph is held on this phone." : " " + n + " photographs are held on this phone.";
  e.className = linked === "yes" ? "" : "off";
  e.textContent = (linked === "yes" ? "Rack: " + state.rack + "." :
    linked === "code" ? "This phone needs a new code: scan the one on the computer's screen." :
    linked === "no" ? "No connection to the computer." : "Looking for the computer …") + waits;
}

function enter(code) {
  return ask("POST", "/enter", JSON.stringify({ code: code })).then(function (r) {
    if (r.status === 200) { linked = null; look(); }
    else say(r.body.say || "No connection to the computer. Is the phone on the same network?");
  });
}
