//go:build !js

package e2e

import (
	"fmt"
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

// Three days of one monitor against a bill of 36 kWh for exactly those days:
// 12.4 + 11.9 + 12.06 = 36.36 kWh is 1 % more.
const (
	threeDays = "2025-10-01 12.4\n2025-10-02 11.9\n2025-10-03 12.06\n"
	threeKWh  = "36.36"
	threeOff  = "1.0"
)

// bill is the bill for the three days, by field.
var bill = [][2]string{{"#periods-0-from", "2025-10-01"}, {"#periods-0-to", "2025-10-03"}, {"#periods-0-days", "3"}, {"#periods-0-kwh", "36"}}

func TestSmokeChromium(t *testing.T) {
	for _, f := range forms {
		for _, width := range []int{360, 1280} {
			t.Run(fmt.Sprintf("%v %d", f, width), func(t *testing.T) {
				p := open(t, look{form: f, width: width})
				p.fits()
				p.pasteInto("#monitors-0-readings", threeDays)
				for _, b := range bill {
					p.typeInto(b[0], b[1])
				}
				p.waitFor("#findings", threeKWh)
				p.waitFor("#findings", threeOff)
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
	d.evaluate(find("#monitors-0-readings") + `.focus()`)
	d.keys(threeDays)
	for _, b := range bill {
		d.evaluate(find(b[0]) + `.focus()`)
		d.keys(b[1])
	}
	eventually(d, find("#findings")+`.innerText`, threeKWh)
	eventually(d, find("#findings")+`.innerText`, threeOff)
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
