// Keeps the page on the phone. VERSION and FILES are written by the build: any other byte in any
// file is another version.

const VERSION = "unbuilt";
const FILES = [];
const CACHE = `trencher-${VERSION}`;

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches.open(CACHE).then((cache) =>
      // Past the browser's own cache: a version is whole or not there.
      cache.addAll(FILES.map((file) => new Request(file, { cache: "reload" }))),
    ),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name.startsWith("trencher-") && name !== CACHE).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  event.respondWith(
    caches.open(CACHE).then(async (cache) => {
      const asked = request.mode === "navigate" ? new URL("./", self.registration.scope) : request;
      return (await cache.match(asked, { ignoreSearch: true })) ?? fetch(request);
    }),
  );
});
