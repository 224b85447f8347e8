//go:build !js

package e2e

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// A client is a browser that does what a person does, with real input.
type client interface {
	engine
	settle()               // the engine is ready: from now on nothing may be asked for
	tap(selector string)   // or click
	keys(text string)      // typed into whatever has the focus
	command(letter string) // Ctrl and a letter
	upload(selector, path string)
	handed(act func()) (name string, data []byte) // the file that the page hands out
	reload()
}

// A printer is a client that prints. WebKit's has no command for it.
type printer interface{ printed() []byte }

// clients are the three engines.
var clients = []struct {
	name string
	open func(testing.TB, look) client
}{
	{"chromium", func(t testing.TB, l look) client { return &chrome{opened(t, l)} }},
	{"firefox", func(t testing.TB, l look) client { return openFirefoxSized(t, l.width, l.height) }},
	{"webkit", func(t testing.TB, l look) client { return openWebKitSized(t, l.width, l.height) }},
}

// The same walk in three engines, on a phone and on a desktop, from a server and
// from disk. Not walked: a touch in WebKit, whose driver has none (it clicks), and
// a press of the system's own print button. What cannot be seen in an engine is
// said where it is done otherwise.
func TestWalkInThreeEngines(t *testing.T) {
	if testing.Short() {
		t.Skip("browsers are left out of short tests")
	}
	for _, engine := range clients {
		for _, size := range []look{{width: 390, height: 844}, {width: 1280, height: 800}} {
			for _, f := range forms {
				size.form = f
				t.Run(fmt.Sprintf("%s %d %v", engine.name, size.width, f), func(t *testing.T) {
					w := &walk{client: engine.open(t, size), look: size, address: singleFileAddress(t)}
					if f == hosted {
						w.server = serve(t)
						w.address = w.server.address
					}
					for _, s := range steps {
						s(w)
						if t.Failed() {
							return
						}
					}
					w.report()
				})
			}
		}
	}
}

// A walk is one way through the page.
type walk struct {
	client
	look    look
	address string
	server  *server // nil from disk
	file    string  // that was saved
	name    string  // that the page gave it
	link    string  // that the page made
}

// steps are those of the walk, in order.
var steps = []func(*walk){
	(*walk).arrive, (*walk).compare, (*walk).save, (*walk).comeBack, (*walk).openFile, (*walk).print, (*walk).linkOut, (*walk).linkIn, (*walk).loseTheLine,
}

// arrive opens the page with nothing stored.
func (w *walk) arrive() {
	w.Helper()
	w.load(w.address)
	w.ready()
	fitsIn(w, w, "the empty page")
}

// ready waits for the whole engine.
func (w *walk) ready() {
	w.Helper()
	await(w, w, `document.documentElement.dataset.engine`, "ready")
	await(w, w, `document.documentElement.dataset.whole`, "yes")
	w.settle()
}

// compare pastes the days and types the bill, and reads that 36.36 kWh are 1 %
// more than 36.
func (w *walk) compare() {
	w.Helper()
	w.paste("#monitors-0-readings", threeDays)
	for _, b := range bill {
		w.replace(b[0], b[1])
	}
	w.replace("#monitors-0-name", "Hall")
	w.verdict()
	fitsIn(w, w, "a case")
}

// verdict waits for what the days and the bill come to.
func (w *walk) verdict() {
	w.Helper()
	for _, want := range []string{"Hall", threeKWh, threeOff} {
		await(w, w, find("#findings")+`.innerText`, want)
	}
}

// save has the page hand out a file, which holds what was typed.
func (w *walk) save() {
	w.Helper()
	var data []byte
	w.name, data = w.handed(func() { w.tap(`[data-do="save-file"]`) })
	if !strings.HasSuffix(w.name, ".json") || !bytes.Contains(data, []byte("11.9")) || !bytes.Contains(data, []byte("Hall")) {
		w.Errorf("saved %s, %d bytes; want a .json file with the days and the name", w.name, len(data))
	}
	w.file = filepath.Join(w.TempDir(), w.name)
	if err := os.WriteFile(w.file, data, 0o600); err != nil {
		w.Fatal(err)
	}
}

// comeBack loads the page anew: everything is there again.
func (w *walk) comeBack() {
	w.Helper()
	await(w, w, find("#kept")+`.innerText`, "Kept in this browser")
	w.reload()
	w.ready()
	w.holds()
	w.verdict()
}

// holds compares fields with what was typed.
func (w *walk) holds() {
	w.Helper()
	for field, want := range map[string]string{"#monitors-0-readings": threeDays, "#periods-0-kwh": "36", "#monitors-0-name": "Hall"} {
		if got := w.evaluate(find(field) + `.value`); strings.TrimSpace(got) != strings.TrimSpace(want) {
			w.Errorf("%s holds %q, want %q", field, got, want)
		}
	}
}

// openFile changes the bill and then opens the file that was saved before.
func (w *walk) openFile() {
	w.Helper()
	w.replace("#periods-0-kwh", "40")
	await(w, w, find("#findings")+`.innerText`, "−9.") // 36.36 of 40
	w.upload("#file", w.file)
	await(w, w, find("#periods-0-kwh")+`.value`, "36")
	w.holds()
	w.verdict()
}

var (
	sheets  = regexp.MustCompile(`/Type\s*/Page\b`)
	streams = regexp.MustCompile(`(?s)stream\r?\n(.*?)endstream`)
)

// pages counts the pages of a PDF, of which some writers pack the list.
func pages(pdf []byte) int {
	n := len(sheets.FindAll(pdf, -1))
	for _, s := range streams.FindAllSubmatch(pdf, -1) {
		if r, err := zlib.NewReader(bytes.NewReader(s[1])); err == nil {
			text, _ := io.ReadAll(r) // a stream of another kind ends early
			n += len(sheets.FindAll(text, -1))
		}
	}
	return n
}

// print prints the paper, on two sheets at most. Where a client cannot print, the
// page is told that it is about to be, and the print sheet is used on the screen.
func (w *walk) print() {
	w.Helper()
	if p, can := w.client.(printer); can {
		pdf := p.printed()
		if n := pages(pdf); !bytes.HasPrefix(pdf, []byte("%PDF-")) || n < 1 || n > 2 {
			w.Errorf("printing gives %d pages, %.20q; want one or two", n, pdf)
		}
		return
	}
	said := w.evaluate(`(() => {
		dispatchEvent(new Event("beforeprint"));
		const rules = [...document.styleSheets].flatMap((s) => [...s.cssRules]).filter((r) => r.media && r.media.mediaText === "print");
		for (const r of rules) r.media.mediaText = "all";
		const paper = document.querySelector("#paper"), out = paper.innerText + " / " + document.querySelector("form").checkVisibility();
		for (const r of rules) r.media.mediaText = "print";
		dispatchEvent(new Event("afterprint"));
		return rules.length + " " + out + " " + paper.innerText.length;
	})()`)
	if !strings.Contains(said, threeKWh) || !strings.HasSuffix(said, "/ false 0") || strings.HasPrefix(said, "0 ") {
		w.Errorf("the print sheet shows %q", said)
	}
}

// linkOut makes a link with the names in it, which is in the clipboard then.
func (w *walk) linkOut() {
	w.Helper()
	w.tap("#with-names")
	w.tap(`[data-do="make-link"]`)
	w.tap(`[data-do="copy-link"]`)
	await(w, w, find("#link-copied")+`.innerText`, "Copied")
	w.otherProgram("")
	w.command("v")
	await(w, w, find("#other-program")+`.value`, "tally1")
	w.link = w.evaluate(find("#other-program") + `.value`)
	w.evaluate(find("#other-program") + `.remove()`)
	if got := w.evaluate(find("#link") + `.value`); got != w.link || strings.HasPrefix(w.link, w.address+"#") != (w.server != nil) {
		w.Errorf("copied %q; the page shows %q", w.link, got)
	}
}

// linkIn opens the link over another bill of one's own, reads it as a guest, and
// goes back to one's own, which is as it was.
func (w *walk) linkIn() {
	w.Helper()
	w.replace("#periods-0-kwh", "40")
	await(w, w, find("#findings")+`.innerText`, "−9.")
	if w.server != nil {
		w.load(w.link)
	} else {
		w.paste("#link-in", w.link)
		w.tap(`[data-do="open-link"]`)
	}
	await(w, w, `document.documentElement.dataset.case`, "guest")
	w.ready()
	w.verdict()
	fitsIn(w, w, "a guest")
	w.tap(`[data-do="leave-guest"]`)
	await(w, w, find("#periods-0-kwh")+`.value`, "40")
	w.replace("#periods-0-kwh", "36")
	w.verdict()
	await(w, w, find("#kept")+`.innerText`, "Kept in this browser")
}

// loseTheLine stops the server, once the browser says that it keeps a copy, and
// loads the page anew. From disk nothing is needed.
func (w *walk) loseTheLine() {
	w.Helper()
	if w.server == nil {
		return
	}
	await(w, w, `document.documentElement.dataset.offline`, "kept")
	w.server.stop()
	w.reload()
	w.ready()
	w.holds()
	w.verdict()
}
