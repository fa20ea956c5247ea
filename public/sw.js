// Keeps a verified copy of every file of one release, so that the page opens with no network at all. The address of this
// file never changes; the release that it carries does, and browsers notice by comparing its bytes.
"use strict";

// The build replaces the next line: `files` is a list of { url, sha256, bytes }.
const RELEASE = { version: "", files: [] };

const SCOPE = self.registration.scope;
const SHELL = SCOPE;
// One origin may host several copies of the page in different folders; each must find only its own caches.
const OURS = `hp ${SCOPE} `;
const CACHE = OURS + RELEASE.version;
const LISTED = new Map(RELEASE.files.map((file) => [new URL(file.url, SCOPE).href, file]));

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => {
  // Only when the person asked for the new version: a running page must never be switched under the hands.
  if (event.data === "SKIP_WAITING") self.skipWaiting();
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(SCOPE)) return;
  const url = new URL(request.url);
  if (request.mode === "navigate") event.respondWith(navigate(url));
  else if (isOurs(url)) event.respondWith(kept(url.href.split("#")[0], request));
});

// All or nothing: one file that is missing or not the one that was published, and the release before stays in charge.
async function install() {
  const cache = await caches.open(CACHE);
  try {
    const others = [...LISTED].filter(([url]) => url !== SHELL);
    await Promise.all(others.map(([url, file]) => keep(cache, url, file)));
    // The shell comes last and so marks a complete copy, even if the browser is stopped half-way.
    await keep(cache, SHELL, LISTED.get(SHELL));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

async function keep(cache, url, file) {
  const response = await fetch(url, { cache: "reload", credentials: "same-origin" });
  // A redirected answer cannot be used for a navigation later.
  if (!response.ok || response.redirected) throw new Error(`${url}: answered ${response.status}`);
  const bytes = await response.clone().arrayBuffer();
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  const hex = Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
  if (hex !== file.sha256) throw new Error(`${url}: not the file that was published`);
  // The network's own answer is stored, never one built here: only that keeps its type, which streaming compilation needs.
  await cache.put(url, response);
}

// The release before stays too: another tab may still run it.
async function activate() {
  const complete = [];
  for (const key of (await caches.keys()).filter((name) => name.startsWith(OURS) && name !== CACHE)) {
    if (await (await caches.open(key)).match(SHELL)) complete.push(key);
    else await caches.delete(key);
  }
  await Promise.all(complete.slice(0, -1).map((key) => caches.delete(key)));
  // On a first visit the page is served from the copy at once, as it says that it works offline: parts of the program come when
  // they are first asked for. A page of the release before stays with what it has.
  if (!complete.length) await self.clients.claim();
}

// State lives in the fragment, which never gets here, so the page has one address; a query is ignored.
async function navigate(url) {
  const path = url.origin + url.pathname;
  if (path === SHELL || path === `${SHELL}index.html`) return kept(SHELL, SHELL);
  if (LISTED.has(path)) return kept(path, path);
  return Response.redirect(SHELL);
}

function isOurs(url) {
  // Files of the release before have names of their own in the same folder; a query means "not from the copy".
  return !url.search && (LISTED.has(url.href.split("#")[0]) || url.href.startsWith(`${SCOPE}assets/`));
}

async function kept(url, request) {
  for (const name of [CACHE, ...(await caches.keys()).filter((key) => key.startsWith(OURS) && key !== CACHE)]) {
    const found = await (await caches.open(name)).match(url);
    if (found) return found;
  }
  return fetch(request);
}
