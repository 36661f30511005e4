/**
 * Keeps the pages of the program itself, so that the Footplate opens where the server is out of reach. What the server
 * answers under /api is never kept here. Browsers run it on a secure address only.
 */
const kept = "lapwater-pages";

/** Addresses of the program's own files that a page or a style sheet names. */
const namedIn = (text) => [
  ...text.matchAll(/(?:href|src|url)\(?=?["']?(\.?\/?[\w./-]*?[\w-]+\.(?:js|css|woff2|svg))/g),
];

async function keepPages(page) {
  const cache = await caches.open(kept);
  const text = await page.clone().text();
  await cache.put("./", page);
  const files = namedIn(text).map((match) => new URL(match[1], self.registration.scope).href);
  for (const file of files) {
    if ((await cache.match(file)) === undefined) await cache.add(file);
    if (!file.endsWith(".css")) continue;
    const style = await (await cache.match(file)).text();
    for (const match of namedIn(style)) {
      const inner = new URL(match[1], file).href;
      if ((await cache.match(inner)) === undefined) await cache.add(inner);
    }
  }
}

async function pageOrKept(request) {
  try {
    const page = await fetch(request);
    if (page.ok) await keepPages(page.clone());
    return page;
  } catch (error) {
    const page = await caches.match("./");
    if (page === undefined) throw error;
    return page;
  }
}

async function fileOrKept(request) {
  const file = await caches.match(request);
  if (file !== undefined) return file;
  const fetched = await fetch(request);
  if (fetched.ok) await (await caches.open(kept)).put(request, fetched.clone());
  return fetched;
}

self.addEventListener("install", (event) => {
  event.waitUntil(
    fetch("./")
      .then(keepPages)
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(self.clients.claim());
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin || pathname.startsWith("/api")) return;
  if (request.mode === "navigate") event.respondWith(pageOrKept(request));
  else if (pathname.startsWith("/assets/")) event.respondWith(fileOrKept(request));
});
