/**
 * Keeps the app at hand without a network: what it fetched last is what it gets when nothing answers.
 * `files.json`, written by the build, names all that the app is made of.
 */
const worker = self as unknown as ServiceWorkerGlobalScope;
const shelf = "coilwright";

async function fillShelf(): Promise<void> {
  const cache = await caches.open(shelf);
  const files = (await (await fetch("./files.json", { cache: "no-store" })).json()) as string[];
  await cache.addAll(["./", ...files.map((file) => `./${file}`)]);
}

worker.addEventListener("install", (event) => event.waitUntil(fillShelf().then(() => worker.skipWaiting())));
worker.addEventListener("activate", (event) => event.waitUntil(worker.clients.claim()));

async function fromNetworkOrShelf(request: Request): Promise<Response> {
  const cache = await caches.open(shelf);
  try {
    const response = await fetch(request);
    if (response.ok) await cache.put(request, response.clone());
    return response;
  } catch (error) {
    const kept = await cache.match(request, { ignoreSearch: true });
    if (kept !== undefined) return kept;
    throw error;
  }
}

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== worker.location.origin) return;
  // of the server's answers only the one that a static host gives too
  if (/\/api\/(?!file$)/.test(pathname)) return;
  event.respondWith(fromNetworkOrShelf(request));
});
