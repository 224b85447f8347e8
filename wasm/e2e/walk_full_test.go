//go:build !js

package e2e

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// The browser's own storage, filled to its end: the page says so at once, offers
// a file, loses nothing, and keeps it as soon as there is room.
func TestFullStorageIsTold(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.typeInto("#title", "Larch Bend")
	p.waitKept("Larch Bend")
	evaluate[chromedp.Void](p, `for (let n = 1 << 22; n >= 1; ) {
		try { localStorage.setItem("filler-" + n + "-" + Math.random(), "x".repeat(n)); } catch { n = n >> 1; }
	}`)
	long := strings.Repeat("a note that finds no room ", 20)
	p.pasteInto("#note", long)
	p.waitFor("#kept", "could not keep it")
	p.waitFor("#page-notice", "goes on trying")
	p.fits()
	p.targets("no room")
	if got := p.value("#note"); got != long {
		t.Errorf("the note is %q", got)
	}
	_, data := p.download(func() { p.tap(`#page-notice [data-do="save-file"]`) })
	if !strings.Contains(string(data), long) {
		t.Error("the file lacks the note")
	}
	if !strings.Contains(p.shelved(), "Larch Bend") {
		t.Error("what was kept before is gone")
	}
	evaluate[chromedp.Void](p, `Object.keys(localStorage).filter((k) => k.startsWith("filler-")).forEach((k) => localStorage.removeItem(k))`)
	p.waitKept("finds no room") // without another key
	p.waitFor("#kept", "Kept in this browser")
}

// A damaged case is set aside as it is and offered as a file; the others open.
func TestDamagedCaseIsSetAside(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.typeInto("#title", "Larch Bend")
	p.waitKept("Larch Bend")
	p.tap(`[data-do="new-case"]`)
	p.typeInto("#title", "The mill")
	p.waitKept("The mill")
	damaged := evaluate[string](p, `(() => {
		const [key, text] = Object.entries(localStorage).find(([k, v]) => k.includes("/case/") && v.includes("The mill"));
		const cut = text.slice(0, -20);
		addEventListener("pagehide", () => localStorage.setItem(key, cut));
		return cut;
	})()`)
	p.reload()
	if got := p.value("#title"); got != "Larch Bend" {
		t.Errorf("the page opens with %q", got)
	}
	p.waitFor("#cases-aside", "could not be read")
	_, data := p.download(func() { p.tap(`[data-do="save-aside"]`) })
	if string(data) != damaged {
		t.Errorf("set aside is %q", data)
	}
	p.fits()
	p.targets("set aside")
	p.tap(`[data-do="discard"]`)
	p.tap(`[data-do="discard"]`)
	p.until("it to be gone", func() bool { return p.count("#cases-aside li") == 0 })
	if got := p.caseNames(); got != "Larch Bend" {
		t.Errorf("in the list: %s", got)
	}
}
