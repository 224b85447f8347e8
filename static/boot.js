// Starts the engine: the calculation, written in Go and carried as packed
// WebAssembly. The page's fields work before it is there and if it never comes.
//
// It comes in parts. The first is all that typing needs; <html data-engine> says
// how far it is: loading, ready or failed. The engine sets ready itself once
// everything is bound. The second, with all that a person has to ask for first,
// joins it then: <html data-whole> is loading, yes or failed, and an event named
// whole tells the engine. It dispatches fetch-rest to have it tried again.
//
// It stands at the beginning of the page, so that on a site the engine is on its way
// while the page is still read. What needs elements, or the other scripts, waits
// until they are there: parsed.
const parsed = new Promise((go) => addEventListener("DOMContentLoaded", go));

(function () {
  "use strict";
  const root = document.documentElement;
  const isSingle = root.dataset.form === "single"; // the engine is text at the end of this file

  function fail(reason) {
    root.dataset.engine = "failed";
    const words = document.getElementById("no-engine-reason");
    const notice = document.getElementById("no-engine");
    if (words) words.textContent = reason;
    if (notice) notice.hidden = false;
  }

  // What the page was packed with: of each part of the engine its place and its integrity.
  const parts = root.dataset.engineParts.split(" ").reduce((all, word, i) => (i % 2 ? all[all.length - 1].push(word) : all.push([word]), all), []);

  // Browsers hash where the address is a safe one.
  const hashes = window.crypto && crypto.subtle;

  // A part as it comes: what there is of it so far, which begins with what there was before, or null at the end. A browser
  // that checks it itself, where the page can't, gives nothing before it has all of it.
  async function packed([place, integrity]) {
    if (isSingle) {
      await parsed;
      return once(bytesOf(document.getElementById(place).textContent));
    }
    if (location.protocol === "file:") throw new Error("opened from disk, this page cannot reach its engine; splittally.html holds it");
    const reply = await fetch(place, hashes ? {} : { integrity }).catch(() => { throw new Error(place + " can’t be had, or is not the one that this page was made with"); });
    if (!reply.ok) throw new Error(place + " can’t be had: " + reply.status + " " + reply.statusText);
    const reader = reply.body.getReader();
    let bytes = new Uint8Array(1 << 20), length = 0;
    return async () => {
      const { done, value } = await reader.read();
      if (done) return null;
      if (length + value.length > bytes.length) {
        const wider = new Uint8Array(2 * (length + value.length));
        wider.set(bytes);
        bytes = wider;
      }
      bytes.set(value, length);
      return bytes.subarray(0, length += value.length);
    };
  }

  const once = (bytes) => async () => { const all = bytes; bytes = null; return all; };

  // Elsewhere the page says that the hash it shows is only what it was packed with.
  async function check(bytes, [place, integrity]) {
    if (!hashes) {
      await parsed;
      document.getElementById("engine-unchecked").hidden = false;
      return;
    }
    const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
    if ("sha256-" + btoa(String.fromCharCode(...sum)) === integrity) return;
    const found = [...sum.slice(0, 6)].map((b) => b.toString(16).padStart(2, "0")).join("");
    throw new Error("the engine here is damaged, or not the one that this page was made with: its hash begins with " + found + " (" + place + ")");
  }

  // Unpacking takes a third of a start, so a site's page keeps what it has unpacked and checked.
  // It has an address of its own, so that nobody takes it for the packed one.
  const shelf = "split-tally-unpacked " + new URL(".", location.href);
  const own = (place) => place + ".unpacked";

  async function unpacked([place]) {
    const workers = navigator.serviceWorker;
    if (!workers || !workers.controller) return null; // a first visit, which need not wait for the answer that nothing is kept
    try {
      const had = await (await caches.open(shelf)).match(own(place));
      return had ? await WebAssembly.compileStreaming(had) : null;
    } catch {
      return null; // no such thing here, or damaged
    }
  }

  async function keep([place], module) {
    if (!hashes) return; // nobody has checked it
    const cache = await caches.open(shelf);
    for (const old of await cache.keys()) if (!parts.some((part) => old.url.endsWith("/" + own(part[0])))) await cache.delete(old);
    await cache.put(own(place), new Response(module, { headers: { "Content-Type": "application/wasm" } }));
  }

  // A part as a module. It is unpacked while it comes, but not before the page is there; and used only if it is the right one.
  async function made(part) {
    const before = await unpacked(part);
    if (before) return before;
    const next = await packed(part);
    let all = new Uint8Array(0);
    const more = async () => { const come = await next(); all = come || all; return come; };
    await parsed;
    const bytes = await unpackEngine(more).catch(async (err) => {
      while (await more()); // what can't be unpacked is told by its hash, if it is another one
      await check(all, part);
      throw err;
    });
    const module = WebAssembly.compile(bytes); // which runs nothing yet
    module.catch(() => {}); // is told below
    await check(all, part);
    await module;
    if (isSingle) document.getElementById(part[0]).remove(); // a megabyte that nobody needs again
    else setTimeout(() => keep(part, bytes).catch(() => {}), 500); // next time it is unpacked again
    return module;
  }

  // What the rest of the engine needs is what the first part exports.
  async function complete(shared) {
    root.dataset.whole = "loading";
    try {
      for (const part of parts.slice(1)) await WebAssembly.instantiate(await made(part), { "": shared });
      root.dataset.whole = "yes";
    } catch (err) {
      root.dataset.whole = "failed";
      root.dataset.wholeReason = String((err && err.message) || err);
    }
    document.dispatchEvent(new Event("whole"));
  }

  // The engine lacks a table in which only every sixteenth step counts one more, twenty bytes for each: wasm/pack/buckets.go.
  function fillIn(memory) {
    const [at, count] = root.dataset.engineTable.split(" ").map(Number);
    if (at + 20 * count > memory.buffer.byteLength) return; // it is not this engine's
    const words = new Uint32Array(memory.buffer, at, 5 * count);
    for (let i = 0; i < count; i++) words[5 * i] = i >> 4;
  }

  async function start() {
    if (typeof WebAssembly === "undefined") throw new Error("this browser has no WebAssembly, or it is switched off");
    const coming = made(parts[0]);
    coming.catch(() => {}); // is told below
    await parsed;
    if (typeof Go === "undefined") throw new Error("the end of this page is missing");
    const go = new Go();
    delete globalThis.Go; // through it others could look into the engine
    const exit = go.exit;
    let code = 0;
    go.exit = (c) => { code = c; exit(c); };
    const instance = await WebAssembly.instantiate(await coming, go.importObject);
    fillIn(instance.exports.mem);
    const ended = go.run(instance); // comes back as soon as the engine waits for the person
    if (!go.exited) {
      if (root.dataset.engine === "loading") root.dataset.engine = "ready";
      complete(instance.exports);
      document.addEventListener("fetch-rest", () => complete(instance.exports));
    }
    await ended; // never, unless something is wrong inside the engine
    throw new Error("it stopped with code " + code);
  }

  start().catch((err) => parsed.then(() => fail(String((err && err.message) || err))));
})();
