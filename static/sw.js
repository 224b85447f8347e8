// Keeps the hosted page for when there is no connection: all files of one build
// in one cache, and pages and engines from no other. So an old page never meets
// a new engine.
//
// A build that is half here is none. If a file can't be had, or is not the one
// that was packed, this worker is not installed and the one before it stays. A
// new worker waits until the last tab with the old page is closed, or somebody
// presses the button in the page for it. What an old build left goes when no tab
// holds the lock of its name.
"use strict";

const build = "(build)";
const needed = "(needed)"; // [address, integrity] of each file; wasm/pack writes all three
const besides = "(besides)"; // what is good to have, too

const mine = "split-tally " + registration.scope + " ";
const kept = mine + build;
const told = new Set(needed.concat(besides).map(([address]) => address));

// An address with the hash of its content never means two things, so it may come
// from the browser's cache, and from another build.
const hashed = /^[\w-]+\.[0-9a-f]{12}\.\w+$/;

addEventListener("install", (event) => {
  const route = async () => event.addRoutes && event.addRoutes(routes());
  event.waitUntil(route().catch(() => {})); // all is there without it, only later
  event.waitUntil(install());
});
addEventListener("activate", (event) => event.waitUntil(clients.claim()));

// What a browser can take from the cache without starting this worker first: the
// files of this build by their own names. What is not there comes from the network,
// as below.
function routes() {
  const at = ([address]) => {
    const { protocol, hostname, port, pathname } = new URL(address, registration.scope);
    return { urlPattern: new URLPattern({ protocol: protocol.slice(0, -1), hostname, port, pathname, search: "" }), requestMethod: "GET" };
  };
  return [{ condition: { or: needed.map(at) }, source: { cacheName: kept } }];
}

async function install() {
  const cache = await caches.open(kept);
  try {
    for (const file of needed) await take(cache, file);
  } catch (err) {
    await caches.delete(kept);
    throw err;
  }
  for (const file of besides) await take(cache, file).catch(() => {}); // the page can fetch it when it is asked for
}

async function take(cache, [address, integrity]) {
  const had = hashed.test(address) && await earlier(address);
  const reply = had || await fetch(address, { integrity, cache: hashed.test(address) ? "default" : "no-cache" });
  if (!reply.ok || reply.redirected) throw new Error(address + ": " + reply.status);
  const headers = new Headers(reply.headers);
  headers.delete("Vary"); // who asks makes no difference
  await cache.put(address, new Response(reply.body, { headers }));
}

// earlier gives a file with a hash in its name from any build that is kept.
async function earlier(name) {
  for (const cacheName of await caches.keys()) {
    const had = cacheName.startsWith(mine) && await caches.match(name, { cacheName, ignoreVary: true }); // an old build kept it as it came
    if (had) return had;
  }
}

addEventListener("fetch", (event) => {
  const name = nameOf(event.request);
  if (told.has(name) || hashed.test(name)) event.respondWith(answer(event.request, name));
});

// nameOf gives the address of one of our files as needed has it, or "".
function nameOf(request) {
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || !(origin + pathname).startsWith(registration.scope)) return "";
  const name = (origin + pathname).slice(registration.scope.length);
  return name === "" || name === "index.html" ? "./" : name;
}

async function answer(request, name) {
  const had = hashed.test(name) ? earlier(name) : caches.match(name, { cacheName: kept });
  return await had || fetch(request);
}

addEventListener("message", (event) => {
  if (event.data === "take over") skipWaiting();
  if (event.data === "which") event.source.postMessage({ build });
  if (event.data === "tidy") event.waitUntil(tidy());
});

async function tidy() {
  if (!navigator.locks) return;
  const { held } = await navigator.locks.query();
  const used = new Set(held.map((lock) => lock.name).concat(kept));
  for (const name of await caches.keys()) if (name.startsWith(mine) && !used.has(name)) await caches.delete(name);
}
