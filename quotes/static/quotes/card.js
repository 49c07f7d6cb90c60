/* The card: fills in a duty's own season, takes rows out, and tells screen readers which fields are at fault.
   Everything here can be done without a script as well, with the buttons of the card. */
"use strict";

(function () {
  const form = document.getElementById("card-form");
  if (!form) return;

  /* The answer brings the faults as a list; each goes to the place beside its field, and what is mended goes. */
  function placeFaults() {
    const brought = document.getElementById("faults");
    if (!brought) return;
    const faults = new Map([...brought.children].map((one) => [one.dataset.place, one.textContent]));
    for (const place of form.querySelectorAll(".err[id$='_error']")) {
      place.textContent = faults.get(place.id) || "";
      const field = document.getElementById(place.id.slice(0, -"_error".length));
      if (!field) continue;
      if (faults.has(place.id)) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    }
    brought.remove();
  }

  function announceChange() {
    form.querySelector("#asked").dispatchEvent(new Event("input", { bubbles: true }));
  }

  /* What the script has filled in it may fill in again; what a hand has typed stays. */
  function fill(field, value) {
    if (!field || (field.value && field.dataset.filled !== field.value)) return;
    field.value = value;
    field.dataset.filled = value;
  }

  function fillSeason(duty) {
    const season = duty.selectedOptions[0].dataset;
    if (!season.amount) return;
    const amount = document.getElementById("id_planned-amount");
    const before = amount.value;
    fill(amount, season.amount);
    if (amount.value !== before || amount.dataset.filled === amount.value) {
      document.getElementById("id_planned-unit").value = season.unit;
    }
    fill(document.getElementById("id_planned-events"), season.events);
  }

  /* More or fewer meetings move the amount with them, as long as nobody has typed one. */
  function followMeetings(events) {
    const duty = document.getElementById("id_planned-duty").selectedOptions[0];
    const amount = document.getElementById("id_planned-amount");
    if (!duty || !duty.dataset.amount || amount.dataset.filled !== amount.value) return;
    const count = Number(events.value);
    if (!Number.isInteger(count) || count < 1) return;
    const share = (Number(duty.dataset.amount) * count) / Number(duty.dataset.events);
    amount.value = amount.dataset.filled = String(Math.round(share * 10) / 10);
  }

  form.addEventListener("input", (event) => {
    if (event.target.id === "id_planned-duty") fillSeason(event.target);
    if (event.target.id === "id_planned-events") followMeetings(event.target);
  }, true);

  form.addEventListener("click", (event) => {
    const button = event.target.closest("button[name='drop']");
    if (!button) return;
    event.preventDefault();
    const rows = button.closest("[id$='-rows']");
    document.getElementById(button.value).remove();
    const next = rows.querySelector("input, select") || rows.parentElement.querySelector("button[name='add']");
    if (next) next.focus();
    announceChange();
  });

  /* Who is calling is not worked out again at every letter: its fault goes as soon as it is being mended. */
  form.addEventListener("input", (event) => {
    if (event.target.closest("#asked")) return;
    const place = document.getElementById(event.target.id + "_error");
    if (!place) return;
    place.textContent = "";
    event.target.removeAttribute("aria-invalid");
  });

  document.addEventListener("htmx:afterSettle", placeFaults);

  /* An empty card begins with the first question of a call; not on a phone, where the keys would cover it. */
  const caller = document.getElementById("id_name");
  const untouched = document.activeElement === document.body && !form.querySelector("[aria-invalid]");
  if (caller && !caller.value && untouched && matchMedia("(pointer: fine)").matches) caller.focus();
})();
