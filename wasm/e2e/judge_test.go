//go:build !js

package e2e

import (
	"testing"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
)

// The watch judges addresses by where the page is and how far it is.
func TestWatchJudgesRequests(t *testing.T) {
	const site, file = "http://127.0.0.1:8765/", "file:///home/somebody/splittally.html"
	for _, c := range []struct {
		form    form
		home    string
		settled bool
		address string
		may     bool
	}{
		{hosted, site, false, site, true},
		{hosted, site, false, site + "engine.bin", true},
		{hosted, site, false, site + "other.js", false},
		{hosted, site, false, "http://127.0.0.1:8766/engine.bin", false},
		{hosted, site, true, site + "engine.bin", false},
		{hosted, site, true, site + "icon.svg", true},
		{hosted, site, true, site + "icon.0123456789ab.svg", true},
		{hosted, site, false, site + "engine.0123456789ab.bin", true},
		{hosted, site, true, site + "engine.0123456789ab.bin", false},
		{hosted, site, true, site + "splittally.html", false},
		{hosted, site, true, site + "sw.js", false},
		{hosted, site, true, site + "icon.svg?x=1", false},
		{hosted, site, true, "blob:" + site + "0", true},
		{singleFile, file, false, file, true},
		{singleFile, file, false, "file:///home/somebody/other.html", false},
		{singleFile, file, true, file, false},
		{singleFile, file, true, "data:image/svg+xml,x", true},
		{singleFile, file, true, "https://example.org/", false},
	} {
		w := &watch{home: c.home, form: c.form, settled: c.settled}
		w.hear(&network.EventRequestWillBeSent{Request: &network.Request{URL: c.address}})
		if may := len(w.breaches) == 0; may != c.may {
			t.Errorf("%v, engine ready %v: may ask for %s: %v, want %v", c.form, c.settled, c.address, may, c.may)
		}
		if len(w.requests) != 1 {
			t.Errorf("%s is not in the list of requests", c.address)
		}
	}
}

func TestWatchHearsTrouble(t *testing.T) {
	w := &watch{home: "file:///x.html", form: singleFile}
	for _, event := range []any{
		&runtime.EventConsoleAPICalled{Type: runtime.ConsoleAPICalledTypeError},
		&runtime.EventExceptionThrown{ExceptionDetails: &runtime.ExceptionDetails{Text: "Uncaught"}},
		&log.EventEntryAdded{Entry: &log.Entry{Level: log.EntryLevelError, Text: "violates the policy"}},
	} {
		before := len(w.trouble)
		w.hear(event)
		if len(w.trouble) != before+1 {
			t.Errorf("%T went unheard", event)
		}
	}
	w.hear(&runtime.EventConsoleAPICalled{Type: runtime.ConsoleAPICalledTypeLog})
	w.hear(&log.EventEntryAdded{Entry: &log.Entry{Level: log.EntryLevelWarning}})
	if len(w.trouble) != 3 {
		t.Errorf("heard %d errors, want 3: %q", len(w.trouble), w.trouble)
	}
	w.hear(&network.EventWebSocketCreated{URL: "ws://x"})
	w.hear(&network.EventWebTransportCreated{URL: "https://x"})
	if len(w.breaches) != 2 {
		t.Errorf("heard of %d connections, want 2: %q", len(w.breaches), w.breaches)
	}
}
