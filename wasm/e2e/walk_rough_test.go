//go:build !js

package e2e

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// hostile is a text that would show itself if it ever became markup.
const hostile = `"><img src=x onerror=document.title='hit'><script>document.title='hit'</script><a href=javascript:document.title='hit'>x</a>`

// Markup and script typed into every field stay text, on the page, in the file
// and after it is opened again.
func TestHostileTextsOnThePage(t *testing.T) {
	p := open(t, look{})
	p.fillIn(2)
	everywhere := func(text string) {
		evaluate[chromedp.Void](p, `document.querySelectorAll("input[data-field]:not([type=checkbox]), textarea[data-field]").forEach((f) => {
			f.value = `+quote(text)+`;
			f.dispatchEvent(new Event("input", { bubbles: true }));
		})`)
		p.frame()
		p.unfoldAll()
	}
	check := func(when string) {
		t.Helper()
		p.waitFor("#findings", "onerror") // as text
		if n := p.count("main img, main script, main a, .on-paper img, .on-paper script, #page-notice img"); n > 0 {
			t.Errorf("%s: %d elements came out of texts", when, n)
		}
		if got := evaluate[string](p, `document.title`); got != "Split Tally" {
			t.Errorf("%s: the title became %q", when, got)
		}
	}
	everywhere(hostile)
	check("typed")
	p.pasteInto("#monitors-0-readings", dailyTotals(0)+hostile+"\n2025-03-01 "+hostile+"\n2025-03-02 12 "+hostile)
	for _, m := range []string{"from", "to", "days", "kwh"} {
		p.typeInto("#periods-0-"+m, map[string]string{"from": months[0].from, "to": months[0].to, "days": "31", "kwh": "427"}[m])
	}
	p.waitFor("#findings", "Bill by bill")
	p.unfoldAll()
	check("compared")
	_, data := p.download(func() { p.tap(`[data-do="save-file"]`) })
	p.tap(`[data-do="new-case"]`)
	path := filepath.Join(t.TempDir(), "onerror=x.json")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	p.upload("#file", path)
	p.waitFor("#page-notice", "is open")
	p.unfoldAll()
	check("opened")
}

// Two thousand lines, many of them nonsense: the page stays quick, counts them
// all and lists a part.
func TestTwoThousandLines(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	var b strings.Builder
	b.WriteString(dailyTotals(0))
	for i := range 2000 {
		day := time.Date(2025, 3, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, i).Format("2006-01-02")
		if i%8 == 0 {
			fmt.Fprintf(&b, "%s\t1x%d\n", day, i)
		} else {
			fmt.Fprintf(&b, "%s\t%d.%d\n", day, 9+i*i*7%11, i*i*3%10)
		}
	}
	p.pasteInto("#monitors-0-readings", b.String())
	p.waitFor(`[data-slot="lines"]`, "250 wrong")
	p.waitFor(`[data-slot="lines"]`, "more.")
	if n := p.count(`[data-slot="lines"] button`); n == 0 || n > 60 {
		t.Errorf("%d wrong lines are listed", n)
	}
	p.fits()
	p.typeInto("#periods-0-from", months[0].from)
	p.typeInto("#periods-0-to", months[0].to)
	p.typeInto("#periods-0-kwh", months[0].kwh)
	p.typeInto("#periods-0-days", months[0].days)
	p.waitFor("#bar", "The monitor")
	took := evaluate[float64](p, `new Promise((done) => {
		const f = `+find("#note")+`, begun = performance.now();
		f.value = "x";
		f.dispatchEvent(new Event("input", { bubbles: true }));
		requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - begun)));
	})`)
	if took > 2000 { // a bound for a page that hangs, not a measurement
		t.Errorf("a key took %v ms", took)
	}
}

// The last key counts even if the page is left at once.
func TestReloadInTheMiddleOfAWord(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.typeInto("#monitors-0-readings", "Oct 3  12.4\nOct 4  11")
	p.reload()
	if got := p.value("#monitors-0-readings"); got != "Oct 3  12.4\nOct 4  11" {
		t.Errorf("after the reload there is %q", got)
	}
}

// Files that are no case: a clear sentence, and nothing is changed.
func TestFilesThatAreNoCase(t *testing.T) {
	p := open(t, look{form: singleFile})
	p.typeInto("#title", "mine")
	dir := t.TempDir()
	for i, c := range []struct{ text, want string }{
		{"", "empty"},
		{"   \n", "empty"},
		{"null", "expected"},
		{"[1, 2]", "expected"},
		{`"text"`, "expected"},
		{`{"splittally": "99"}`, "expected"},
		{`{"splittally": "1", "monitors": "none"}`, "monitors"},
		{strings.Repeat("[", 100_000), "expected"},
		{"\xff\xfe{\x00}\x00", "expected"},
		{"<html><script>alert(1)</script></html>", "expected"},
	} {
		path := filepath.Join(dir, fmt.Sprintf("file-%d.json", i))
		if err := os.WriteFile(path, []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		p.upload("#file", path)
		p.waitFor("#file-says", filepath.Base(path))
		p.waitFor("#file-says", "Nothing was changed")
		if got := p.text("#file-says"); !strings.Contains(strings.ToLower(got), c.want) {
			t.Errorf("%.30q: %s", c.text, got)
		}
		if got := p.value("#title"); got != "mine" {
			t.Errorf("%.30q changed the title to %q", c.text, got)
		}
	}
}

// The printed page has the workings and what was typed, and stays small enough
// to be sent; afterwards the page is as before.
func TestPrintedPage(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#bar", "Hallway monitor")
	p.tap("#result-0-1-head")
	p.waitFor("#result-0-1", "Registration")
	evaluate[chromedp.Void](p, `addEventListener("beforeprint", () => {
		const typed = document.querySelector("[data-slot=inputs]").textContent;
		window.printed = [typed.includes("Hallway monitor") && typed.includes("28.82"), document.querySelectorAll("#findings details[open]").length].join(" ");
	})`)
	if got, most := len(p.pdf()), 3_000_000; got > most {
		t.Errorf("printed to a file the example has %d bytes, more than %d", got, most)
	}
	printed := evaluate[string](p, `window.printed`)
	if typed, parts, _ := strings.Cut(printed, " "); typed != "true" || len(parts) < 2 {
		t.Errorf("what was typed is printed: %s, with %s parts unfolded", typed, parts)
	}
	p.until("the workings to be folded again", func() bool { return p.count("#findings details[open]") == 1 })
	if got := p.count(`[data-slot="inputs"] > *`); got > 0 {
		t.Errorf("%d parts of the printed page are left", got)
	}
	// What stays in sight on a screen would lie over each sheet of paper.
	p.tap(`[data-do="remove-item"]`)
	p.waitFor("#page-notice", "taken away")
	p.do("looking as paper does", chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
		return err
	}))
	if got := evaluate[string](p, `[...document.querySelectorAll("body *")].filter((e) => /fixed|sticky/.test(getComputedStyle(e).position) && e.getClientRects().length).map((e) => e.id || e.outerHTML.slice(0, 80)).join(", ")`); got != "" {
		t.Errorf("on every sheet of paper: %s", got)
	}
}

// Only the example is printed as an invented home: a sheet with one's own
// figures that said so would be worth nothing to the utility.
func TestOnlyTheExamplePrintsAsInvented(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	says := func() bool {
		p.do("the print medium", chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error { return p.media(ctx, "print") }))
		return evaluate[bool](p, `getComputedStyle(document.querySelector(".when-example")).display !== "none"`)
	}
	p.fillIn(1)
	p.waitFor("#findings", "%")
	if says() {
		t.Error("one's own figures are printed as those of an invented home")
	}
	p.do("the screen", chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error { return p.media(ctx, "") }))
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#findings", "Hallway monitor")
	if !says() {
		t.Error("the example is printed as if it were somebody's home")
	}
}
