package tariff

import (
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

func day(t testing.TB, text string) calendar.Day {
	t.Helper()
	d, ok := calendar.ParseISO(text)
	if !ok {
		t.Fatalf("%s is no day", text)
	}
	return d
}

// span is the days from first to last, both included.
func span(t testing.TB, first, last string) calendar.Span {
	t.Helper()
	return calendar.Span{First: day(t, first), End: day(t, last) + 1}
}

// build builds a schedule of which nothing may be wrong.
func build(t testing.TB, s Schedule) Tariff {
	t.Helper()
	b := Build(s, Options{})
	if len(b.Problems) > 0 || !b.Tariff.Given || len(b.Tariff.rows) != len(s.Rows) {
		t.Fatalf("given %v, waits for %q, problems %v, notices %v", b.Tariff.Given, b.Tariff.Waits, b.Problems, b.Notices)
	}
	return b.Tariff
}

func kWh(t testing.TB, text string) energy.Energy {
	t.Helper()
	e, exact, err := energy.FromDecimal(dec(text), energy.KilowattHour)
	if err != nil || !exact {
		t.Fatalf("%s kWh: %v", text, err)
	}
	return e
}

// whole is a period of which only the total is known.
func whole(t testing.TB, first, last, total string) Usage {
	t.Helper()
	s := span(t, first, last)
	return Usage{Span: s, Import: []Slot{{First: s.First, Last: s.Last(), To: minutesOfDay, Energy: kWh(t, total)}}}
}

// wantLines compares the amounts of a bill's lines and its total.
func wantLines(t *testing.T, p Priced, total string, lines ...string) {
	t.Helper()
	var got []string
	for _, l := range p.Lines {
		got = append(got, l.Name+" "+l.Amount.StringFixed(2))
	}
	if len(got) != len(lines) {
		t.Fatalf("lines %q, want %q", got, lines)
	}
	for i, l := range p.Lines {
		equal(t, l.Name, l.Amount, lines[i])
	}
	equal(t, "total", p.Total, total)
}
