// @ts-check
/**
 * Keeps the pages for a place without signal. EDITION and FILES stand in front, put there by the server.
 *
 * The network comes first wherever it answers soon, so that pages and their parts are always of one edition; without it
 * everything comes from the cache of the edition that was opened last. What the server is asked about jobs is kept by
 * the pages themselves.
 */
/* global EDITION, FILES */
const SOON_MS = 2500; // a place with one bar of signal is no reason to wait longer
const QUIET_MS = 30000; // after no answer came, how long the cache is asked first
const PAGES = /** @type {[RegExp, string][]} */ ([
  [/^\/jobs\/[\w-]+\/site$/, "/static/site/page.html"],
  [/^\/jobs\/[\w-]+\/walk$/, "/static/walk/page.html"],
  [/^\/jobs\/[\w-]+$/, "/static/job/page.html"],
  [/^\/sums$/, "/static/sums/page.html"],
  [/^\/$/, "/static/jobs/page.html"],
]);
let quietUntil = 0;

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(EDITION)
      .then((cache) => cache.addAll(FILES.map((path) => new Request(path, { cache: "reload" }))))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name !== EDITION).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  const { request } = event,
    place = new URL(request.url);
  if (request.method !== "GET" || place.origin !== self.location.origin) return;
  if (place.pathname.startsWith("/quotation/")) return; // what a customer opens is kept on no device
  const page = PAGES.find(([pattern]) => pattern.test(place.pathname));
  if (page) event.respondWith(answered(request, page[1]));
  else if (place.pathname.startsWith("/static/vendor/")) event.respondWith(lazily(request));
  else if (place.pathname.startsWith("/static/")) event.respondWith(answered(request, place.pathname));
});

/** @param {Request} request @param {string} path */
async function answered(request, path) {
  const cache = await caches.open(EDITION),
    kept = await cache.match(path);
  if (kept && Date.now() < quietUntil) return kept;
  const late = new AbortController(),
    timer = setTimeout(() => late.abort(), SOON_MS);
  try {
    const answer = await fetch(request.mode === "navigate" ? request.url : request, {
      signal: kept ? late.signal : undefined,
      cache: "no-cache",
      credentials: "same-origin",
    });
    quietUntil = 0;
    // a page that somebody has to sign in for leads on: the browser takes that only where it is said anew
    return answer.redirected && request.mode === "navigate" ? Response.redirect(answer.url, 303) : answer;
  } catch (problem) {
    quietUntil = Date.now() + QUIET_MS;
    if (kept) return kept;
    throw problem;
  } finally {
    clearTimeout(timer);
  }
}

/** Large files of others, kept once they were wanted. @param {Request} request */
async function lazily(request) {
  const cache = await caches.open(EDITION),
    kept = await cache.match(request);
  if (kept) return kept;
  const answer = await fetch(request);
  if (answer.ok) await cache.put(request, answer.clone());
  return answer;
}
