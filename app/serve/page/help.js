function helpPage() {
  const code = h("input", { type: "text", id: "f-code", autocomplete: "off", autocapitalize: "none", maxlength: 40 });
  function list() { return h("ul", {}, Array.from(arguments).map(function (t) { return h("li", {}, t); })); }
  return [h("h1", {}, "How it goes"),
    list("Lay the printed cards on the board, flat: one near each end, one between. A tag stays on the board and gives it its number.",
      "Take the photograph with the whole board in view, from above rather than from the side, in even light.",
      "A few seconds later the board stands here, measured. Keep it, or follow the advice and retake it.",
      "A long board: walk along it and add photographs, each with a card that the one before shows too.",
      "Nothing is on the rack until you touch Keep. What you do here can be undone at the computer.",
      "A face that was never photographed is unseen, not clear."),
    h("h2", {}, "Without a connection"),
    list("Leave this page open. Photographs are held on the phone until the computer has them; the bar at the top says how many.",
      "Closing the browser keeps them too; clearing its data loses them."),
    h("h2", {}, "Who can see this"),
    list("What this page sends is not encrypted. Anyone on the same network who knows how can read along: your photographs, the names and sizes of your boards, and the code, with which they could do what you do here.",
      "Use it on a network of your own with a password. Not on a guest network, nor one that strangers are on.",
      "It only answers while it is being served, only on this network, and only to a phone that brought a code. Each code is good for one phone; another phone needs the next one.",
      "When it is stopped, every phone needs a new code. Should a code be used that you did not use, stop it and start it again.",
      "Nobody can do more here than this page can: send photographs, and change what you see here on this one rack."),
    h("h2", {}, "A new code"),
    h("p", {}, "Scan the code on the computer's screen with the camera, or type what stands behind the # there:"),
    h("label", { for: "f-code" }, "Code", code),
    h("div", { class: "row" }, button("Use this code", function () { enter(code.value.trim()); }))];
}
