/* The fields of the sheet: a verdict while one types, and an entry kept on the tablet when a field is left.
   Without a script the same fields are sent by the button under each group. */
"use strict";

window.teardown.fields = function (store, sender, changed) {
  const { say } = window.teardown;
  const NUMBER = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/;
  const cells = new Map();

  /* The tablet's keys for figures; said here and not two hundred times on the sheet. A share has a stroke in it. */
  for (const input of document.querySelectorAll("fieldset:not([data-share]) > .reads input")) input.inputMode = "decimal";

  const unitOf = (block) => block.querySelector("select").value;

  /* The value in the unit of the limit, at six decimals as it will be kept; NaN where it can't be read. */
  function value(text, block, unit) {
    const figure = (one) => (NUMBER.test(one.trim()) ? Number(one.trim().replace(",", ".")) : NaN);
    const share = "share" in block.dataset && text.includes("/");
    const [above, below] = text.split("/");
    const option = [...block.querySelector("select").options].find((one) => one.value === unit);
    const factor = Number(option ? option.dataset.f || 1 : NaN);
    const whole = share ? figure(above) / figure(below || "") : figure(text) * factor;
    return Math.round(whole * 1e6) / 1e6;
  }

  function verdict(text, block, unit = unitOf(block)) {
    const read = value(text, block, unit), { limit, watch, bad } = block.dataset;
    if (!Number.isFinite(read)) return "err";
    if (limit === undefined) return "no_limit";
    const sign = bad === "above" ? 1 : -1;
    if (sign * (read - Number(limit)) > 0) return "past";
    return watch !== undefined && sign * (read - Number(watch)) >= 0 ? "watch" : "within";
  }

  /* The verdict, and a doubt where no wear brings a figure that far: most likely another unit, or a slipped point. */
  function told(text, block, unit = unitOf(block)) {
    const read = value(text, block, unit), { under, over } = block.dataset, words = say(verdict(text, block, unit));
    const near = under === undefined || (read >= Number(under) && read <= Number(over));
    return near ? words : say("far_off", { verdict: words });
  }

  function note(cell, words, kind) {
    let place = cell.input.parentElement.querySelector("i");
    if (!place) cell.input.after((place = document.createElement("i")));
    place.className = kind;
    place.textContent = words;
    cell.input.toggleAttribute("aria-invalid", kind === "err");
  }

  function judge(cell) {
    const text = cell.input.value.trim();
    if (!text) return show(cell, false);
    const kind = verdict(text, cell.block);
    note(cell, kind === "err" ? say("not_a_figure", { entered: text }) : told(text, cell.block), kind);
  }

  /* A figure stands in its field only under the unit that it was read in. */
  function show(cell, fill = true) {
    const { kept } = cell;
    if (!kept) return note(cell, "", "");
    const same = kept.unit === unitOf(cell.block);
    if (fill) cell.input.value = same ? kept.entered : "";
    note(cell, (same && fill ? "" : `${kept.entered} ${kept.unit}: `) + kept.words, kept.verdict);
  }

  async function keep(cell) {
    const entered = cell.input.value.trim(), unit = unitOf(cell.block);
    if (!entered) return show(cell);
    if (cell.kept && cell.kept.entered === entered && cell.kept.unit === unit) return;
    if (verdict(entered, cell.block) === "err" || entered.length > 24) return judge(cell);
    const form = cell.input.form, picked = form.elements.instrument;
    const instrument = picked && picked.value ? Number(picked.value) : null;
    const place = cell.place, code = cell.block.dataset.code;
    const made = store.entry("reading", { code, place, entered, unit, instrument }, { field: cell.input.name });
    cell.kept = { entered, unit, verdict: verdict(entered, cell.block), words: told(entered, cell.block) };
    /* An earlier figure of this field that has not left yet is replaced; one that was refused is mended. */
    const rows = await store.all();
    const older = rows.filter((one) => one.field === made.field && one.job === made.job && one.state !== "kept");
    await store.write([made], older.filter((one) => !sender.inFlight(one.key)).map((one) => one.key));
    judge(cell);
    changed();
    sender.soon();
  }

  /* `first`: as the page opens, when no hand is at it yet. Later only the words change, and only where what
     was answered still is what stands there. */
  function restore(entry, first) {
    const cell = cells.get(entry.field);
    if (!cell) return;
    const { entered, unit } = entry.fields, select = cell.block.querySelector("select");
    const stands = cell.kept && cell.kept.entered === entered && cell.kept.unit === unit;
    if (!first && !stands) return;
    if (first && ![...cells.values()].some((one) => one.block === cell.block && one !== cell && one.kept)) select.value = unit;
    cell.kept = { entered, unit, ...judged(entry, cell.block) };
    if (document.activeElement !== cell.input) show(cell);
    if (entry.state !== "refused") return;
    cell.kept = null;
    note(cell, entry.words, "err");
  }

  function judged(entry, block) {
    if (entry.verdict) return { verdict: entry.verdict, words: entry.words };
    const kind = verdict(entry.fields.entered, block, entry.fields.unit);
    return { verdict: kind, words: kind === "err" ? "" : told(entry.fields.entered, block, entry.fields.unit) };
  }

  function read(input) {
    const block = input.closest("fieldset"), words = input.parentElement.querySelector("i");
    const label = input.parentElement.firstChild.textContent.trim();
    const cell = { input, block, place: "whole" in block.dataset ? "" : label, kept: null };
    if (words && words.className !== "err") {
      const { read: entered = input.value, unit = unitOf(block), words: said = words.textContent } = words.dataset;
      cell.kept = { entered, unit, verdict: words.className, words: said };
    }
    cells.set(input.name, cell);
    return cell;
  }

  document.querySelectorAll(".reads input").forEach(read);
  document.addEventListener("input", ({ target }) => cells.has(target.name) && judge(cells.get(target.name)));
  document.addEventListener("change", ({ target }) => {
    if (cells.has(target.name)) keep(cells.get(target.name));
    else if (target.name === "instrument") useInstrument(target);
    else if (target.closest(".held")) for (const cell of cells.values()) if (cell.block.contains(target)) show(cell);
  });
  document.addEventListener("visibilitychange", () => {
    const cell = document.visibilityState === "hidden" && cells.get((document.activeElement || {}).name);
    if (cell) keep(cell);
  });
  document.querySelectorAll("form.readings:not(#own)").forEach((form) =>
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      Promise.all([...cells.values()].filter((one) => form.contains(one.input) && one.input.value).map(keep)).then(sender.now);
    })
  );

  /* Its unit is taken for every field of the group that may be read in it. */
  function useInstrument(select) {
    const { unit } = select.selectedOptions[0].dataset;
    for (const one of unit ? select.form.querySelectorAll(".held select") : []) {
      if (one.value === unit || ![...one.options].some((option) => option.value === unit)) continue;
      one.value = unit;
      one.dispatchEvent(new Event("change", { bubbles: true }));
    }
  }

  return { restore };
};
