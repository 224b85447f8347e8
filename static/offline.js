// Keeps the hosted page for when there is no connection, by sw.js; tells of new
// versions; hands out the single file. It asks for nothing before the whole
// engine is there. The single file goes without this script.
parsed.then(() => {
  "use strict";
  const root = document.documentElement;
  const { build } = root.dataset;
  const says = document.getElementById("offline-says");
  const notice = document.getElementById("new-version");
  const workers = navigator.serviceWorker; // not there on plain http, nor in some private windows
  const scope = new URL("./", location.href).href;
  const cacheName = "split-tally " + scope + " " + build; // as sw.js names it
  let registration, asked = false;

  function say(state, words) {
    root.dataset.offline = state;
    says.textContent = words;
  }

  function sayNone(why) {
    say("none", "This browser keeps no copy of the page for when there is no connection" + why + ". Take the file with you instead.");
  }

  function tell(words) {
    document.getElementById("new-version-words").textContent = words;
    notice.hidden = false;
  }

  // watch follows a worker that is being installed, if there is one.
  function watch(worker, isFirst) {
    if (!worker) return;
    const look = () => {
      if (worker.state === "activated") hold();
      if (worker.state === "installed" && !isFirst) worker.postMessage("which");
      if (worker.state === "redundant" && isFirst && root.dataset.offline !== "kept") sayNone(" now: it could not be had or stored as a whole");
    };
    worker.addEventListener("statechange", look);
    look();
  }

  // hold says that a copy is here, and has old ones put away that no tab uses.
  function hold() {
    say("kept", "A copy is kept in this browser: the page opens here without a connection, too.");
    registration.active.postMessage("tidy");
  }

  // A worker that others may have started says which build it keeps.
  function learn(event) {
    if (!event.data.build || event.data.build === build) return;
    if (event.source.state === "installed") tell("A new version is ready. What you typed is kept when it starts.");
    else tell("A new version was started in another tab. This tab goes on with the one before; what you typed is kept when it changes, too.");
  }

  // Browsers with Trusted Types want the address made by a policy. Whatever this
  // one is given, it makes the same.
  function workerAddress() {
    const types = window.trustedTypes;
    return types ? types.createPolicy("split-tally-worker", { createScriptURL: () => "sw.js" }).createScriptURL("") : "sw.js";
  }

  async function keep() {
    workers.addEventListener("message", learn);
    workers.addEventListener("controllerchange", () => {
      if (asked) location.reload();
      else workers.controller.postMessage("which");
    });
    registration = await workers.register(workerAddress(), { scope: "./", updateViaCache: "none" });
    const isFirst = !registration.active;
    if (!isFirst) hold();
    watch(registration.waiting || registration.installing, isFirst);
    registration.addEventListener("updatefound", () => watch(registration.installing, !registration.active));
  }

  // change starts the version that waits. The page comes again when it has taken over.
  async function change() {
    const now = await workers.getRegistration();
    asked = true;
    if (now && now.waiting) now.waiting.postMessage("take over");
    else location.reload();
  }
  document.addEventListener("take-update", change); // the engine has kept everything
  notice.querySelector("button").addEventListener("click", () => { if (root.dataset.engine === "failed") change(); });

  // The address of the copy that is kept; or else of the file beside the page,
  // for the browser to fetch: the page itself may ask for nothing any more.
  async function file() {
    const kept = window.caches && await caches.match("splittally.html", { cacheName });
    return kept ? URL.createObjectURL(new Blob([await kept.blob()], { type: "application/octet-stream" })) : "splittally.html";
  }

  async function hand() {
    const link = document.createElement("a");
    link.href = await file();
    link.download = "splittally.html";
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 30000); // some browsers read it after the click
  }

  const button = document.querySelector("[data-take-page]");
  const took = document.getElementById("take-page-says");
  button.disabled = false;
  button.addEventListener("click", () => {
    took.hidden = true;
    hand().catch((err) => {
      took.textContent = "The file can’t be had from beside this page: " + err.message + ". If there is a connection, load the page again and try once more.";
      took.hidden = false;
    });
  });

  // Files of this build are not put away while a tab needs them.
  if (navigator.locks) navigator.locks.request(cacheName, { mode: "shared" }, () => new Promise(() => {}));

  function begin() {
    if (location.protocol === "file:") return;
    if (!workers) return sayNone("");
    keep().catch((err) => sayNone(": " + err.message));
  }
  new MutationObserver((_, observer) => {
    if (!["yes", "failed"].includes(root.dataset.whole)) return;
    observer.disconnect();
    (window.requestIdleCallback || setTimeout)(begin, { timeout: 2000 });
  }).observe(root, { attributeFilter: ["data-whole"] });
});
