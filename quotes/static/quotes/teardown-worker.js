/* Keeps the teardown sheet at hand where there is no connection: the sheet, its style and its scripts, nothing else.
   A kept sheet is shown for one working day, as long as a signing in lasts. */
"use strict";

const CACHE = "teardown-1";
const SHEET = /\/bench\/\d+\/teardown\/$/;
const HASHED = /\.[0-9a-f]{12}\.\w+$/;
const DAY_MS = 14 * 3600 * 1000, PATIENCE_MS = 8000;
const KEPT_AT = "x-kept-at";
/* What is said where no sheet is kept, in the language of the sheet that was opened last. */
const NO_SHEET = "/bench/no-sheet-kept";

self.addEventListener("install", (event) => event.waitUntil(self.skipWaiting()));
self.addEventListener("activate", (event) =>
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter((one) => one !== CACHE).map((one) => caches.delete(one))))
      .then(() => self.clients.claim())
  )
);

async function keep(address, answer) {
  const headers = new Headers(answer.headers);
  headers.set(KEPT_AT, String(Date.now()));
  const copy = new Response(await answer.blob(), { status: 200, headers });
  await (await caches.open(CACHE)).put(address, copy);
}

async function kept(address) {
  const cache = await caches.open(CACHE);
  const found = await cache.match(address), said = await cache.match(NO_SHEET);
  if (found && Date.now() - Number(found.headers.get(KEPT_AT)) < DAY_MS) return found;
  const words = said ? await said.text() : "There is no connection, and no sheet of today is kept on this tablet. What was entered is still kept.";
  return new Response(words, { status: 503, headers: { "Content-Type": "text/plain; charset=utf-8" } });
}

const late = (ms) => new Promise((_, reject) => setTimeout(reject, ms, new Error("late")));

async function sheet(event) {
  const address = new URL(event.request.url);
  address.search = address.hash = "";
  const asked = fetch(event.request).then((answer) => {
    if (answer.ok && !answer.redirected) event.waitUntil(keep(address.href, answer.clone()));
    return answer;
  });
  asked.catch(() => undefined);
  const known = await (await caches.open(CACHE)).match(address.href);
  return (known ? Promise.race([asked, late(PATIENCE_MS)]) : asked).catch(() => kept(address.href));
}

async function fixed(request) {
  const found = await (await caches.open(CACHE)).match(request);
  if (found && HASHED.test(new URL(request.url).pathname)) return found;
  return fetch(request).catch((wrong) => {
    if (found) return found;
    throw wrong;
  });
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== "GET" || address.origin !== self.location.origin) return;
  if (request.mode === "navigate" && SHEET.test(address.pathname)) event.respondWith(sheet(event));
  else if (["style", "script", "font"].includes(request.destination)) event.respondWith(fixed(request));
});

/* The page that has just been opened for the first time, before this script stood behind it. */
self.addEventListener("message", (event) => {
  const { page, files, words } = event.data;
  event.waitUntil(
    (async () => {
      const cache = await caches.open(CACHE);
      await cache.put(NO_SHEET, new Response(words));
      await Promise.all(files.map((one) => cache.match(one).then((found) => (found && HASHED.test(one)) || cache.add(one))));
      if (!page) return;
      const answer = await fetch(page, { credentials: "same-origin", redirect: "manual" });
      if (answer.ok && SHEET.test(new URL(page).pathname)) await keep(page, answer);
    })().catch(() => undefined)
  );
});
