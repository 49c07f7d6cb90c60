/* The box in the head: "/" goes to it, the arrows go through what hangs below it, Escape puts that away.
   Without a script the box is a form with a page of its own. */
"use strict";

(function () {
  const whole = document.getElementById("find-anything");
  const box = document.getElementById("find-q");
  const hanging = document.getElementById("find-hanging");

  if (!whole) return;

  const isTypedIn = (at) => at.isContentEditable || /^(INPUT|SELECT|TEXTAREA)$/.test(at.tagName);
  const putAway = () => hanging.replaceChildren();

  document.addEventListener("keydown", (press) => {
    if (press.key !== "/" || press.ctrlKey || press.metaKey || press.altKey || isTypedIn(press.target)) return;
    /* Letters as keys can be turned off for a browser: keys.js. */
    if (document.querySelector("dialog[open]") || localStorage.getItem("letters-off") === "yes") return;
    press.preventDefault();
    box.focus();
    box.select();
  });

  whole.addEventListener("keydown", (press) => {
    const stops = [box, ...hanging.querySelectorAll("a")];
    const at = stops.indexOf(document.activeElement);
    if (press.key === "Escape" && hanging.childElementCount) {
      press.preventDefault();
      box.focus();
      putAway();
    } else if (press.key === "ArrowDown" && at >= 0 && at + 1 < stops.length) {
      press.preventDefault();
      stops[at + 1].focus();
    } else if (press.key === "ArrowUp" && at > 0) {
      press.preventDefault();
      stops[at - 1].focus();
    }
  });

  /* Whoever goes on to something else no longer needs it, and an answer that comes late is not hung up. */
  const isElsewhere = (at) => at instanceof Node && !whole.contains(at);
  whole.addEventListener("focusout", (left) => { if (isElsewhere(left.relatedTarget)) putAway(); });
  document.addEventListener("pointerdown", (press) => { if (isElsewhere(press.target)) putAway(); });
  hanging.addEventListener("htmx:beforeSwap", (answer) => {
    if (!whole.contains(document.activeElement)) answer.detail.shouldSwap = false;
  });
})();
