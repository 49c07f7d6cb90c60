/* The keys of the desk. "?" shows them over the page; the list is that of the page of keys, fetched when the
   first one is pressed. Letters do nothing while one types, and can be turned off for this browser. */
"use strict";

(function () {
  const link = document.getElementById("keys-link");
  if (!link) return;

  const PATIENCE_MS = 1500;
  const OFF = "letters-off";
  let fetched = null;
  let before = "";
  let forgotten = 0;

  const lettersAreOff = () => localStorage.getItem(OFF) === "yes";
  const isTypedIn = (at) => at instanceof Element
    && at.matches("textarea, select, [contenteditable], input:not([type=checkbox], [type=radio], [type=button], [type=submit])");

  /* The page of keys, once for each page; without a connection there is none, and the link still leads to it. */
  function sheet() {
    fetched = fetched || fetch(link.href)
      .then((answer) => (answer.ok ? answer.text() : ""))
      .then((text) => new DOMParser().parseFromString(text, "text/html"))
      .catch(() => null);
    return fetched;
  }

  function ready(letters) {
    const say = () => { letters.textContent = lettersAreOff() ? letters.dataset.on : letters.dataset.off; };
    letters.hidden = false;
    say();
    letters.addEventListener("click", () => {
      localStorage.setItem(OFF, lettersAreOff() ? "no" : "yes");
      say();
    });
  }

  function dialogOf(page) {
    const dialog = document.createElement("dialog");
    dialog.id = "keys";
    dialog.className = "over";
    dialog.setAttribute("aria-labelledby", "keys-title");
    dialog.setAttribute("closedby", "any");
    const title = document.importNode(page.querySelector("h1"), true);
    title.id = "keys-title";
    title.tabIndex = -1;
    dialog.append(title, document.importNode(page.getElementById("keys-list"), true));
    dialog.querySelector("form").hidden = false;
    ready(dialog.querySelector("#letters"));
    document.body.append(dialog);
    return dialog;
  }

  async function show() {
    const page = await sheet();
    if (!page?.getElementById("keys-list")) {
      location.assign(link.href);
      return;
    }
    const dialog = document.getElementById("keys") || dialogOf(page);
    if (!dialog.open) dialog.showModal();
    document.getElementById("keys-title").focus();
  }

  link.addEventListener("click", (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey || document.getElementById("keys-list")?.closest("main")) return;
    event.preventDefault();
    show();
  });

  async function pressed(keys) {
    const page = await sheet();
    const row = page && [...page.querySelectorAll("[data-keys]")].find((one) => one.dataset.keys === keys);
    if (!row) return;
    if (row.dataset.page) location.assign(row.dataset.page);
    else document.querySelector(row.dataset.press)?.click();
  }

  document.addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.altKey || event.metaKey) return;
    if (event.ctrlKey) {
      const button = event.key === "Enter" && event.target.closest?.("form")?.querySelector(".press:not([hidden])");
      if (button) { event.preventDefault(); button.click(); }
      return;
    }
    if (event.key.length !== 1 || lettersAreOff() || isTypedIn(event.target)) return;
    if (document.querySelector("dialog[open]")) return;
    const keys = before ? `${before} ${event.key}` : event.key;
    clearTimeout(forgotten);
    before = !before && /^[a-z]$/.test(event.key) ? event.key : "";
    if (before) forgotten = setTimeout(() => { before = ""; }, PATIENCE_MS);
    else if (event.key !== " ") pressed(keys);
  });

  const onItsOwnPage = document.getElementById("letters");
  if (onItsOwnPage) ready(onItsOwnPage);
})();
