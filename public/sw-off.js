// The way out of a broken worker, kept ready and never sent by itself. Publish this text under the address of `sw.js`:
// browsers compare the bytes there, find a new worker, and this one takes over at once. It answers no request, so every
// page comes from the server again; it drops the copies of the program and leaves what the maker has stored alone.
// The next release with a working `sw.js` takes its place in the same way.
"use strict";

const OURS = `hp ${self.registration.scope} `;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith(OURS)) await caches.delete(name);
  await self.clients.claim();
})()));
