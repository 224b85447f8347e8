//go:build !js

package e2e

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestKeep is the walk of somebody whose tab dies: what was typed is there again
// after a reload, in a second tab and after a crash, and a file carries it to
// another browser.
func TestKeep(t *testing.T) {
	for _, f := range forms {
		t.Run(f.String(), func(t *testing.T) {
			p := open(t, look{form: f})
			p.fillIn(2)
			p.choose("#monitors-1-method", "line")
			p.until("the page to keep the last change", func() bool {
				return evaluate[bool](p, `Object.values(localStorage).some((kept) => kept.includes('"line"'))`)
			})
			checkKept(t, p)

			p.reload()
			checkKept(t, p)
			second := p.again()
			checkKept(t, second)
			second.crash()
			checkKept(t, p.again())

			name, data := p.download(func() { p.tap(`[data-do="save-file"]`) })
			if !strings.HasSuffix(name, ".json") || !bytes.Contains(data, []byte(months[1].kwh)) {
				t.Errorf("saved %s, %d bytes; want a .json file with the bills", name, len(data))
			}
			path := filepath.Join(t.TempDir(), name)
			if err := os.WriteFile(path, data, 0o600); err != nil {
				t.Fatal(err)
			}
			elsewhere := open(t, look{form: f, width: 360})
			if n := elsewhere.count(`[id^="monitors-"][id$="-readings"]`); n != 1 {
				t.Errorf("a new browser shows %d monitors, want 1", n)
			}
			elsewhere.upload("#file", path)
			elsewhere.waitFor("#findings", "%")
			checkKept(t, elsewhere)
			checkBadFile(t, elsewhere)
		})
	}
}

// checkKept compares the fields with what fillIn typed.
func checkKept(t *testing.T, p *page) {
	t.Helper()
	for selector, want := range map[string]string{
		"#periods-0-from":      months[0].from,
		"#periods-1-kwh":       months[1].kwh,
		"#monitors-0-readings": dailyTotals(0),
		"#monitors-1-readings": dailyTotals(1),
		"#monitors-1-method":   "line",
	} {
		if got := p.value(selector); got != want {
			t.Errorf("%s holds %q, want %q", selector, got, want)
		}
	}
}

// checkBadFile opens a file that is none of ours: an error, and nothing changes.
func checkBadFile(t *testing.T, p *page) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "holiday.json")
	if err := os.WriteFile(path, []byte(`{"places": ["beach"]}`), 0o600); err != nil {
		t.Fatal(err)
	}
	p.upload("#file", path)
	p.until("the page to refuse a foreign file", func() bool { return p.text("#file-says") != "" })
	checkKept(t, p)
}
