// Starts the engine: the calculation, written in Go and carried as packed
// WebAssembly. The page's fields work before it is there and if it never comes.
//
// <html data-engine> says how far it is: loading, ready or failed. The engine
// sets ready itself once everything is bound.
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
    if (!inside && location.protocol === "file:") throw new Error("opened from disk, this page cannot reach its engine; splittally.html holds it");
    if (!inside) {
      const reply = await fetch(place, { integrity }).catch(() => { throw new Error(place + " can’t be had, or is not the one that this page was made with"); });
      if (!reply.ok) throw new Error(place + ": " + reply.status + " " + reply.statusText);
      return new Uint8Array(await reply.arrayBuffer());
    }
    const text = inside.textContent;
    inside.remove(); // a megabyte that nobody needs again
    return bytesOf(text);
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

  async function start() {
    if (typeof WebAssembly === "undefined") throw new Error("this browser has no WebAssembly, or it is switched off");
    const go = new Go();
    const exit = go.exit;
    let code = 0;
    go.exit = (c) => { code = c; exit(c); };
    const bytes = await packed(parts[0]);
    const [text] = await Promise.all([unpackLzma(bytes), check(bytes, parts[0])]);
    const made = await WebAssembly.instantiate(await moduleOf(text), go.importObject);
    const ended = go.run(made.instance); // comes back as soon as the engine waits for the person
    if (!go.exited && root.dataset.engine === "loading") root.dataset.engine = "ready";
    await ended; // never, unless something is wrong inside the engine
    throw new Error("it stopped with code " + code);
  }

  root.dataset.engine = "loading";
  start().catch((err) => fail(String((err && err.message) || err)));
})();
