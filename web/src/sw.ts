// The service worker: the pages' own files, kept so that they open with no
// signal. Answers of the interface are kept by the page itself (keep.ts), so
// that a person who signs out leaves none behind.
declare const FILES: string[];
declare const VERSION: string;
const worker = self as unknown as ServiceWorkerGlobalScope;

const SHELF = `leat-${VERSION}`;

worker.addEventListener('install', (event) => {
  event.waitUntil((async () => {
    const shelf = await caches.open(SHELF);
    await shelf.addAll(['/', ...FILES.map((name) => `/${name}`)]);
    await worker.skipWaiting();
  })());
});

worker.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name !== SHELF) await caches.delete(name);
    }
    await worker.clients.claim();
  })());
});

worker.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  const isOurs = event.request.method === 'GET' &&
    url.origin === worker.location.origin &&
    (url.pathname === '/' || FILES.includes(url.pathname.slice(1)));
  if (!isOurs) return;
  event.respondWith((async () => {
    const kept = await caches.match(url.pathname, { ignoreSearch: true });
    return kept ?? fetch(event.request);
  })());
});
