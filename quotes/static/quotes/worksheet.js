/* The worked sheet: what is pressed while an answer is on its way is pressed again when it has come. The answer
   brings a new form, and the press that waited at the old one would be lost. Without a script every press is a
   page of its own. */
"use strict";

(function () {
  const sheet = document.getElementById("worked");
  const boxes = new Map();
  let waiting = false;
  let answered = null;
  let button = null;
  let typed = new Map();

  function isForm(element) {
    return element.id === "sheet-form";
  }

  function fields(form) {
    return [...form.elements].filter((one) => one.id && one.type !== "checkbox" && one.type !== "hidden");
  }

  sheet.addEventListener("change", (event) => {
    if (waiting && event.target.matches(".line-box")) boxes.set(event.target.id, event.target.checked);
  }, true);

  sheet.addEventListener("submit", (event) => {
    if (!waiting || !isForm(event.target)) return;
    button = event.submitter;
    typed = new Map(fields(event.target).map((one) => [one.id, one.value]));
  }, true);

  sheet.addEventListener("htmx:beforeRequest", (event) => {
    if (isForm(event.detail.elt)) waiting = true;
  });

  /* Where nothing was kept the answer says why, and that has to be read before anything is pressed again. */
  function pressAgain(form) {
    const again = [...boxes].map(([id, checked]) => [document.getElementById(id), checked]);
    const changed = again.filter(([box, checked]) => box && !box.disabled && box.checked !== checked);
    for (const [box, checked] of changed) box.checked = checked;
    const pressed = button && [...form.elements].find((one) => one.name === button.name && one.value === button.value);
    if (pressed) {
      for (const one of fields(form)) if (typed.has(one.id)) one.value = typed.get(one.id);
      pressed.click();
    } else if (changed.length) {
      changed[0][0].dispatchEvent(new Event("change", { bubbles: true }));
    }
  }

  sheet.addEventListener("htmx:afterSettle", (event) => {
    /* Heard once for each part of the page that one answer has brought. */
    if (event.detail.xhr === answered || !isForm(event.detail.requestConfig.elt)) return;
    answered = event.detail.xhr;
    waiting = false;
    const form = document.getElementById("sheet-form");
    if (form && !sheet.querySelector("[role='alert']")) pressAgain(form);
    boxes.clear();
    button = null;
  });

  for (const failed of ["htmx:responseError", "htmx:sendError", "htmx:sendAbort"]) {
    sheet.addEventListener(failed, () => { waiting = false; });
  }
})();
