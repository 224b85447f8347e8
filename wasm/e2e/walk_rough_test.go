//go:build !js

package e2e

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

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
		if n := p.count("main img, main script, main a, #paper img, #paper script, #page-notice img"); n > 0 {
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
