// Closes the ways out that a Content-Security-Policy leaves open, before
// anything else runs: leaving the page, windows, WebRTC, preconnecting, frames.
//
// The policy lets no code run but ours, and ours does none of this; this is the
// ditch behind that wall. What is leaned on later is taken hold of now, so that
// nothing that comes afterwards can put something else in its place.
(function () {
  "use strict";
  const { apply, defineProperty, getOwnPropertyDescriptor } = Reflect;
  const root = document.documentElement;
  const here = location.href.split("#")[0];

  const getter = (of, name) => getOwnPropertyDescriptor(of.prototype, name).get;
  const fix = (on, name, value) => defineProperty(on, name, { value, writable: false, configurable: false });
  const begins = (text, start) => {
    for (let i = 0; i < start.length; i++) if (text[i] !== start[i]) return false;
    return true;
  };
  // The page itself, anywhere in it; what is to be saved as a file: a blob, and the
  // page in one file that a site has beside it.
  const single = new URL("splittally.html", here).href;
  const isHere = (to) => begins(to, here) && (to.length === here.length || to[here.length] === "#");
  const stays = (to, saved) => isHere(to) || begins(to, "blob:") || (saved && to === single);
  const prevent = Event.prototype.preventDefault;

  // Of a file that is saved Firefox tells twice, the second time as if the page were
  // left for it; so only what no browser runs gets such an address.
  const kindOf = getter(Blob, "type"), addressFor = URL.createObjectURL;
  const inert = { __proto__: null, "application/json": 1, "text/csv;charset=utf-8": 1, "application/octet-stream": 1 };
  fix(URL, "createObjectURL", (blob) => {
    if (inert[apply(kindOf, blob, [])] !== 1) throw new TypeError("this page has no address for such a thing");
    return apply(addressFor, URL, [blob]);
  });

  // Leaving. Going back to where the person came from tells nobody anything.
  if (typeof NavigateEvent === "function") {
    const destination = getter(NavigateEvent, "destination"), url = getter(NavigationDestination, "url");
    const kind = getter(NavigateEvent, "navigationType"), download = getter(NavigateEvent, "downloadRequest");
    navigation.addEventListener("navigate", (e) => {
      const to = apply(url, apply(destination, e, []), []);
      if (apply(kind, e, []) !== "traverse" && !stays(to, apply(download, e, []) !== null)) apply(prevent, e, []);
    });
  }

  // Links: those that open a window of their own, and all of them in browsers
  // that cannot tell of navigations.
  const localName = getter(Element, "localName"), attribute = Element.prototype.getAttribute, path = Event.prototype.composedPath;
  const addressOf = { a: getter(HTMLAnchorElement, "href"), area: getter(HTMLAreaElement, "href") };
  const leads = (el) => {
    let name = "";
    try { name = apply(localName, el, []); } catch { return false; } // the document, the window, a text
    if (name !== "a" && name !== "area") return false;
    try {
      const to = apply(addressOf[name], el, []);
      return to !== "" && !stays(to, apply(attribute, el, ["download"]) !== null);
    } catch { return true; } // a link of a drawing: there are none
  };
  const clicked = (e) => {
    const through = apply(path, e, []);
    for (let i = 0; i < through.length; i++) if (leads(through[i])) return apply(prevent, e, []);
  };
  for (const kind of ["click", "auxclick"]) addEventListener(kind, clicked, true);
  // A link outside the page can be clicked by a script, and no window hears of it;
  // and there are clicks that nobody can prevent.
  const connected = getter(Node, "isConnected"), type = getter(Event, "type"), cancelable = getter(Event, "cancelable");
  const click = HTMLElement.prototype.click, dispatch = EventTarget.prototype.dispatchEvent;
  const isLoose = (el) => { try { return !apply(connected, el, []); } catch { return false; } };
  fix(HTMLElement.prototype, "click", function () { if (!isLoose(this)) apply(click, this, []); });
  fix(EventTarget.prototype, "dispatchEvent", function (e) {
    if (isLoose(this) || (apply(type, e, []) === "click" && !apply(cancelable, e, []))) return false;
    return apply(dispatch, this, [e]);
  });
  fix(Element.prototype, "attachShadow", undefined); // where clicks could hide
  addEventListener("submit", (e) => apply(prevent, e, []), true);
  fix(HTMLFormElement.prototype, "submit", undefined); // nobody hears of it

  // Elements that would load, lead or connect elsewhere, and frames, which bring
  // a fresh window of everything that is closed here. None can be made, and those
  // that are there stay as they are.
  const barred = { __proto__: null, iframe: 1, frame: 1, frameset: 1, fencedframe: 1, portal: 1, object: 1, embed: 1, link: 1, meta: 1, base: 1, script: 1 };
  const isBarred = (el) => { try { return barred[apply(localName, el, [])] === 1; } catch { return false; } };
  const refuse = () => { throw new TypeError("this page has no such element to give"); };
  const policy = document.createElement("meta");
  policy.httpEquiv = "Content-Security-Policy";
  policy.content = "connect-src 'none'; script-src 'none'; style-src 'none'; img-src data: blob:; worker-src 'self'";
  for (const name of ["createElement", "createElementNS"]) {
    const make = Document.prototype[name];
    fix(Document.prototype, name, function (...args) {
      const el = apply(make, this, args);
      return isBarred(el) ? refuse() : el;
    });
  }
  for (const name of ["setAttribute", "setAttributeNS", "setAttributeNode", "setAttributeNodeNS", "toggleAttribute", "getAttributeNode", "getAttributeNodeNS"]) {
    const act = Element.prototype[name];
    fix(Element.prototype, name, function (...args) { return isBarred(this) ? refuse() : apply(act, this, args); });
  }
  const attributes = getter(Element, "attributes");
  defineProperty(Element.prototype, "attributes", {
    get() {
      const list = apply(attributes, this, []);
      if (!isBarred(this)) return list;
      const told = []; // to read, and no more
      for (let i = 0; i < list.length; i++) told[i] = { name: list[i].name, value: list[i].value };
      return told;
    },
    configurable: false,
  });
  for (const { prototype } of [HTMLLinkElement, HTMLMetaElement, HTMLScriptElement]) {
    for (const name of Object.getOwnPropertyNames(prototype)) {
      const { get, configurable } = getOwnPropertyDescriptor(prototype, name);
      const isList = ["relList", "sizes", "blocking"].includes(name);
      if (get && configurable) defineProperty(prototype, name, { get: isList ? undefined : get, set: undefined, configurable: false });
    }
  }
  fix(CustomElementRegistry.prototype, "define", undefined); // makes elements, too
  fix(Document.prototype, "evaluate", undefined); // finds attributes

  // What connects, and what the page's own server would be told at the next visit.
  for (const name of [
    "open", "RTCPeerConnection", "webkitRTCPeerConnection", "WebTransport", "WebSocket", "WebSocketStream", "EventSource",
    "XMLHttpRequest", "Worker", "SharedWorker", "PushManager", "PaymentRequest", "PresentationRequest", "Notification",
    "XSLTProcessor", "XPathEvaluator", "cookieStore",
  ]) if (name in window) fix(window, name, undefined);
  fix(Document.prototype, "cookie", undefined);
  Object.freeze(Reflect); // the engine calls the browser through it
  fix(window, "Reflect", Reflect);

  // Once all of the engine is here, not even the page's own server is asked for
  // anything. While a part of it is missing it may be asked for again.
  const append = Element.prototype.append;
  new MutationObserver(() => {
    if (root.dataset.whole === "yes" || root.dataset.engine === "failed") apply(append, document.head, [policy]);
  }).observe(root, { attributeFilter: ["data-engine", "data-whole"] });
})();
