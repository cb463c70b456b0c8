// Checking off a packing list in place, by several people at once and with the server away. Every check goes into this
// browser's own database first (packing-queue.js) and is sent from there, in its order, until the server has it. The
// page itself is kept for packing-worker.js. Without this the same buttons send a form each.
import { add, remove, waitingOf } from "./packing-queue.js";

const EVERY = 4000;
const PATIENCE = 10000;
const AT_ONCE = 100;
const SETTLES_AFTER = 1200;
const MOST_SAID = 6;

const main = document.querySelector("[data-packing]");
const { packing: code, owner, ledger, worker, base } = main.dataset;
const keptAs = `packing-${owner}`;
const find = (selector) => main.querySelector(selector);
const things = () => [...main.querySelectorAll("[data-thing]")];

let known = {};
let seen = main.dataset.seen;
let token = find("#checks [name=_csrf]").value;
let waiting = [];
const keeping = new Map();
let exchanged = null;
let trouble = "";
let lastMade = 0;

// What the page shows.

function stateOf(id) {
  const mine = waiting.findLast((check) => check.trip === code && check.thing === id);
  return mine ? { state: mine.state } : (known[id] ?? { state: "open" });
}

function show() {
  for (const thing of things()) {
    const { state, by } = stateOf(thing.dataset.thing);
    thing.dataset.state = state;
    thing.querySelector("[data-sets=packed]").setAttribute("aria-checked", String(state === "packed"));
    thing.querySelector("[data-sets='to fetch']").setAttribute("aria-pressed", String(state === "to fetch"));
    thing.querySelector(".packing__by").textContent = by ? `${state} by ${by}` : "";
  }
  for (const group of main.querySelectorAll("[data-group]")) {
    const left = group.querySelectorAll("[data-thing]:not([data-state=packed])").length;
    write(group.querySelector("[data-group-left]"), left ? `${left} left` : "all packed");
  }
  const count = (state) => things().filter((thing) => thing.dataset.state === state).length;
  if (!find("[data-left]")) return;
  write(find("[data-left]"), things().length - count("packed"));
  write(find("[data-things]"), things().length);
  write(find("[data-to-fetch]"), count("to fetch"));
  find("[data-some-to-fetch]").hidden = !count("to fetch");
}

// What stands in a live region is read aloud when it is written, even where it stays the same.
function write(place, words) {
  if (place.textContent !== String(words)) place.textContent = words;
}

function showExchange() {
  const place = find("[data-exchange]");
  if (!place) return;
  const when = exchanged ? `Last exchanged with the server at ${exchanged.toTimeString().slice(0, 8)}.` : "Not exchanged with the server yet.";
  const count = waiting.length;
  const rest = count ? `${count === 1 ? "1 check waits" : `${count} checks wait`} to be sent.` : "No check waits.";
  place.hidden = false;
  const here = "kept" in main.dataset ? "This page opens here without a network, too." : "";
  write(place, `${trouble} ${when} ${rest} ${here}`.trim());
}

let settling = 0;
function settleSoon() {
  clearTimeout(settling);
  settling = setTimeout(settle, SETTLES_AFTER);
}

// What is packed goes to the end of its group, and away where only the rest is wanted; but nothing moves from under a
// finger or from where the keyboard is.
function settle() {
  const leftOnly = main.dataset.show === "left";
  for (const group of main.querySelectorAll("[data-group]")) {
    const list = group.querySelector("ul");
    const rows = [...list.children];
    const packed = (row) => row.dataset.state === "packed";
    if (!list.querySelector(":focus-visible")) {
      const order = [...rows.filter((row) => !packed(row)), ...rows.filter(packed)];
      if (order.some((row, i) => row !== rows[i])) list.append(...order);
    }
    for (const row of rows) row.hidden = leftOnly && packed(row) && !row.querySelector(":focus-visible");
    group.hidden = rows.every((row) => row.hidden);
  }
}

function say(...sentences) {
  const place = find("[data-said]");
  if (!place || !sentences.length) return;
  for (const sentence of sentences) {
    const line = document.createElement("p");
    line.textContent = sentence;
    place.append(line);
  }
  while (place.children.length > MOST_SAID) place.firstElementChild.remove();
  place.hidden = false;
}

// Of things that were taken off the trip since, too.
const names = new Map();

const namesIn = (place) => [...place.querySelectorAll("[data-thing]")].map((thing) => [thing.dataset.thing, thing.querySelector("[data-name]").textContent]);

// What somebody does.

main.addEventListener("click", async (event) => {
  const button = event.target.closest("[data-sets]");
  if (!button) return;
  event.preventDefault();
  const thing = button.closest("[data-thing]");
  const wanted = button.dataset.sets;
  // No two at one moment, and none before the last, should the clock be set back.
  lastMade = Math.max(Date.now(), lastMade + 1);
  const check = {
    key: newKey(),
    owner,
    trip: code,
    thing: thing.dataset.thing,
    line: thing.dataset.line,
    part: thing.dataset.part ?? null,
    state: thing.dataset.state === wanted ? "open" : wanted,
    at: new Date(lastMade).toISOString(),
  };
  waiting.push(check);
  show();
  showExchange();
  settleSoon();
  try {
    keeping.set(check.key, add(check));
    await keeping.get(check.key);
  } catch {
    say("This browser keeps nothing: what is checked here is lost if the page is closed before it was sent.");
  }
  exchange();
});

// randomUUID is there only where the connection is a safe one.
function newKey() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

main.addEventListener("focusout", settleSoon);

main.addEventListener("click", (event) => {
  const choice = event.target.closest("[data-filter]");
  if (!choice || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  const left = new URL(choice.href).searchParams.get("show") === "left";
  main.dataset.show = left ? "left" : "all";
  for (const other of main.querySelectorAll("[data-filter]")) {
    if (other === choice) other.setAttribute("aria-current", "true");
    else other.removeAttribute("aria-current");
  }
  history.replaceState(null, "", choice.href);
  settle();
});

// Exchanging with the server.

class Refused extends Error {}

async function ask(trip, query, options = {}) {
  const address = `${base}/${encodeURIComponent(trip)}/packing-list/checks?owner=${owner}${query}`;
  const answer = await fetch(address, {
    ...options,
    // Whichever ledger the other pages of this browser have gone to meanwhile.
    headers: { Accept: "application/json", "X-Ledger": ledger, ...options.headers },
    redirect: "manual",
    signal: AbortSignal.timeout(PATIENCE),
  });
  if (answer.type === "opaqueredirect") throw new Refused("You are not signed in any more: sign in again, and come back to this page. Checks are kept here until then.");
  if (answer.status === 409) throw new Refused("Somebody else has signed in from this browser. Your checks are kept here until you sign in again.");
  return answer;
}

async function news() {
  const answer = await ask(code, `&seen=${encodeURIComponent(seen)}`);
  if (answer.status === 404) throw new Refused("The trip is not there any more.");
  if (!answer.ok) throw new Error(answer.status);
  await take(await answer.json());
}

async function take(said, ofTrip = code) {
  token = said.token;
  if (ofTrip !== code) return;
  seen = said.seen;
  if (!said.things) return;
  known = said.things;
  await keepNews(said);
  const shown = new Set(things().map((thing) => thing.dataset.thing));
  const same = shown.size === Object.keys(known).length && Object.keys(known).every((id) => shown.has(id));
  if (!same) await listAnew();
}

// The first of what waits, as far as it is of one trip.
async function send() {
  const { trip } = waiting[0];
  const end = waiting.findIndex((check) => check.trip !== trip);
  const batch = waiting.slice(0, end < 0 ? AT_ONCE : Math.min(end, AT_ONCE));
  const post = () =>
    ask(trip, "", {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-CSRF-TOKEN": token },
      body: JSON.stringify({
        sentAt: new Date().toISOString(),
        checks: batch.map(({ line, part, state, at, key }) => ({ line, part, state, at, key })),
      }),
    });
  await Promise.allSettled(batch.map((check) => keeping.get(check.key)));
  if (trouble) await news();
  let answer = await post();
  if (answer.status === 403) {
    // The session that the token was of may be over, and another have begun.
    seen = "";
    await news();
    answer = await post();
  }
  if (answer.status === 403) throw new Refused("You may read this ledger and not change it. Checks are kept here and cannot be sent.");
  const idOf = (key) => batch.find((check) => check.key === key).thing;
  if (answer.ok) {
    const said = await answer.json();
    say(...(said.told ?? []).map(({ key, words }) => `${names.get(idOf(key)) ?? "Something that you checked"}: ${words}`));
    await done(batch);
    await take(said, trip);
  } else if (answer.status === 422) {
    const faults = await answer.json();
    const wrong = new Set(faults.map((fault) => Number(/^checks\[(\d+)\]/.exec(fault.field)?.[1])));
    const refused = batch.filter((_, i) => wrong.has(i));
    if (!refused.length) throw new Error("422");
    say(...faults.map((fault) => `A check could not be taken: ${fault.message}`));
    await done(refused);
  } else if (answer.status === 404) {
    say("A trip that you checked things of is not there any more; those checks were let go.");
    await done(batch);
  } else throw new Error(answer.status);
}

async function done(checks) {
  const keys = new Set(checks.map((check) => check.key));
  waiting = waiting.filter((check) => !keys.has(check.key));
  keys.forEach((key) => keeping.delete(key));
  try {
    await remove((await waitingOf(owner)).filter((check) => keys.has(check.key)));
  } catch {
    // Sent again next time, which is harmless.
  }
}

let exchanging = false;
async function exchange() {
  if (exchanging) return;
  exchanging = true;
  try {
    do await (waiting.length ? send() : news());
    while (waiting.length);
    exchanged = new Date();
    trouble = "";
  } catch (failed) {
    trouble = failed instanceof Refused ? failed.message : "The server does not answer: checks are kept here, and sent when it does.";
  } finally {
    exchanging = false;
  }
  show();
  showExchange();
  settleSoon();
}

// Things were put on the trip or taken off it while this page was open.
async function listAnew() {
  const answer = await fetch(location.href, { headers: { "X-Ledger": ledger }, redirect: "manual", signal: AbortSignal.timeout(PATIENCE) });
  if (!answer.ok) return;
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
  const before = new Map(namesIn(main));
  const after = new Map(namesIn(fresh));
  after.forEach((name, id) => names.set(id, name));
  find("[data-list]").replaceWith(fresh.querySelector("[data-list]"));
  const added = [...after].filter(([id]) => !before.has(id)).map(([, name]) => name);
  const gone = [...before].filter(([id]) => !after.has(id)).map(([, name]) => name);
  say(
    ...(added.length ? [`Put on the trip meanwhile: ${added.join(", ")}.`] : []),
    ...(gone.length ? [`Taken off the trip meanwhile: ${gone.join(", ")}.`] : []),
  );
  await keepPage();
}

// Being there without the server.

const newsAddress = `${base}/${encodeURIComponent(code)}/packing-list/checks`;

async function keepNews(said) {
  try {
    await (await caches.open(keptAs)).put(newsAddress, new Response(JSON.stringify({ ...said, token: "" })));
  } catch {
    // No caches without a safe connection; then the page only works while it stays open.
  }
}

async function keepPage() {
  try {
    await navigator.serviceWorker.ready;
    for (const name of await caches.keys()) if (name.startsWith("packing-") && name !== keptAs) await caches.delete(name);
    const drawnBy = performance
      .getEntriesByType("resource")
      .map((entry) => new URL(entry.name))
      .filter((url) => url.origin === location.origin && /\/(assets|webjars)\//.test(url.pathname))
      .map((url) => url.pathname);
    const cache = await caches.open(keptAs);
    await Promise.all(
      [location.pathname + location.search, ...new Set(drawnBy)].map(async (address) => {
        const answer = await fetch(address, { headers: { "X-Ledger": ledger }, redirect: "manual" });
        if (answer.ok) await cache.put(address, answer);
      }),
    );
    main.dataset.kept = "";
    showExchange();
  } catch {
    // As above, or the server is away and what was kept stays.
  }
}

async function newsKept() {
  try {
    return await (await caches.match(newsAddress))?.json();
  } catch {
    return null;
  }
}

async function stayAwake() {
  try {
    await navigator.wakeLock?.request("screen");
  } catch {
    // The battery is low, or the browser does not want to.
  }
}

document.addEventListener("visibilitychange", () => {
  if (document.hidden) return;
  stayAwake();
  exchange();
});
addEventListener("online", exchange);
setInterval(() => document.hidden || exchange(), EVERY);

namesIn(main).forEach(([id, name]) => names.set(id, name));
for (const { dataset } of things()) known[dataset.thing] = { state: dataset.state, by: dataset.by };
try {
  waiting = await waitingOf(owner);
} catch {
  // Said at the first check.
}
// The page itself may be one that was kept, and the news have come after it.
const kept = await newsKept();
const checksIn = (answer) => Number(answer.split(".")[1]);
if (kept && checksIn(kept.seen) > checksIn(seen)) {
  known = { ...known, ...kept.things };
  seen = kept.seen;
}
show();
settle();
stayAwake();
await exchange();
try {
  if (await navigator.serviceWorker?.register(worker, { scope: `${base}/` })) await keepPage();
} catch {
  // As above.
}
