/* What a part of the page asked for and did not get is said at its head; else a press would seem to do nothing. */
"use strict";

(function () {
  const said = document.currentScript.dataset;
  const ENDED = 403;
  const OUT_OF_ORDER = 503;

  function words(status) {
    if (status === ENDED) return said.ended;
    if (status === OUT_OF_ORDER) return said.outOfOrder;
    return status ? said.failed : said.noAnswer;
  }

  function told() {
    const there = document.getElementById("unanswered");
    if (there) return there;
    const made = document.createElement("div");
    made.id = "unanswered";
    made.className = "said";
    made.setAttribute("role", "alert");
    document.getElementById("main").before(made);
    return made;
  }

  function say(status) {
    const line = document.createElement("p");
    line.className = "err";
    line.textContent = words(status);
    told().replaceChildren(line);
  }

  document.addEventListener("htmx:responseError", (event) => say(event.detail.xhr.status));
  document.addEventListener("htmx:sendError", () => say(0));
  document.addEventListener("htmx:timeout", () => say(0));
  document.addEventListener("htmx:afterSwap", () => document.getElementById("unanswered")?.remove());
})();
