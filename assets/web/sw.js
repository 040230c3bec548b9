// Keeps the app on the phone: every file of one build in one cache, served
// from there first, so that a start needs no connection.

const VERSION = "__VERSION__";
const FILES = __FILES__;

const PREFIX = "rakeline-";
const CACHE = PREFIX + VERSION;
const PAGE = "/index.html";
const OWN = "/sw.js";

const url = (path) => new URL(path, self.location.origin).href;

/** A response that was redirected may not answer a navigation. */
function direct(response) {
  if (!response.redirected) return response;
  const { status, statusText, headers } = response;
  return new Response(response.body, { status, statusText, headers });
}

/** All files or none: a half-filled cache would start half an app. */
async function fill() {
  const cache = await caches.open(CACHE);
  const files = new Set([PAGE, ...FILES].map(url));
  files.delete(url(OWN));
  await Promise.all([...files].map(async (file) => {
    const response = await fetch(file, { cache: "reload" });
    if (!response.ok) throw new Error(`${file}: ${response.status}`);
    await cache.put(file, direct(response));
  }));
}

/** Runs when no page of an older version is open any more. */
async function clean() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
  await self.clients.claim();
}

async function serve(request) {
  const cache = await caches.open(CACHE);
  const path = new URL(request.url).pathname;
  const kept = await cache.match(url(path));
  if (kept) return kept;
  if (request.mode === "navigate") {
    const page = await cache.match(url(PAGE));
    if (page) return page;
  }
  return fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(fill()));
self.addEventListener("activate", (event) => event.waitUntil(clean()));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const own = new URL(request.url).origin === self.location.origin;
  if (own && request.method === "GET") event.respondWith(serve(request));
});
