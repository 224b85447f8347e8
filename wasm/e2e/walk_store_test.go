//go:build !js

package e2e

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// shelved is all that the browser keeps of cases.
func (p *page) shelved() string {
	p.Helper()
	return evaluate[string](p, `Object.entries(localStorage).filter(([k]) => k.includes("/case/")).map(([, v]) => v).join("\n")`)
}

// waitKept waits until a text is kept.
func (p *page) waitKept(text string) {
	p.Helper()
	p.until("“"+text+"” to be kept", func() bool { return strings.Contains(p.shelved(), text) })
}

// caseNames is what the list of cases shows, in its order.
func (p *page) caseNames() string {
	p.Helper()
	return evaluate[string](p, `[...document.querySelectorAll("#cases strong")].map((e) => e.textContent).join(", ")`)
}

// onCase presses a button of the case of that name in the list.
func (p *page) onCase(act, name string) {
	p.Helper()
	p.tap(`[data-do="` + act + `"][aria-label$=` + quote(": "+name) + `]`)
}

// check lets axe-core look at the page.
func (p *page) check(what string) {
	p.Helper()
	checker, err := os.ReadFile(filepath.FromSlash(axe))
	if err != nil {
		p.Fatalf("axe-core is not installed; make test installs it (%v)", err)
	}
	evaluate[chromedp.Void](p, string(checker))
	p.violations(what)
}

// Several cases: begun, named, opened, copied, taken away and brought back, with
// a name that would be markup if it could.
func TestSeveralCases(t *testing.T) {
	for _, l := range []look{{form: singleFile, width: 360}, {dark: true}} {
		t.Run(l.form.String(), func(t *testing.T) {
			p := open(t, l)
			p.typeInto("#title", "Larch Bend")
			p.typeInto("#periods-0-kwh", "412")
			p.waitKept("412")
			p.tap(`[data-do="new-case"]`)
			p.waitFor("#page-notice", "new case")
			if got := p.value("#title") + p.value("#periods-0-kwh"); got != "" {
				t.Errorf("a new case holds %q", got)
			}
			p.typeInto("#title", hostile)
			p.waitKept("onerror")
			p.until("two cases in the list", func() bool { return strings.HasSuffix(p.caseNames(), ", Larch Bend") })
			if n := p.count("#cases img, #cases script, #cases a"); n > 0 {
				t.Errorf("%d elements came out of a name", n)
			}
			p.fits()
			p.targets("the list of cases")
			p.check("the list of cases")
			p.onCase("open-case", "Larch Bend")
			p.until("the other case", func() bool { return p.value("#title") == "Larch Bend" })
			p.reload()
			if got := p.value("#periods-0-kwh"); got != "412" {
				t.Errorf("after a reload the bill has %q", got)
			}
			p.onCase("copy-case", "Larch Bend")
			p.waitFor("#page-notice", "copy is open")
			p.typeInto("#periods-0-kwh", "413")
			p.waitKept("413")
			p.onCase("open-case", "Larch Bend")
			p.until("the first case", func() bool { return p.value("#periods-0-kwh") == "412" })
			p.onCase("away-case", "Larch Bend")
			p.waitFor("#page-notice", "taken away")
			if strings.Contains(", "+p.caseNames()+", ", ", Larch Bend, ") {
				t.Errorf("still in the list: %s", p.caseNames())
			}
			p.unfoldIn(".keep")
			p.fits()
			p.targets("a case taken away")
			p.check("a case taken away")
			p.tap(`#page-notice [data-do="back-case"]`)
			p.until("the case to be back", func() bool { return p.value("#periods-0-kwh") == "412" })
			p.onCase("away-case", "Larch Bend")
			p.waitFor("#page-notice", "taken away")
			p.tap(`#page-notice [data-do="put-away"]`)
			p.unfoldIn(".keep")
			p.onCase("erase-case", "Larch Bend")
			p.onCase("erase-case", "Larch Bend")
			p.until("the case to be erased", func() bool { return !strings.Contains(p.shelved(), `"412"`) })
		})
	}
}

// Undo and redo: in words, across a reload, by buttons and by keys outside of
// the fields.
func TestUndoAndRedo(t *testing.T) {
	p := open(t, look{form: singleFile})
	p.typeInto("#title", "Larch Bend")
	p.typeInto("#periods-0-kwh", "412")
	p.waitKept("412")
	undo, redo := `.keep [data-do="undo"]`, `.keep [data-do="redo"]`
	p.waitFor(undo, "Undo: Bill 1, Energy billed")
	p.tap(`[data-list="periods"] > :nth-child(1) [data-do="remove-item"]`)
	p.waitFor(undo, "bill taken away")
	p.waitKept("steps")
	p.until("the bill to be gone", func() bool { return !strings.Contains(p.shelved(), `"kwh": "412"`) })
	p.reload()
	p.waitFor(undo, "bill taken away")
	p.tap(undo)
	p.until("the bill to be back", func() bool { return p.value("#periods-0-kwh") == "412" })
	p.waitFor(redo, "bill taken away")
	p.do("undoing by a key", chromedp.KeyEvent("z", chromedp.KeyModifiers(kb.ModifierCtrl)))
	p.until("the energy to be blank", func() bool { return p.value("#periods-0-kwh") == "" })
	p.do("redoing by a key", chromedp.KeyEvent("z", chromedp.KeyModifiers(kb.ModifierCtrl|kb.ModifierShift)))
	p.until("the energy to be there", func() bool { return p.value("#periods-0-kwh") == "412" })
	p.tap(undo)
	p.tap(undo)
	p.until("the title to be blank", func() bool { return p.value("#title") == "" })
	if !evaluate[bool](p, find(undo)+`.disabled`) {
		t.Error("there is something left to undo")
	}
	p.tap(redo)
	p.until("the title", func() bool { return p.value("#title") == "Larch Bend" })
	p.typeInto("#note", "another way")
	p.waitFor(undo, "Undo: ")
	p.until("nothing to redo", func() bool { return evaluate[bool](p, find(redo)+`.disabled`) })
}

// On a phone there is a button in the corner, once there is something to undo.
func TestUndoOnAPhone(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	if p.count(".corner:not([hidden])") > 0 {
		t.Error("there is nothing to undo, and yet a button")
	}
	p.typeInto("#title", "Larch Bend")
	p.until("the button", func() bool { return p.count(".corner:not([hidden])") == 1 })
	if got := p.attribute(".corner", "aria-label"); !strings.HasPrefix(got, "Undo: ") {
		t.Errorf("it is called %q", got)
	}
	p.fits()
	p.targets("with the button in the corner")
	p.tap(".corner")
	p.until("the title to be blank", func() bool { return p.value("#title") == "" })
}

// The next month goes on where the last one ended, and its days below those
// that are there.
func TestNextMonth(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.tap(`[data-do="next-month"]`)
	p.waitFor("#page-notice", "no bill yet")
	p.fillIn(1)
	p.unfoldIn(`[data-list="periods"]`)
	p.typeInto("#periods-1-present", "5120")
	p.tap(`[data-do="next-month"]`)
	p.waitFor("#page-notice", "Bill 3 goes on")
	if got := p.value("#periods-2-from"); got == "" || p.value("#periods-2-kwh") != "" || p.value("#periods-2-previous") != "5120" {
		t.Errorf("it begins %q, with %q before", got, p.value("#periods-2-previous"))
	}
	if got := evaluate[string](p, `document.activeElement.id`); got != "periods-2-to" {
		t.Errorf("the focus is on %q", got)
	}
	p.tap(`[data-do="further-days"]`)
	p.until("the cursor to be in the days", func() bool { return evaluate[string](p, `document.activeElement.id`) == "monitors-0-readings" })
	p.do("typing a further day", chromedp.KeyEvent("2025-03-01 12.4"))
	if got := p.value("#monitors-0-readings"); !strings.HasSuffix(got, "\n2025-03-01 12.4") || strings.Contains(got, "\n\n2025") {
		t.Errorf("the days end with %q", got[max(0, len(got)-40):])
	}
	p.fits()
}
