/* What a part of the page asked for and did not get is said at its head; else a press would seem to do nothing. */
"use strict";

(function () {
  const STAYS = "What you typed is still on this page.";
  const ENDED = 403;
  const OUT_OF_ORDER = 503;

  function words(status) {
    if (status === ENDED) return `Your sign-in has ended. ${STAYS} Sign in, in another tab, then go on here.`;
    if (status === OUT_OF_ORDER) return `The site is out of order for the moment. ${STAYS} Press again in half a minute.`;
    if (status) return `The site could not do that. ${STAYS} What went wrong stands in its log.`;
    return `The site gave no answer. ${STAYS} Press again when the connection is back.`;
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
