//go:build !js

package e2e

import (
	"strings"
	"testing"
	"time"
)

// A driver is a browser that is only asked whether the single file works in it.
type driver interface {
	testing.TB
	load(address string)
	evaluate(script string) string // the script's value as text
	keys(text string)              // typed into whatever has the focus
	report()                       // fails the walk for errors and requests
}

func TestSmokeChromium(t *testing.T) {
	for _, f := range forms {
		for _, width := range []int{360, 1280} {
			t.Run(f.String(), func(t *testing.T) {
				p := open(t, look{form: f, width: width})
				p.typeInto("#in", "12.4 kWh")
				p.waitFor("#out", "12.4 kWh")
				p.pasteInto("#in", "Oct 3\t12.4\nOct 4\t“11,9”")
				p.waitFor("#out", "11,9")
				p.fits()
			})
		}
	}
}

func TestSmokeFirefox(t *testing.T) { smoke(t, openFirefox(t)) }

func TestSmokeWebKit(t *testing.T) { smoke(t, openWebKit(t)) }

// smoke opens the single file from disk, types, and reads the result.
func smoke(t *testing.T, d driver) {
	t.Helper()
	d.load(singleFileAddress(t))
	eventually(d, `document.documentElement.dataset.engine`, "ready")
	d.evaluate(find("#in") + `.focus()`)
	d.keys("12.4 kWh")
	eventually(d, find("#out")+`.innerText`, "12.4 kWh")
	d.report()
}

// eventually waits until a script's value holds want.
func eventually(d driver, script, want string) {
	d.Helper()
	last := ""
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if last = d.evaluate(script); strings.Contains(last, want) {
			return
		}
	}
	d.Fatalf("waited %v for %q in %s, which gives %q", patience, want, script, last)
}
