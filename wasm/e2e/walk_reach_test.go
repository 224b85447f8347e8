//go:build !js

package e2e

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// focused tells of the element that has the focus: who it is, whether its focus
// shows, and whether it can be seen or lies under something.
const focused = `{
	const e = document.activeElement, style = getComputedStyle(e), r = e.getBoundingClientRect();
	const x = r.x + Math.min(r.width, innerWidth) / 2, y = r.y + Math.min(r.height / 2, 20);
	const hit = document.elementFromPoint(x, y);
	if (e !== document.body) e.reached = true;
	({
		Who: e.id || e.outerHTML.slice(0, 90),
		Body: e === document.body,
		Outlined: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
		Seen: r.top >= 0 && r.bottom <= innerHeight + r.height && !!hit && (e.contains(hit) || hit.contains(e)),
	})
}`

// With the keyboard alone everything can be reached, in any order of state, and
// one sees where one is.
func TestKeyboardAlone(t *testing.T) {
	for _, width := range []int{360, 1280} {
		p := open(t, look{form: singleFile, width: width})
		p.askAndErr()
		p.unfoldAll()
		evaluate[chromedp.Void](p, `{ const b = document.body; b.tabIndex = -1; b.focus(); b.removeAttribute("tabindex"); }`)
		steps := 0
		for ; steps < 400; steps++ {
			p.press(kb.Tab)
			f := evaluate[struct {
				Who                  string
				Body, Outlined, Seen bool
			}](p, focused)
			if f.Body {
				break
			}
			if !f.Outlined {
				p.Errorf("%d px: the focus does not show on %s", width, f.Who)
			}
			if !f.Seen {
				p.Errorf("%d px: %s has the focus out of sight", width, f.Who)
			}
		}
		missed := evaluate[string](p, `[...document.querySelectorAll("a[href], button, input, select, textarea, summary")]
			.filter((e) => !e.reached && !e.disabled && e.tabIndex >= 0 && e.checkVisibility({ visibilityProperty: true }))
			.filter((e) => e.type !== "radio" || !document.querySelectorAll("[name=" + e.name + "]").values().some((o) => o.reached))
			.map((e) => e.id || e.outerHTML.slice(0, 90)).join("\n")`)
		if missed != "" || steps < 40 {
			p.Errorf("%d px: after %d steps the keyboard has not reached:\n%s", width, steps, missed)
		}
	}
}

// The whole walk with nothing but keys: days, a bill, the verdict, undo, a file, a
// link with the names in it, and that link opened as a guest.
func TestWalkByKeyboard(t *testing.T) {
	p := open(t, look{form: singleFile})
	for _, f := range append([][2]string{{"#monitors-0-name", "Hall"}, {"#monitors-0-readings", threeDays}}, bill...) {
		p.tabTo(f[0])
		p.do("typing", chromedp.KeyEvent(f[1]))
	}
	p.waitFor("#findings", threeOff)
	p.tabTo("summary") // the first of what unfolds
	for _, open := range []bool{true, false} {
		p.press(" ")
		if got := evaluate[bool](p, `document.activeElement.parentElement.open`); got != open {
			t.Errorf("the space bar unfolds: %v, want %v", got, open)
		}
	}
	p.tabTo(`.keep [data-do="undo"]`)
	p.press(kb.Enter)
	p.until("the last key to be taken back", func() bool { return p.value("#periods-0-kwh") != "36" })
	p.tabTo(`.keep [data-do="redo"]`)
	p.press(kb.Enter)
	p.waitFor("#findings", threeOff)
	name, _ := p.download(func() {
		p.tabTo(`.keep [data-do="save-file"]`)
		p.press(kb.Enter)
	})
	if !strings.HasSuffix(name, ".json") {
		t.Errorf("saved %q", name)
	}
	p.tabTo("#with-names")
	p.press(" ")
	p.tabTo(`[data-do="make-link"]`)
	p.press(kb.Enter)
	p.tabTo(`[data-do="copy-link"]`)
	p.press(kb.Enter)
	p.waitFor("#link-copied", "Copied")
	p.tabTo("#link-in")
	p.do("pasting", command("v", "KeyV", "paste"))
	p.tabTo(`[data-do="open-link"]`)
	p.press(kb.Enter)
	p.until("the guest", func() bool { return p.attribute("html", "data-case") == "guest" })
	p.waitFor("#bar", "Hall")
	p.tabTo(`[data-do="leave-guest"]`)
	p.press(kb.Enter)
	p.until("one's own case", func() bool { return p.attribute("html", "data-case") == "" && p.value("#periods-0-kwh") == "36" })
}

// tabTo presses Tab until an element of a selector has the focus.
func (p *page) tabTo(selector string) {
	p.Helper()
	for range 400 {
		p.press(kb.Tab)
		if evaluate[bool](p, `document.activeElement.matches(`+quote(selector)+`)`) {
			return
		}
	}
	p.Fatalf("no way by Tab to %s", selector)
}

// targets fails the walk for whatever is tapped and smaller than 44 px.
func (p *page) targets(what string) {
	p.Helper()
	found := evaluate[string](p, `[...document.querySelectorAll("button, input, select, textarea, summary, a[href]")]
			.filter((e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: true }))
			.map((e) => [e, e.matches("[type=radio], [type=checkbox]") ? e.closest("label, .check") : e])
			.map(([e, box]) => [e, box.getBoundingClientRect()])
			.filter(([, r]) => r.height < 43.9 || r.width < 43.9)
			.map(([e, r]) => Math.round(r.width) + " × " + Math.round(r.height) + " " + (e.id || e.outerHTML.slice(0, 90))).join("\n")`)
	if found != "" {
		p.Errorf("%s: smaller than 44 px:\n%s", what, found)
	}
}

// From wherever one is on a phone the bar leads to the findings, and back to
// the field that was typed into last.
func TestToAndFro(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.fillIn(1)
	p.typeInto("#periods-0-kwh", "412")
	p.waitFor("#bar", "Findings")
	p.tapBar()
	p.until("the findings to be at the top", func() bool {
		return evaluate[float64](p, find("#findings")+`.getBoundingClientRect().y`) < 100
	})
	p.waitFor("#bar", "Entries")
	if got := evaluate[string](p, `document.activeElement.id`); got != "findings-title" {
		t.Errorf("the focus is on %q", got)
	}
	p.tapBar()
	p.until("the field to have the focus", func() bool { return evaluate[string](p, `document.activeElement.id`) == "periods-0-kwh" })
	p.waitFor("#bar", "Findings")
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#bar", "Entries")
	if y := evaluate[float64](p, find("#findings")+`.getBoundingClientRect().y`); y > 100 {
		t.Errorf("the example begins %v px above its findings", y)
	}
}

// In forced colours the browser paints; what is filled must still differ from
// what was measured, and errors from the rest.
func TestForcedColours(t *testing.T) {
	p := open(t, look{form: singleFile})
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#bar", "Hallway monitor")
	p.feature("forced-colors", "active")
	p.tap("#result-0-0-head")
	p.waitFor("#result-0-0", "Hatched")
	solid := evaluate[string](p, `getComputedStyle(`+find("#result-0-0 .solid")+`).fill`)
	guess := evaluate[string](p, `getComputedStyle(`+find("#result-0-0 .guess")+`).fill`)
	if solid == guess || !strings.HasPrefix(solid, "rgb") {
		t.Errorf("a filled day is drawn in %s, a measured one in %s", guess, solid)
	}
	p.fits()
}

// tapBar taps the bar where it is: it moves with the window.
func (p *page) tapBar() {
	p.Helper()
	p.frame()
	at := evaluate[struct{ X, Y float64 }](p, `{ const r = `+find("#bar")+`.getBoundingClientRect(); ({ X: r.x + r.width / 2, Y: r.y + r.height / 2 }) }`)
	p.do("tapping the bar", chromedp.TapXY(at.X, at.Y))
}
