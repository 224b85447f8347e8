//go:build !js

package e2e

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// minutes makes the minutes of an invented home as columns of text; a year has
// 12 MB.
func minutes(days int) []byte {
	var b bytes.Buffer
	b.WriteString("time,House\n")
	random := rand.New(rand.NewPCG(5, 60))
	day := time.Date(2024, 3, 1, 0, 0, 0, 0, time.UTC)
	for range days {
		for m := range 24 * 60 {
			kW := 0.2 + 0.6*random.Float64()
			if h := m / 60; h >= 17 && h < 22 {
				kW += 1.4
			}
			fmt.Fprintf(&b, "%s,%.4f\n", day.Add(time.Duration(m)*time.Minute).Format("2006-01-02 15:04"), kW/60)
		}
		day = day.AddDate(0, 0, 1)
	}
	return b.Bytes()
}

// packedText is a text as a .gz holds it.
func packedText(t testing.TB, data []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	if _, err := w.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// written puts a file into a folder of the walk's.
func written(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// The first monitor's part of the page, and what a file came to there.
const (
	pickFile = "#monitors-0-readings-file"
	fileCard = `[data-list="monitors"] > :nth-child(1) [data-slot="file"]`
	monitor0 = `[data-list="monitors"] > :nth-child(1)`
)

// watchTasks makes the page remember its longest task, and what the bar showed.
const watchTasks = `
	window.longest = 0;
	new PerformanceObserver((list) => { for (const e of list.getEntries()) longest = Math.max(longest, e.duration); }).observe({ type: "longtask" });
	window.bars = [];
	new MutationObserver(() => { const f = document.querySelector(".going span"); if (f && f.textContent.trim() && bars.at(-1) !== f.textContent) bars.push(f.textContent); }).observe(document.body, { subtree: true, childList: true, characterData: true });
`

// A year of minutes, from a server and from disk: the bar moves, what was found
// is told and kept, and it survives all that a page goes through.
func TestFileOfMinutes(t *testing.T) {
	path := written(t, "north shed 2024.csv", minutes(366))
	for _, f := range forms {
		t.Run(f.String(), func(t *testing.T) {
			p := open(t, look{form: f, width: 360})
			evaluate[chromedp.Void](p, watchTasks)
			p.upload(pickFile, path)
			p.waitFor(fileCard, "taken from the grid")
			if moves := evaluate[int](p, `bars.length`); moves < 1 { // a fast machine needs a fifth of a second
				t.Error("the bar never moved")
			}
			t.Logf("the longest task took %.0f ms; the bar showed %s", evaluate[float64](p, `longest`), evaluate[string](p, `bars.join(" | ")`))
			p.fits()
			for _, want := range []string{"north shed 2024.csv", "527\u202f040, one a minute", "366 days", "6953.6"} {
				p.waitFor(fileCard, want)
			}
			p.waitFor("#bar", "now a bill")
			p.waitFor("#kept", "Kept in this browser")
			p.waitKept("2024-03-01 0.")
			p.reload()
			p.waitFor(fileCard, "366 days")
			p.tap("#monitors-0-file-how-head")
			p.waitFor(fileCard, "Pick the file again")
		})
	}
}

// What was read survives a saved file, another case, the example, and being
// taken away.
func TestFileIsKept(t *testing.T) {
	p := open(t, look{form: singleFile})
	p.upload(pickFile, written(t, "barn.csv", minutes(40)))
	p.waitFor(fileCard, "40 days")
	_, saved := p.download(func() { p.tap(`[data-do="save-file"]`) })
	if !strings.Contains(string(saved), `"record": [`) || !strings.Contains(string(saved), "2024-04-09 0.") {
		t.Fatalf("the saved file lacks the hours: %.300s", saved)
	}

	p.tap(`[data-do="add-item"][data-to="monitors"]`)
	p.upload("#monitors-1-readings-file", written(t, "attic.csv", minutes(12)))
	p.waitFor(`[data-list="monitors"] > :nth-child(2)`, "12 days")
	p.tap(monitor0 + ` [data-do="remove-item"]`)
	p.waitFor(fileCard, "12 days")
	p.tap(`[data-do="bring-back"]`)
	p.waitFor(fileCard, "40 days")
	p.waitFor(`[data-list="monitors"] > :nth-child(2)`, "12 days")

	p.tap(monitor0 + ` [data-do="drop-file"]`)
	p.waitFor("#page-notice", "taken away")
	if got := p.text(fileCard); got != "" {
		t.Errorf("the card still says %s", got)
	}
	if got := evaluate[string](p, `document.activeElement.dataset.do`); got != "choose-readings" {
		t.Errorf("the focus is on %q", got)
	}
	p.tap(`[data-do="bring-back"]`)
	p.waitFor(fileCard, "40 days")

	p.tap(`[data-do="show-example"]`)
	p.waitFor("#bar", "Hallway monitor")
	if got := p.text(fileCard); strings.Contains(got, "40 days") {
		t.Errorf("the example shows one's own file: %s", got)
	}
	p.tap(`[data-do="leave-example"]`)
	p.waitFor(fileCard, "40 days")

	p.tap(`[data-do="new-case"]`)
	p.until("the file to go", func() bool { return p.text(fileCard) == "" })
	p.upload("#file", written(t, "case.json", saved))
	p.waitFor(fileCard, "40 days")
	p.until("what was opened to be kept", func() bool { return strings.Count(p.shelved(), "2024-04-09 0.") == 2 })
	if strings.Contains(p.text("body"), "inside this program") {
		t.Error("something went wrong inside")
	}
}

// A setting is a question until it is confirmed or changed; changing it reads
// the file again, and roles can be changed when the file is gone.
func TestFileSettings(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.upload(pickFile, written(t, "barn.csv", minutes(40)))
	p.waitFor(fileCard, "40 days")
	p.waitFor(fileCard, "For now")
	unit := `[data-setting="column.1.unit"]`
	p.waitKept("channel")
	before := p.shelved()
	p.choose(unit, "Wh")
	p.waitFor(fileCard, "0.76")
	p.until("the question to go", func() bool { return p.count(fileCard+` .asks [data-setting="column.1.unit"]`) == 0 })
	p.until("the hours to be kept", func() bool {
		return p.shelved() != before
	})
	p.reload()
	p.waitFor(fileCard, "40 days")
	p.choose(`[data-role="0"]`, "circuit")
	p.waitKept("channel circuit")
	p.reload()
	p.waitFor(fileCard, "40 days")
	if got := p.value(`[data-role="0"]`); got != "circuit" {
		t.Errorf("the role is %q", got)
	}
}

// Lines without a place to break at keep to the width of a phone.
func TestFileOfLongLines(t *testing.T) {
	p := open(t, look{form: singleFile, width: 320})
	var b strings.Builder
	b.WriteString("Interval beginning,Consumption of the whole house\n")
	for h := range 48 {
		fmt.Fprintf(&b, "2024-05-%02dT%02d:00:00+11:00,0.123456789\n", 1+h/24, h%24)
	}
	p.upload(pickFile, written(t, "a-name-as-long-as-exports-of-utilities-have-them_2024-05.csv", []byte(b.String())))
	p.waitFor(fileCard, "2 days")
	p.unfoldIn(fileCard)
	p.fits()
}

// A file can be stopped with the keyboard; nothing of it is taken, and what was
// there before still is. Another file for another place waits meanwhile.
func TestFileStopped(t *testing.T) {
	p := open(t, look{form: singleFile})
	p.upload(pickFile, written(t, "barn.csv", minutes(40)))
	p.waitFor(fileCard, "40 days")
	p.tap(`[data-do="add-item"][data-to="monitors"]`)
	long := written(t, "long.csv", bytes.Repeat(minutes(366), 12))
	p.upload(pickFile, long)
	p.waitFor(fileCard, "Reading “long.csv”")
	p.upload("#monitors-1-readings-file", written(t, "attic.csv", minutes(12)))
	p.waitFor(`[data-list="monitors"] > :nth-child(2)`, "waits until “long.csv” has been read")
	evaluate[chromedp.Void](p, watchTasks)
	p.typeInto("#monitors-0-name", "Typed meanwhile")
	p.until("the bar to move", func() bool { return evaluate[int](p, `bars.length`) > 3 })
	if got := p.text(fileCard); !strings.Contains(got, "Reading") {
		t.Fatalf("the file was read too soon for this walk: %s", got)
	}
	evaluate[chromedp.Void](p, find("#monitors-0-file-stop")+`.focus()`)
	p.press(kb.Enter)
	p.waitFor(fileCard, "“long.csv” was not read to its end")
	p.waitFor(fileCard, "40 days")
	p.waitFor(`[data-list="monitors"] > :nth-child(2)`, "12 days")
	if got := p.value("#monitors-0-name"); got != "Typed meanwhile" {
		t.Errorf("the name is %q", got)
	}
	// A second file for the same place takes the place of the first.
	p.upload(pickFile, long)
	p.waitFor(fileCard, "Reading “long.csv”")
	p.upload(pickFile, written(t, "shorter.csv", minutes(20)))
	p.waitFor(fileCard, "20 days")
	p.waitFor("#page-notice", "took the place")
	p.tap(`[data-do="bring-back"]`)
	p.waitFor(fileCard, "40 days")
	// Another case ends what is being read.
	p.upload(pickFile, long)
	p.waitFor(fileCard, "Reading “long.csv”")
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#bar", "Hallway monitor")
	p.frame()
	if n := p.count(".going"); n != 0 {
		t.Errorf("%d files are still being read", n)
	}
}

// A packed file is told by its first bytes and read as what is in it. Where a
// browser can't unpack, or has no streams of bytes, that is told or done without.
func TestPackedFile(t *testing.T) {
	path := written(t, "barn.data", packedText(t, minutes(120)))
	cut := packedText(t, minutes(120))
	for name, c := range map[string]struct{ before, path, want string }{
		"unpacked":              {"", path, "120 days"},
		"no unpacking":          {`delete window.DecompressionStream;`, path, "cannot unpack it"},
		"no streams of bytes":   {`delete window.ReadableStreamBYOBReader; { const get = ReadableStream.prototype.getReader; ReadableStream.prototype.getReader = function (o) { if (o) throw new TypeError("no"); return get.call(this); }; }`, path, "120 days"},
		"plain without streams": {`{ const get = ReadableStream.prototype.getReader; ReadableStream.prototype.getReader = function (o) { if (o) throw new TypeError("no"); return get.call(this); }; }`, written(t, "barn.csv", minutes(120)), "120 days"},
		"cut off":               {"", written(t, "cut.csv.gz", cut[:len(cut)/2]), "could only be read up to"},
	} {
		t.Run(name, func(t *testing.T) {
			p := open(t, look{form: singleFile, before: c.before})
			p.upload(pickFile, c.path)
			p.waitFor(fileCard, c.want)
		})
	}
}

// Points of time are turned into hours by the person's own clock, whose changes
// are found where the browser knows them; its place is told to nobody.
func TestFileOfPointsOfTime(t *testing.T) {
	p := open(t, look{form: singleFile})
	if _, err := chromedp.Call(p.ctx, emulation.SetTimezoneOverride, emulation.SetTimezoneOverrideParams{TimezoneID: "America/Chicago"}); err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	b.WriteString("unix,House (kWh)\n")
	start := time.Date(2024, 3, 9, 6, 0, 0, 0, time.UTC) // midnight there, the day before clocks go forward
	for h := range 24 + 23 + 24 {
		fmt.Fprintf(&b, "%d,0.5\n", start.Add(time.Duration(h)*time.Hour).Unix())
	}
	p.upload(pickFile, written(t, "points.csv", []byte(b.String())))
	p.waitFor(fileCard, "UTC−6, in summer UTC−5")
	p.waitFor(fileCard, "9 Mar 2024 to 11 Mar 2024, 3 days")
	_, saved := p.download(func() { p.tap(`[data-do="save-file"]`) })
	if !strings.Contains(string(saved), "2024-03-10 never:2 ") || strings.Contains(string(saved), "Chicago") {
		t.Errorf("the saved file has %s", saved)
	}
}
