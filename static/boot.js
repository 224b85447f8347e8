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

  // In the single file the engine is text in the page; a site has it beside the page.
  async function packed() {
    const inside = document.getElementById("engine");
    if (!inside && location.protocol === "file:") throw new Error("opened from disk, this page cannot reach its engine; splittally.html holds it");
    if (!inside) {
      const reply = await fetch("engine.bin");
      if (!reply.ok) throw new Error("engine.bin: " + reply.status + " " + reply.statusText);
      return new Uint8Array(await reply.arrayBuffer());
    }
    const text = inside.textContent;
    inside.remove(); // a megabyte that nobody needs again
    return bytesOf(text);
  }

  async function start() {
    if (typeof WebAssembly === "undefined") throw new Error("this browser has no WebAssembly, or it is switched off");
    const go = new Go();
    const exit = go.exit;
    let code = 0;
    go.exit = (c) => { code = c; exit(c); };
    const made = await WebAssembly.instantiate(await moduleOf(await unpackLzma(await packed())), go.importObject);
    const ended = go.run(made.instance); // comes back as soon as the engine waits for the person
    if (!go.exited && root.dataset.engine === "loading") root.dataset.engine = "ready";
    await ended; // never, unless something is wrong inside the engine
    throw new Error("it stopped with code " + code);
  }

  root.dataset.engine = "loading";
  start().catch((err) => fail(String((err && err.message) || err)));
})();
