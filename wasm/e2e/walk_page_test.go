//go:build !js

package e2e

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Two months, two monitors with lost days, on a phone.
func TestTwoMonthsTwoMonitors(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.fillIn(2)
	p.typeInto("#monitors-0-name", "Hall")
	p.typeInto("#monitors-1-name", "Cellar")
	p.waitFor(`[data-slot="totals"]`, "Bill 2")
	p.waitFor("#bar", "Cellar")
	if got := p.count(`[data-slot="totals"] tbody tr`); got != 6 {
		t.Errorf("the table has %d rows, want 2 bills and 4 results", got)
	}
	if got := p.text(`[data-slot="totals"]`); !strings.Contains(got, "of 31") || !strings.Contains(got, "of 28") {
		t.Errorf("the table does not say how many days were filled: %s", got)
	}
	if got := p.count("#findings svg[role=img]"); got != 3 {
		t.Errorf("%d drawings, want two sticks and the errors", got)
	}
	p.tap("#result-0-0-head")
	p.waitFor("#result-0-0", "Registration")
	p.tap("#budget-0-0-head")
	p.waitFor("#budget-0-0", "Filled days")
	p.tap("#table-0-0-head")
	p.waitFor("#table-0-0", "filled")
	p.fits()
	// What is unfolded stays so while one types.
	p.typeInto("#periods-1-kwh", "380")
	p.waitFor(`[data-slot="totals"]`, "380")
	p.waitFor("#table-0-0", "filled")
}

func TestReloadAndCrash(t *testing.T) {
	p := open(t, look{})
	p.fillIn(1)
	p.typeInto("#note", "Ü <b> 😀\nsecond line")
	p.waitFor("#kept", "Kept in this browser")
	p.waitKept("second line")
	check := func(p *page) {
		t.Helper()
		for field, want := range map[string]string{"#note": "Ü <b> 😀\nsecond line", "#periods-1-kwh": "376", "#monitors-0-readings": dailyTotals(0)} {
			if got := p.value(field); got != want {
				t.Errorf("%s holds %q, want %q", field, got, want)
			}
		}
		p.waitFor("#findings", "Bill by bill")
	}
	p.reload()
	check(p)
	second := p.again()
	check(second)
	p.crash()
	check(second.again())
}

func TestSaveOpenBeginAnew(t *testing.T) {
	p := open(t, look{form: singleFile})
	p.fillIn(2)
	p.typeInto("#title", "Two months")
	name, data := p.download(func() { p.tap(`[data-do="save-file"]`) })
	if !strings.HasPrefix(name, "split-tally-two-months-20") || !strings.HasSuffix(name, ".json") {
		t.Errorf("the file is called %s", name)
	}
	p.tap(`[data-do="new-case"]`)
	p.waitFor("#page-notice", "new case")
	if p.value("#title") != "" || p.count(`[data-list="monitors"] > *`) != 1 {
		t.Error("something was left")
	}
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	p.typeInto("#title", "mine")
	for name, c := range map[string]struct{ text, want string }{
		"photo.json":   {"\x89PNG\r\n\x1a\n", "not JSON"},
		"foreign.json": {`{"type": "FeatureCollection"}`, "another kind"},
		"cut.json":     {string(data[:len(data)/2]), "breaks off"},
		"odd.json":     {`{"splittally": "1", "periods": [{"kilowatts": "1"}]}`, "periods.0.kilowatts"},
	} {
		p.upload("#file", write(name, c.text))
		p.waitFor("#file-says", c.want)
		p.waitFor("#file-says", "Nothing was changed")
		if got := p.value("#title"); got != "mine" {
			t.Errorf("%s changed the title to %q", name, got)
		}
	}
	p.upload("#file", write("good.json", string(data)))
	p.waitFor("#page-notice", "is open")
	if p.value("#title") != "Two months" || p.value("#monitors-1-readings") != dailyTotals(1) {
		t.Error("the file did not come back as it was saved")
	}
	p.tap(`#page-notice [data-do="open-case"]`)
	p.until("the case before", func() bool { return p.value("#title") == "mine" })
}

func TestExampleLeavesOnesOwnCase(t *testing.T) {
	p := open(t, look{width: 360})
	p.typeInto("#title", "mine")
	p.typeInto("#periods-0-kwh", "412")
	p.tap(`[data-do="show-example"]`)
	p.waitFor(".when-example", "invented home")
	p.waitFor("#bar", "Hallway monitor")
	p.typeInto("#title", "meddled with")
	p.reload()
	if p.value("#title") != "mine" || p.value("#periods-0-kwh") != "412" {
		t.Errorf("after a reload: %q, %q", p.value("#title"), p.value("#periods-0-kwh"))
	}
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#bar", "Hallway monitor")
	p.tap(`[data-do="leave-example"]`)
	p.frame()
	if p.value("#title") != "mine" || p.value("#periods-0-kwh") != "412" {
		t.Errorf("after leaving: %q, %q", p.value("#title"), p.value("#periods-0-kwh"))
	}
}

// Bills without a number of days: whether the last date belongs must be asked.
func TestQuestions(t *testing.T) {
	p := open(t, look{width: 360})
	p.pasteInto("#monitors-0-readings", dailyTotals(0))
	p.typeInto("#periods-1-from", "2025-02-01")
	p.typeInto("#periods-1-to", "2025-02-27")
	p.typeInto("#periods-1-kwh", "350")
	p.waitFor("#bar", "1 question open")
	slot := `[data-list="periods"] > :nth-child(2) [data-slot="questions"]`
	p.waitFor(slot, "taken for now")
	p.tap(slot + ` input[value="both-belong"]`)
	p.until("the question to be answered", func() bool { return !strings.Contains(p.text("#bar"), "question") })
	if strings.Contains(p.text(slot), "taken for now") || !evaluate[bool](p, find(slot+` input[value="both-belong"]`)+`.checked`) {
		t.Errorf("the answer does not show: %s", p.text(slot))
	}
	p.waitFor(`[data-slot="totals"]`, "27 days")
	// The answer goes with its bill when the one before is taken away.
	p.tap(`[data-list="periods"] > :nth-child(1) [data-do="remove-item"]`)
	p.frame()
	if got := p.value("#periods-0-kwh"); got != "350" {
		t.Errorf("the first bill now holds %q, want 350", got)
	}
	p.waitFor(`[data-slot="totals"]`, "27 days")
	if strings.Contains(p.text("#bar"), "question") {
		t.Errorf("the answer was lost: %s", p.text("#bar"))
	}
}

func TestProblemsAtTheirPlace(t *testing.T) {
	p := open(t, look{})
	p.pasteInto("#monitors-0-readings", "Date;kWh 😀\n2025-10-01;12.4\n2025-10-02;abc\n2025-10-03;11.9")
	p.typeInto("#periods-0-kwh", "4l2")
	p.waitFor("#periods-0-kwh-says", "4l2")
	if p.attribute("#periods-0-kwh", "aria-invalid") != "true" || !strings.Contains(p.attribute("#periods-0-kwh", "aria-describedby"), "periods-0-kwh-says") {
		t.Error("the message is not joined to its field")
	}
	p.tap(`[data-slot="mend"] button`)
	if got := evaluate[string](p, `document.activeElement.id`); got != "periods-0-kwh" {
		t.Errorf("the button leads to %s", got)
	}
	p.typeInto("#periods-0-kwh", "412")
	p.until("the message to go", func() bool { return p.count("#periods-0-kwh-says") == 0 })
	if p.attribute("#periods-0-kwh", "aria-invalid") != "" || p.attribute("#periods-0-kwh", "aria-describedby") != "periods-0-kwh-hint" {
		t.Error("the field still looks wrong")
	}
	wrong := `[data-list="monitors"] [data-do="select"][data-line="3"]`
	p.waitFor(wrong, "abc")
	p.tap(wrong)
	marked := `{ const f = document.activeElement; f.value.slice(f.selectionStart, f.selectionEnd) }`
	if got := evaluate[string](p, marked); got != "abc" {
		t.Errorf("%q is marked, want abc", got)
	}
}

// storedMine puts a case into the browser's storage before the page is there.
const storedMine = `localStorage.setItem("split-tally/case/1", '{"splittally": "1", "title": "kept before"}');`

// What was typed before the engine came wins, and what was kept is not lost.
func TestTypedBeforeTheEngine(t *testing.T) {
	p := open(t, look{before: storedMine + `addEventListener("DOMContentLoaded", () => { document.querySelector("#title").value = "typed at once"; });`})
	if got := p.value("#title"); got != "typed at once" {
		t.Errorf("the title is %q", got)
	}
	p.waitFor("#page-notice", "before your kept case was there")
	p.tap(`#page-notice [data-do="open-case"]`)
	p.until("the kept case", func() bool { return p.value("#title") == "kept before" })
	p.until("both in the list", func() bool { return strings.Count(p.caseNames(), ",") == 1 })
}

func TestStorageRefused(t *testing.T) {
	p := open(t, look{before: `Object.defineProperty(window, "localStorage", { get() { throw new DOMException("denied", "SecurityError"); } });`})
	p.waitFor("#kept", "keeps nothing")
	p.typeInto("#monitors-0-readings", threeDays)
	p.waitFor("#bar", "now a bill")
	p.waitFor("#kept", "could not keep it")
}

func TestDamagedStoreIsSetAside(t *testing.T) {
	p := open(t, look{before: `localStorage.setItem("split-tally/case/1", '{"splittally": "1", "title": ');`})
	p.waitFor("#page-notice", "set aside")
	_, data := p.download(func() { p.tap(`[data-do="save-aside"]`) })
	if string(data) != `{"splittally": "1", "title": ` {
		t.Errorf("set aside was %q", data)
	}
}

// A bug must show, and must not cost what was typed. Taking an element away
// that the program counts on makes one.
func TestBugIsToldAndTypingKept(t *testing.T) {
	p := open(t, look{})
	p.typeInto("#title", "precious")
	evaluate[chromedp.Void](p, `document.querySelector("#live").remove()`)
	p.typeInto("#monitors-0-readings", threeDays)
	p.until("the message to show", func() bool { return p.count("#inside-trouble:not([hidden])") == 1 })
	if got := p.value("#title"); got != "precious" {
		t.Errorf("the title is %q", got)
	}
	_, data := p.download(func() { p.tap("#inside-trouble-save") })
	if !strings.Contains(string(data), "precious") || !strings.Contains(string(data), "2025-10-02 11.9") {
		t.Errorf("the rescued file holds %s", data)
	}
	if got := p.shelved(); !strings.Contains(got, "precious") {
		t.Errorf("the browser keeps %q", got)
	}
}

// At 320 px, which is also 1280 px at 400 % zoom, nothing makes one scroll
// sideways, whatever is unfolded.
func TestNarrow(t *testing.T) {
	p := open(t, look{form: singleFile, width: 320})
	p.fits()
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#bar", "Hallway monitor")
	p.unfoldAll()
	if n := p.count("#findings details"); n < 15 {
		t.Errorf("%d parts unfolded, want at least 15", n)
	}
	p.fits()
	p.typeInto("#monitors-0-name", strings.Repeat("Unbreakablename", 5))
	p.typeInto("#periods-0-kwh", strings.Repeat("9", 60))
	p.frame()
	p.fits()
}

// unfoldAll opens every part of the page, those inside others too.
func (p *page) unfoldAll() {
	p.Helper()
	p.unfoldIn("body")
}

// unfoldIn opens every part of an element.
func (p *page) unfoldIn(selector string) {
	p.Helper()
	closed := selector + " details:not([open])"
	for before := -1; p.count(closed) != before; {
		before = p.count(closed)
		evaluate[chromedp.Void](p, `document.querySelectorAll(`+quote(closed)+`).forEach((d) => { d.open = true; })`)
		p.frame()
		p.frame()
	}
}
