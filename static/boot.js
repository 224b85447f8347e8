// Starts the engine: the calculation, written in Go and carried as packed
// WebAssembly. The page's fields work before it is there and if it never comes.
//
// It comes in parts. The first is all that typing needs; <html data-engine> says
// how far it is: loading, ready or failed. The engine sets ready itself once
// everything is bound. The second, with all that a person has to ask for first,
// joins it then: <html data-whole> is loading, yes or failed, and an event named
// whole tells the engine. It dispatches fetch-rest to have it tried again.
(function () {
  "use strict";
  const root = document.documentElement;

  function fail(reason) {
    root.dataset.engine = "failed";
    const words = document.getElementById("no-engine-reason");
    const notice = document.getElementById("no-engine");
    if (words) words.textContent = reason;
    if (notice) notice.hidden = false;
  }

  // What the page was packed with: of each part of the engine its place and its integrity.
  const parts = root.dataset.engineParts.split(" ").reduce((all, word, i) => (i % 2 ? all[all.length - 1].push(word) : all.push([word]), all), []);

  // In the single file the engine is text in the page; a site has it beside the page.
  async function packed([place, integrity]) {
    const inside = document.getElementById(place);
    if (!inside) {
      const reply = await fetch(place, { integrity }).catch(() => { throw new Error(place + " can’t be had, or is not the one that this page was made with"); });
      if (!reply.ok) throw new Error(place + ": " + reply.status + " " + reply.statusText);
      return new Uint8Array(await reply.arrayBuffer());
    }
    return bytesOf(inside.textContent);
  }

  // Browsers hash where the address is a safe one. Elsewhere the page says that the hash it shows is only what it was packed with.
  async function check(bytes, [place, integrity]) {
    if (!window.crypto || !crypto.subtle) {
      document.getElementById("engine-unchecked").hidden = false;
      return;
    }
    const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
    if ("sha256-" + btoa(String.fromCharCode(...sum)) === integrity) return;
    const found = [...sum.slice(0, 6)].map((b) => b.toString(16).padStart(2, "0")).join("");
    throw new Error("the engine here is damaged, or not the one that this page was made with: its hash begins with " + found + " (" + place + ")");
  }

  // A part as a module and what it was made with.
  async function made(part, bytes, imports) {
    const [text] = await Promise.all([unpackLzma(await bytes), bytes.then((b) => check(b, part))]);
    const { instance } = await WebAssembly.instantiate(await moduleOf(text), imports);
    const inside = document.getElementById(part[0]);
    if (inside) inside.remove(); // a megabyte that nobody needs again
    return instance;
  }

  // What the rest of the engine needs is what the first part exports.
  async function complete(shared, coming) {
    root.dataset.whole = "loading";
    try {
      for (const part of parts.slice(1)) await made(part, coming.get(part) || packed(part), { "": shared });
      root.dataset.whole = "yes";
    } catch (err) {
      root.dataset.whole = "failed";
      root.dataset.wholeReason = String((err && err.message) || err);
    }
    document.dispatchEvent(new Event("whole"));
  }

  async function start() {
    if (typeof WebAssembly === "undefined") throw new Error("this browser has no WebAssembly, or it is switched off");
    const go = new Go();
    delete globalThis.Go; // through it others could look into the engine
    const exit = go.exit;
    let code = 0;
    go.exit = (c) => { code = c; exit(c); };
    const bytes = packed(parts[0]), coming = new Map();
    bytes.then(() => parts.slice(1).forEach((part) => { // fetched while the first is unpacked
      if (document.getElementById(part[0])) return;
      coming.set(part, packed(part));
      coming.get(part).catch(() => {}); // told when it is needed
    }), () => {});
    const instance = await made(parts[0], bytes, go.importObject);
    const ended = go.run(instance); // comes back as soon as the engine waits for the person
    if (!go.exited) {
      if (root.dataset.engine === "loading") root.dataset.engine = "ready";
      complete(instance.exports, coming);
      document.addEventListener("fetch-rest", () => complete(instance.exports, new Map()));
    }
    await ended; // never, unless something is wrong inside the engine
    throw new Error("it stopped with code " + code);
  }

  root.dataset.engine = "loading";
  start().catch((err) => fail(String((err && err.message) || err)));
})();
