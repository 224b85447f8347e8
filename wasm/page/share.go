//go:build js && wasm

package page

import (
	"strconv"
	"strings"
	"syscall/js"

	"splittally/calc/link"
	"splittally/wasm/view"
)

// longLink is how long a link may be before somebody ought to be warned: some
// forums and messengers cut longer ones, or make no link of them.
const longLink = 2000

// shareActs are the buttons that pass a case on.
func (p *page) shareActs(act string, button js.Value) {
	switch act {
	case "make-link":
		if p.disclose(button, "link-box") {
			p.writeLink()
			p.copyFrom("link", "link-copied")
		}
	case "copy-link":
		p.copyFrom("link", "link-copied")
	case "send-link":
		p.sendLink()
	case "show-code":
		if p.disclose(button, "code") {
			p.drawCode()
		}
	default:
		p.guestActs(act, button)
	}
}

// disclose shows or hides the part that a button is for, and says whether it is
// shown now.
func (p *page) disclose(button js.Value, part string) bool {
	box := p.byID(part)
	shown := box.Get("hidden").Bool()
	box.Set("hidden", !shown)
	button.Call("setAttribute", "aria-expanded", shown)
	return shown
}

// writeLink brings the link up to date while it is shown.
func (p *page) writeLink() {
	if p.byID("link-box").Get("hidden").Bool() {
		return
	}
	text := link.Write(p.c, link.Options{Names: p.ticked("with-names"), Hours: p.ticked("with-hours")})
	if text != "" {
		text = p.address() + "#" + text
	}
	if text == p.byID("link").Get("value").String() && text != "" {
		return
	}
	p.byID("link").Set("value", text)
	p.byID("link-copied").Set("textContent", "")
	p.byID("link-says").Set("textContent", linkSays(text, p.hosted()))
	p.all(`[data-do="send-link"]`)[0].Set("hidden", text == "" || p.sharing().IsUndefined())
	if !p.byID("code").Get("hidden").Bool() {
		p.drawCode()
	}
}

func linkSays(text string, hosted bool) string {
	if text == "" {
		return "This case is larger than any link can be. Save it to a file and send that."
	}
	says := strconv.Itoa(len(text)) + " characters."
	if !hosted {
		says += " This page was opened from a file, which has no address for others: whoever gets the text pastes it into a copy of their own, under “A link that somebody sent you”."
	}
	if len(text) > longLink {
		says += " Some forums and messages cut links beyond " + strconv.Itoa(longLink) + " characters. A file is the safer way: save one and attach it."
	}
	return says
}

func (p *page) ticked(box string) bool { return p.byID(box).Get("checked").Bool() }

// holdsHours says that there are hours of a file in the case.
func (p *page) holdsHours() bool {
	if p.c.Meter.Record != "" {
		return true
	}
	for _, m := range p.c.Monitors {
		if m.Record != "" {
			return true
		}
	}
	return false
}

// hosted says that the page has an address that others can reach, or could.
func (p *page) hosted() bool {
	return strings.HasPrefix(js.Global().Get("location").Get("protocol").String(), "http")
}

// address is where others find the page: nowhere, if it was opened from a file.
func (p *page) address() string {
	if !p.hosted() {
		return ""
	}
	address, _, _ := strings.Cut(js.Global().Get("location").Get("href").String(), "#")
	return address
}

// sharing gives what opens the system's own way to send something on, or
// undefined.
func (p *page) sharing() js.Value { return js.Global().Get("navigator").Get("share") }

func (p *page) sendLink() {
	sent := map[string]any{"title": "Split Tally"}
	text := p.byID("link").Get("value").String()
	if p.hosted() {
		sent["url"] = text
	} else {
		sent["text"] = text
	}
	p.await(js.Global().Get("navigator").Call("share", sent), "sending", func(js.Value) {}, func(refused js.Value) {
		if refused.Get("name").String() != "AbortError" { // it was put away again
			p.byID("link-says").Set("textContent", "This browser did not send it. Copy it, or save a file.")
		}
	})
}

// drawCode draws the link as a QR code, for the camera of another device.
func (p *page) drawCode() {
	code := view.QR(p.byID("link").Get("value").String(), "QR code of the link")
	if code == "" {
		code = view.NoCode
	}
	p.show(&slot{el: p.byID("code")}, code)
}
