//go:build !js

package e2e

import (
	"fmt"
	"strings"
	"time"
)

// Two months of an invented home, used wherever a walk needs an ordinary case.
// Each monitor lost a few days; the second reads about two per cent more than
// the first.
type month struct {
	from, to  string // the days that the bill covers, both included
	days, kwh string
}

var months = []month{
	{from: "2025-01-01", to: "2025-01-31", days: "31", kwh: "427"},
	{from: "2025-02-01", to: "2025-02-28", days: "28", kwh: "376"},
}

// dailyTotals is what the owner copied from monitor n, which is 0 or 1.
func dailyTotals(n int) string {
	var b strings.Builder
	first := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range 59 {
		if (i+3*n)%17 == 9 { // lost to a power blip
			continue
		}
		// Weekends are fuller, January is colder than February, and nothing is smooth.
		tenths := 128 + 9*((i+2)%7/5) - i/5 + (i*i*7)%23
		tenths += n * tenths / 50
		fmt.Fprintf(&b, "%s\t%d.%d\n", first.AddDate(0, 0, i).Format("2006-01-02"), tenths/10, tenths%10)
	}
	return b.String()
}

// fillIn gives the page the bills and as many monitors as are asked for.
func (p *page) fillIn(monitors int) {
	p.Helper()
	for i, m := range months {
		at := fmt.Sprintf("#periods-%d-", i)
		p.typeInto(at+"from", m.from)
		p.typeInto(at+"to", m.to)
		p.typeInto(at+"days", m.days)
		p.typeInto(at+"kwh", m.kwh)
	}
	for n := range monitors {
		if n > 0 {
			p.tap(`[data-do="add-item"][data-to="monitors"]`)
		}
		p.pasteInto(fmt.Sprintf("#monitors-%d-readings", n), dailyTotals(n))
	}
}
