/* After an answer has taken the place of a part of the page, the focus stands where it stood, or where the press led:
   at the field that it opened, at the same button of the new part, or else at the part's own head. A sum that has
   changed is said to who does not see it. */
"use strict";

(function () {
  /* What tells that a control of the new part is the one of the old, the surest first. */
  const SIGNS = [["id"], ["name", "value"], ["href"], ["aria-label"]];
  let pressed = null;

  function signed(element) {
    return new Map(SIGNS.flat().map((sign) => [sign, element.getAttribute(sign)]));
  }

  function sameIn(part, was) {
    const controls = [...part.querySelectorAll("a, button, input, select, textarea, summary")];
    const seen = controls.filter((one) => one.checkVisibility() && !one.disabled);
    for (const signs of SIGNS.filter((each) => each.every((sign) => was.get(sign)))) {
      const same = seen.find((one) => signs.every((sign) => one.getAttribute(sign) === was.get(sign)));
      if (same) return same;
    }
    return null;
  }

  function firstField(part) {
    return part.querySelector("input:not([type=hidden]), select, textarea, button");
  }

  document.addEventListener("htmx:beforeSwap", (event) => {
    const at = document.activeElement;
    pressed = at && event.detail.target.contains(at) ? signed(at) : null;
  });

  function saySum(part) {
    const said = document.getElementById("swap-said");
    const sum = part.querySelector("[data-said]")?.innerText.replace(/\s+/g, " ").trim();
    if (said && sum && said.textContent !== sum) said.textContent = sum;
  }

  document.addEventListener("htmx:afterSettle", (event) => {
    saySum(event.detail.target);
    if (!pressed || (document.activeElement && document.activeElement !== document.body)) return;
    const part = event.detail.target;
    const opened = document.getElementById((pressed.get("href") || "").split("#")[1] || "");
    const fault = part.querySelector("[role=alert]");
    const head = part.querySelector("h1, h2");
    const goal = (opened && firstField(opened)) || fault || sameIn(part, pressed) || head;
    pressed = null;
    if (!goal) return;
    if (goal === head || goal === fault) goal.tabIndex = -1;
    goal.focus();
  });
})();
