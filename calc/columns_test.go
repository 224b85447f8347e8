package calc_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/remark"
)

// days makes thirty lines of April with the parts of a day's use in columns.
func days(heading string, parts ...float64) string {
	var out strings.Builder
	if heading != "" {
		out.WriteString(heading + "\n")
	}
	for d := range 30 {
		fmt.Fprintf(&out, "2025-04-%02d", d+1)
		for _, part := range parts {
			fmt.Fprintf(&out, "\t%.2f", part*(15+float64(d%7)))
		}
		out.WriteString("\n")
	}
	return out.String()
}

// april is a home of one bill, 533 kWh, which parts that add up to 1 come to.
func april(readings ...string) calc.Case {
	c := calc.Case{Today: "2025-06-01", Periods: []billing.Period{{From: "2025-04-01", To: "2025-04-30", KWh: "533"}}}
	for _, text := range readings {
		c.Monitors = append(c.Monitors, calc.Monitor{Readings: text})
	}
	return c
}

// Columns are asked about where their names are those of legs, or where the
// bill is near their sum and far above each.
func TestColumnsThatMayBeLegs(t *testing.T) {
	for _, c := range []struct {
		name, text  string
		asked       bool
		instruments int
	}{
		{"named as legs", days("Day\tLeg A\tLeg B", 0.3, 0.3), true, 1},
		{"their sum is the bill", days("Day\tNorth\tSouth", 0.55, 0.45), true, 1},
		{"one is nearly the bill", days("Day\tHouse\tCharger", 0.8, 0.2), false, 2},
		{"their sum is not the bill", days("Day\tNorth\tSouth", 0.45, 0.35), false, 2},
		{"each is the bill", days("Day\tNorth\tSouth", 1, 1.01), false, 2},
	} {
		f := calc.Work(april(c.text))
		asked := slices.ContainsFunc(f.Questions, func(q remark.Question) bool { return q.ID == "monitors.0.columns" })
		if asked != c.asked || len(f.Instruments) != c.instruments {
			t.Errorf("%s: asked %v, %d instruments, want %v, %d", c.name, asked, len(f.Instruments), c.asked, c.instruments)
		}
	}
}

// A second instrument of the whole home has its say about the causes; one of a
// circuit has none.
func TestACircuitSaysNothingOfTheHome(t *testing.T) {
	alone := calc.Work(april(days("", 1.05))).Instruments[0].Causes
	for _, c := range []struct {
		name  string
		part  float64
		alike bool
	}{{"a circuit", 0.3, true}, {"the whole home", 0.99, false}} {
		both := calc.Work(april(days("", 1.05), days("", c.part))).Instruments[0].Causes
		if alike := cmp.Equal(alone, both); !alone.Done || alike != c.alike {
			t.Errorf("beside %s the causes are the same: %v, want %v", c.name, alike, c.alike)
		}
	}
}
