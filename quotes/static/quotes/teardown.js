/* The teardown sheet: findings with their photos, what waits on this tablet, and the sheet without a connection. */
"use strict";

(function () {
  const { all, entry, say, write } = window.teardown;
  const store = { all, entry, write };
  const { job, made, worker, signIn } = document.body.dataset;
  const line = document.getElementById("kept"), press = document.getElementById("send");
  const form = document.getElementById("findings"), list = document.querySelector("ul.found");
  const LONGEST_PX = 1600;
  let signedOut = false, photoBack = null;

  const sender = window.teardown.sender(store, async ({ settled, signedOut: out }) => {
    signedOut = out;
    settled.filter((one) => one.job === job).forEach((one) => restore(one));
    await count();
  });
  const fields = window.teardown.fields(store, sender, count);

  async function count() {
    const rows = await store.all();
    const waiting = rows.filter((one) => one.state === "waiting").length;
    const refused = rows.filter((one) => one.state === "refused").length;
    let words = waiting ? say("some_wait", { count: waiting }) : say("all_sent");
    if (refused) words += ` ${say("some_refused", { count: refused })}`;
    line.textContent = words;
    if (signedOut && waiting) {
      const link = document.createElement("a");
      link.href = `${signIn}?next=${encodeURIComponent(location.pathname)}`;
      link.textContent = say("sign_in");
      line.append(" ", link);
    }
    press.hidden = !waiting;
  }

  /* Findings ---------------------------------------------------------------------------------------- */
  const picked = (name) => form.querySelector(`[name=${name}]:checked`);
  const nameOf = (code) => {
    const found = [...form.elements.code].find((one) => code && one.value === code);
    return found ? found.parentElement.textContent.trim() : "";
  };

  function fault(words) {
    let place = form.querySelector(".err");
    if (!place) form.querySelector("h2").after((place = document.createElement("p")));
    place.className = "err";
    place.setAttribute("role", "alert");
    place.textContent = words;
    if (words) place.scrollIntoView({ block: "center" });
  }

  function wrongWith(told) {
    const any = (picked("code").dataset.any || "").split(" ").filter(Boolean);
    if (!told.code && !told.words) return say("nothing_seen");
    if (!told.code && !told.component) return say("no_part");
    if (any.length && !any.includes(told.component)) {
      const names = [...form.elements.component.options].filter((one) => any.includes(one.value));
      return say("which_part", { parts: names.map((one) => one.textContent).join(", ") });
    }
    if (!told.judged) return say("not_judged");
    if (told.judged === "until" && !(Number(told.until_amount) > 0 && told.until_unit)) return say("how_long");
    return "";
  }

  /* Made small here, so that a slow line carries a tenth; the workshop's machine does it again. */
  async function small(file) {
    try {
      const whole = await createImageBitmap(file);
      const by = Math.min(1, LONGEST_PX / Math.max(whole.width, whole.height));
      const canvas = document.createElement("canvas");
      canvas.width = Math.round(whole.width * by);
      canvas.height = Math.round(whole.height * by);
      canvas.getContext("2d").drawImage(whole, 0, 0, canvas.width, canvas.height);
      return (await new Promise((done) => canvas.toBlob(done, "image/jpeg", 0.85))) || file;
    } catch {
      return file;
    }
  }

  async function keepFinding(event) {
    event.preventDefault();
    const names = ["component", "place", "words", "cause", "consequence", "until_amount", "until_unit"];
    const told = Object.fromEntries(names.map((name) => [name, form.elements[name].value.trim()]));
    told.code = picked("code").value;
    told.judged = (picked("judged") || {}).value || "";
    told.until_amount = told.until_amount.replace(",", ".");
    const wrong = wrongWith(told);
    fault(wrong);
    if (wrong) return;
    const [file] = form.elements.photo.files;
    if (!told.until_amount) delete told.until_amount;
    const finding = store.entry("finding", told), made_now = [finding];
    const photo = file ? await small(file) : photoBack;
    if (photo) made_now.push(store.entry("photo", { finding: finding.key, place: told.place }, { photo }));
    await store.write(made_now);
    photoBack = null;
    form.reset();
    restore(finding);
    if (photo) restore(made_now[1]);
    await count();
    sender.soon();
  }

  function item(key) {
    let row = list.querySelector(`[data-key="${key}"]`);
    if (!row) {
      row = document.createElement("li");
      row.dataset.key = key;
      list.prepend(row);
      list.querySelectorAll(".none").forEach((one) => one.remove());
    }
    return row;
  }

  function showFinding(one) {
    const row = item(one.key), { fields: told } = one;
    const judged = form.querySelector(`[name=judged][value="${told.judged}"]`);
    const lead = document.createElement("b");
    lead.textContent = judged ? judged.parentElement.textContent.trim() : "";
    const words = [told.words || nameOf(told.code), told.place].filter(Boolean).join(", ");
    row.replaceChildren(lead, ` ${words}. `, one.state === "refused" ? one.words : say(one.state));
    if (one.state === "refused") row.append(button(say("put_back"), () => putBack(one)));
  }

  function button(words, act) {
    const made_button = document.createElement("button");
    made_button.type = "button";
    made_button.className = "press plain";
    made_button.textContent = words;
    made_button.addEventListener("click", act);
    return made_button;
  }

  async function putBack(one) {
    const rows = (await store.all()).filter((row) => row.key === one.key || (row.fields || {}).finding === one.key);
    photoBack = (rows.find((row) => row.photo) || {}).photo || null;
    for (const [name, value] of Object.entries(one.fields)) {
      const field = form.elements[name];
      if (field) field.value = value;
    }
    await store.write([], rows.map((row) => row.key));
    item(one.key).remove();
    form.scrollIntoView();
    await count();
  }

  function showPhoto(one) {
    const row = item(one.fields.finding);
    let place = row.querySelector(`[data-photo="${one.key}"]`);
    if (!place) row.append(" ", (place = document.createElement("span")));
    place.dataset.photo = one.key;
    place.textContent = one.state === "refused" ? one.words : say(`photo_${one.state}`);
    if (one.state === "refused") place.append(button(say("drop_photo"), () => store.write([], [one.key]).then(() => place.remove()).then(count)));
  }

  async function takeBack(event) {
    const back = event.target.closest("form.back");
    if (!back) return;
    event.preventDefault();
    const because = back.elements.because.value.trim();
    if (!because) return back.elements.because.focus();
    const one = store.entry("withdraw", { finding: back.elements.withdraw.value, because });
    await store.write([one]);
    restore(one);
    await count();
    sender.soon();
  }

  async function keepOwn(event) {
    event.preventDefault();
    const own = event.target, names = ["component", "name", "place", "entered", "unit"];
    const told = Object.fromEntries(names.map((name) => [name, own.elements[`own-${name}`].value.trim()]));
    const missing = !told.name ? "own-name" : told.entered ? "" : "own-entered";
    if (missing) return own.elements[missing].focus();
    const one = store.entry("reading", told);
    await store.write([one]);
    own.reset();
    restore(one);
    await count();
    sender.soon();
  }

  function showOwn(one) {
    const own = document.getElementById("own");
    let place = own.querySelector(`[data-key="${one.key}"]`);
    if (!place) own.querySelector(".told").before((place = document.createElement("p")));
    place.dataset.key = one.key;
    const { name, place: where, entered, unit } = one.fields;
    place.textContent = `${[name, where].filter(Boolean).join(", ")}: ${entered} ${unit}. ${one.state === "refused" ? one.words : say(one.state)}`;
    if (one.state === "refused") place.append(button(say("drop_reading"), () => store.write([], [one.key]).then(() => place.remove()).then(count)));
  }

  function restore(one, first = false) {
    if (one.field) fields.restore(one, first);
    else if (one.kind === "reading") showOwn(one);
    else if (one.kind === "finding") showFinding(one);
    else if (one.kind === "photo") showPhoto(one);
    else if (one.kind === "withdraw") item(one.fields.finding).classList.toggle("gone", one.state !== "refused");
  }

  /* What this page, made at a time of its own, does not know yet stands on the tablet; what it knows may go. */
  async function begin() {
    const rows = await store.all();
    const known = rows.filter((one) => one.state === "kept" && (one.job !== job || one.at < Number(made)));
    const gone = new Set(known.map((one) => one.key));
    await store.write([], known.filter((one) => one.job === job || Date.now() / 1000 - one.at > 14 * 3600).map((one) => one.key));
    rows.filter((one) => one.job === job && !gone.has(one.key)).forEach((one) => restore(one, true));
    await count();
    sender.now();
  }

  /* Looking up a finding ------------------------------------------------------------------------------ */
  const look = document.getElementById("look");
  look.closest("label").hidden = false;
  /* By what is seen, and by the part: many a finding does not name it. */
  const parts = [...form.elements.component.options].filter((one) => one.value);
  const saidOf = (pick) => {
    const { part = "", any = "" } = pick.querySelector("input").dataset, codes = [part, ...any.split(" ")];
    return [pick, ...parts.filter((one) => codes.includes(one.value))].map((one) => one.textContent).join(" ").toLowerCase();
  };
  look.addEventListener("input", () => {
    const wanted = look.value.toLowerCase().split(/\s+/).filter(Boolean);
    for (const group of form.querySelectorAll("details")) {
      let shown = 0;
      for (const one of group.querySelectorAll(".pick")) {
        one.hidden = !wanted.every((word) => saidOf(one).includes(word));
        shown += one.hidden ? 0 : 1;
      }
      group.hidden = !shown;
      group.open = Boolean(wanted.length && shown) || Boolean(group.querySelector(":checked"));
    }
  });

  /* Without a connection ------------------------------------------------------------------------------ */
  async function keepSheet() {
    if (!("serviceWorker" in navigator)) return;
    const stood = navigator.serviceWorker.controller;
    await navigator.serviceWorker.register(worker, { scope: "/bench/" });
    const { active } = await navigator.serviceWorker.ready;
    const files = performance.getEntriesByType("resource").map((one) => one.name);
    const mine = files.filter((one) => one.startsWith(location.origin) && /\.(css|js|woff2)$/.test(new URL(one).pathname) && !one.endsWith(worker));
    active.postMessage({ page: stood ? "" : location.origin + location.pathname, files: mine, words: say("no_sheet") });
  }
  document.querySelector("form.sign-out").addEventListener("submit", () => window.caches && caches.delete("teardown-1"));
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist();

  form.addEventListener("submit", keepFinding);
  list.addEventListener("submit", takeBack);
  document.getElementById("own").addEventListener("submit", keepOwn);
  press.addEventListener("click", sender.now);
  begin();
  addEventListener("load", () => keepSheet().catch(() => undefined));
})();
