// Shows a packing list that was opened before when the server cannot be reached, with what it is drawn by. Everything
// else goes to the server as if this were not there. It stands at the top because a worker sees only what is below it.
// What is kept, packing.js puts there, under the name of the account; the page for signing in throws it away.
const PATIENCE = 5000;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== location.origin) return;
  const list = request.mode === "navigate" && pathname.endsWith("/packing-list");
  if (list || /\/(assets|webjars)\//.test(pathname)) event.respondWith(answer(request, list));
});

async function answer(request, list) {
  const asked = fetch(request);
  try {
    const answered = await Promise.race([asked, tooLong()]);
    // Something between here and the server says that the server is away.
    if (![502, 503, 504].includes(answered.status)) return answered;
  } catch {
    // Looked for below.
  }
  const kept = (ignoreSearch) => caches.match(request, { ignoreVary: true, ignoreSearch });
  return (await kept(false)) ?? (list ? await kept(true) : null) ?? asked;
}

const tooLong = () => new Promise((_, reject) => setTimeout(reject, PATIENCE));
