/* What was entered at the bench, kept on this tablet until the workshop's machine has said that it has it.
   An entry is {key, job, take, order, made, state, kind, fields, field, photo}; state is waiting, refused or kept. */
"use strict";

window.teardown = (function () {
  const NAME = "teardown", STORE = "entries";
  const WORDS = new Map([...document.getElementById("words").content.children].map((one) => [one.dataset.say, one.textContent]));
  let opened = null, order = Date.now();

  function open() {
    opened = opened || new Promise((resolve, reject) => {
      const asked = indexedDB.open(NAME, 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore(STORE, { keyPath: "key" });
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });
    return opened;
  }

  /* A sentence of the page, in its language, with its places filled. */
  const say = (name, places = {}) => WORDS.get(name).replace(/\{(\w+)\}/g, (_, place) => places[place]);

  /* Resolves when the change is on the disk, not before. */
  async function change(work) {
    const base = await open();
    return new Promise((resolve, reject) => {
      const act = base.transaction(STORE, "readwrite", { durability: "strict" });
      work(act.objectStore(STORE));
      act.oncomplete = () => resolve();
      act.onabort = act.onerror = () => reject(act.error);
    });
  }

  async function all() {
    const base = await open();
    const rows = await new Promise((resolve, reject) => {
      const asked = base.transaction(STORE).objectStore(STORE).getAll();
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });
    return rows.sort((a, b) => a.order - b.order);
  }

  /* crypto.randomUUID is missing where the site is reached without https. */
  function newKey() {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    bytes[6] = (bytes[6] & 0x0f) | 0x40;
    bytes[8] = (bytes[8] & 0x3f) | 0x80;
    const hex = [...bytes].map((one) => one.toString(16).padStart(2, "0")).join("");
    return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
  }

  function entry(kind, fields, more) {
    order += 1;
    const { job, take } = document.body.dataset;
    return { key: newKey(), job, take, order, made: Date.now(), state: "waiting", kind, fields, ...more };
  }

  /* Writes entries and takes others away, both or neither. */
  const write = (put, taken = []) =>
    change((store) => {
      put.forEach((one) => store.put(one));
      taken.forEach((key) => store.delete(key));
    });

  return { all, entry, say, write };
})();

/* Sending: one batch at a time, again and again with growing pauses until there is an answer. */
window.teardown.sender = function (store, tell) {
  const FIRST_MS = 2000, LONGEST_MS = 60000, PATIENCE_MS = 45000;
  let busy = false, again = false, pause = FIRST_MS, timer = 0, token = "", signedOut = false;
  const inFlight = new Set();

  async function ask(take, options) {
    const stop = new AbortController();
    const watch = setTimeout(() => stop.abort(), PATIENCE_MS);
    try {
      const answer = await fetch(take, { redirect: "manual", credentials: "same-origin", signal: stop.signal, ...options });
      if (answer.type === "opaqueredirect") throw new Error("signed out");
      if (!answer.ok) throw new Error(String(answer.status));
      return await answer.json();
    } finally {
      clearTimeout(watch);
    }
  }

  async function post(take, body, type) {
    const headers = () => ({ "X-CSRFToken": token, ...(type ? { "Content-Type": type } : {}) });
    if (!token) token = (document.querySelector("[name=csrfmiddlewaretoken]") || {}).value || "";
    try {
      return await ask(take, { method: "POST", headers: headers(), body: body() });
    } catch (wrong) {
      if (wrong.message !== "403") throw wrong;
      /* After signing in anew the page's token is an old one. */
      token = (await ask(take, {})).token;
      return ask(take, { method: "POST", headers: headers(), body: body() });
    }
  }

  const age = (one) => Math.min(Math.max(0, Date.now() - one.made), 6 * 24 * 3600 * 1000);

  function batch(waiting) {
    const plain = waiting.filter((one) => one.kind !== "photo");
    if (plain.length) {
      const take = plain[0].take, mine = plain.filter((one) => one.take === take).slice(0, 200);
      const told = () => mine.map((one) => ({ ...one.fields, key: one.key, kind: one.kind, age: age(one) }));
      return { take, mine, body: () => JSON.stringify({ entries: told() }), type: "application/json" };
    }
    const [one] = waiting;
    const body = () => {
      const form = new FormData();
      Object.entries({ ...one.fields, key: one.key, age: age(one) }).forEach((pair) => form.append(...pair));
      form.append("photo", one.photo, "photo.jpg");
      return form;
    };
    return { take: one.take, mine: [one], body, type: "" };
  }

  /* What can't be read there will not be read the next time either: it is shown, and holds nothing else up. */
  function notTaken(mine, wrong) {
    if (!["400", "404", "413"].includes(wrong.message)) throw wrong;
    const words = window.teardown.say("not_read", { answer: wrong.message });
    return { at: 0, kept: [], refused: mine.map((one) => ({ key: one.key, words })) };
  }

  async function settle(mine, answer) {
    const kept = new Map(answer.kept.map((one) => [one.key, one]));
    const refused = new Map(answer.refused.map((one) => [one.key, one]));
    const settled = [];
    for (const one of mine) {
      const said = kept.get(one.key) || refused.get(one.key);
      if (!said) continue;
      const state = kept.has(one.key) ? "kept" : "refused";
      const { photo, ...rest } = one;
      settled.push({ ...(state === "kept" ? rest : one), state, at: answer.at, words: said.words, verdict: said.verdict || "" });
    }
    await store.write(settled);
    return settled;
  }

  async function send() {
    clearTimeout(timer);
    if (busy) { again = true; return; }
    busy = true;
    try {
      for (;;) {
        again = false;
        const waiting = (await store.all()).filter((one) => one.state === "waiting");
        if (!waiting.length) break;
        const { take, mine, body, type } = batch(waiting);
        mine.forEach((one) => inFlight.add(one.key));
        const settled = await settle(mine, await post(take, body, type).catch((wrong) => notTaken(mine, wrong)));
        mine.forEach((one) => inFlight.delete(one.key));
        signedOut = false;
        pause = FIRST_MS;
        await tell({ settled, signedOut });
        if (!settled.length) throw new Error("nothing settled");
      }
      await tell({ settled: [], signedOut });
    } catch (wrong) {
      inFlight.clear();
      signedOut = wrong.message === "signed out";
      timer = setTimeout(send, pause);
      pause = Math.min(pause * 2, LONGEST_MS);
      await tell({ settled: [], signedOut });
    } finally {
      busy = false;
      if (again) send();
    }
  }

  /* A short wait lets what is typed in one go leave in one request. */
  function soon(ms = 700) {
    clearTimeout(timer);
    timer = setTimeout(send, ms);
  }
  function now() {
    pause = FIRST_MS;
    send();
  }
  addEventListener("online", now);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && now());
  return { soon, now, inFlight: (key) => inFlight.has(key) };
};
