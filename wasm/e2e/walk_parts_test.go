//go:build !js

package e2e

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// A partedServer hands out the hosted page, and its engine's second part when
// it is told to: until then it keeps people waiting, or says that there is none.
type partedServer struct {
	*httptest.Server
	missing atomic.Bool
	held    atomic.Bool
}

func serveParted(t *testing.T) *partedServer {
	s := &partedServer{}
	s.held.Store(true)
	files := http.FileServer(http.Dir(packedSite(t)))
	s.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, "/engine2.") {
			if s.missing.Load() {
				http.NotFound(w, r)
				return
			}
			for s.held.Load() && r.Context().Err() == nil {
				time.Sleep(10 * time.Millisecond)
			}
		}
		files.ServeHTTP(w, r)
	}))
	t.Cleanup(s.Close)
	return s
}

func (p *page) partOfEngine(want string) {
	p.Helper()
	p.until("the second part of the engine to be "+want, func() bool { return p.attribute("html", "data-whole") == want })
}

// With its first part alone the engine compares readings and bills and keeps
// them; what was asked for besides comes with the second part.
func TestFirstPartOfTheEngine(t *testing.T) {
	s := serveParted(t)
	p := open(t, look{site: s.URL + "/", first: true})
	p.partOfEngine("loading")
	p.fillIn(1)
	p.waitFor("#findings", "Bill by bill")
	first := p.text(`[data-slot="totals"]`)
	p.waitFor("#kept", "Kept in this browser")
	p.waitKept("376")
	p.tap("#result-0-0-head")
	p.waitFor("#result-0-0", "Registration")

	p.tap(`[data-do="as-text"]`)
	p.waitFor("#page-notice", "still on its way")
	p.upload(pickFile, written(t, "shed.csv", minutes(3)))
	p.drop("#title", "dropped.json", "{}")
	p.typeInto("#title", "Typed meanwhile")
	if p.count("#text-box[hidden]") != 1 {
		t.Error("the text is shown by an engine that cannot write it")
	}

	s.held.Store(false)
	p.partOfEngine("yes")
	p.watch.settle()
	p.waitFor(fileCard, "shed.csv")
	p.until("the text", func() bool { return strings.Contains(p.value("#as-text"), "Typed meanwhile") })
	p.waitFor("#file-says", "dropped.json")
	if got := p.value("#title"); got != "Typed meanwhile" {
		t.Errorf("the title holds %q", got)
	}
	if first == "" || !strings.Contains(first, "Bill 1") && !strings.Contains(first, "The bill") {
		t.Errorf("the first table says %q", first)
	}
}

// Without its second part the page says what is lacking, works otherwise, and
// tries again when it is told to.
func TestSecondPartOfTheEngineMissing(t *testing.T) {
	s := serveParted(t)
	s.missing.Store(true)
	p := open(t, look{site: s.URL + "/", first: true})
	p.expectTrouble("404")
	p.partOfEngine("failed")
	p.fillIn(1)
	p.waitFor("#findings", "Bill by bill")
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#page-notice", "could not be had")
	if got := p.text("#page-notice"); !strings.Contains(got, "404") {
		t.Errorf("the notice gives no reason: %s", got)
	}
	p.waitFor("#kept", "Kept in this browser")

	s.missing.Store(false)
	s.held.Store(false)
	p.tap(`[data-do="fetch-rest"]`)
	p.partOfEngine("yes")
	p.watch.settle()
	p.waitFor("#findings", "Hallway monitor") // the example that was asked for
	p.until("the notice to go", func() bool { return !strings.Contains(p.text("#page-notice"), "could not be had") })
}

// What a file came to is kept in a form that only the second part reads. It is
// there when that part is, and nothing of it is lost before.
func TestFirstPartOpensKeptFile(t *testing.T) {
	s := serveParted(t)
	s.held.Store(false)
	p := open(t, look{site: s.URL + "/", first: true})
	p.partOfEngine("yes")
	p.upload(pickFile, written(t, "shed.csv", minutes(3)))
	p.waitFor(fileCard, "shed.csv")
	p.waitKept("2024-03-01 0.")

	s.held.Store(true)
	p.reload()
	p.partOfEngine("loading")
	p.typeInto("#note", "before it was there")
	p.waitKept("before it was there")
	p.waitKept("2024-03-01 0.")
	s.held.Store(false)
	p.partOfEngine("yes")
	p.watch.settle()
	p.waitFor(fileCard, "shed.csv")
	p.waitFor(fileCard, "3 days")
}
