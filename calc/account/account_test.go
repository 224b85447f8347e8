package account

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/tariff"
)

func day(t testing.TB, text string) calendar.Day {
	t.Helper()
	d, ok := calendar.ParseISO(text)
	if !ok {
		t.Fatalf("%s is no day", text)
	}
	return d
}

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func energyOf(t testing.TB, kWh string) energy.Energy {
	t.Helper()
	e, exact, err := energy.FromDecimal(dec(kWh), energy.KilowattHour)
	if err != nil || !exact {
		t.Fatalf("%s kWh: %v", kWh, err)
	}
	return e
}

// whole is a period of which the total alone is known.
func whole(t testing.TB, first, last, kWh string) tariff.Usage {
	t.Helper()
	span := calendar.Span{First: day(t, first), End: day(t, last) + 1}
	return tariff.Usage{Span: span, Import: []tariff.Slot{{First: span.First, Last: span.Last(), To: dayMinutes, Energy: energyOf(t, kWh)}}}
}

// even is a period of days with the same energy.
func even(t testing.TB, first, last, each string) tariff.Usage {
	t.Helper()
	u := tariff.Usage{Span: calendar.Span{First: day(t, first), End: day(t, last) + 1}}
	for d := u.Span.First; d < u.Span.End; d++ {
		u.Import = append(u.Import, tariff.Slot{First: d, Last: d, To: dayMinutes, Energy: energyOf(t, each)})
	}
	return u
}

func build(t testing.TB, s tariff.Schedule) tariff.Tariff {
	t.Helper()
	b := tariff.Build(s, tariff.Options{})
	if len(b.Problems) > 0 {
		t.Fatalf("problems %v", b.Problems)
	}
	return b.Tariff
}

// lines reads "name = amount" lines.
func lines(text string) (list []billing.Line) {
	for _, l := range strings.Split(strings.Trim(text, "\n"), "\n") {
		name, amount, _ := strings.Cut(l, "=")
		list = append(list, billing.Line{Name: strings.TrimSpace(name), Amount: strings.TrimSpace(amount)})
	}
	return list
}

// rebuilt rebuilds a bill of a schedule.
func rebuilt(t testing.TB, s tariff.Schedule, u tariff.Usage, printed, total, solve string) Account {
	t.Helper()
	b := Bill{Path: "periods.0", Usage: u, Total: total, Solve: solve, Schedule: s}
	if printed != "" {
		b.Printed = lines(printed)
	}
	return Rebuild(build(t, s), b)
}

func equal(t testing.TB, what string, got decimal.Decimal, want string) {
	t.Helper()
	if !got.Equal(dec(want)) {
		t.Errorf("%s is %s, want %s", what, got, want)
	}
}

// show writes the pairs a line each, so that a table can hold them.
func show(a Account) string {
	var list []string
	for _, p := range a.Pairs {
		text := p.Name + ": "
		if p.HasPrinted {
			text += p.Printed.StringFixed(2)
		} else {
			text += "-"
		}
		if p.Line < 0 {
			text += " / -"
		} else {
			text += " / " + p.Computed.StringFixed(2)
		}
		if p.HasPrinted && p.Line >= 0 && !p.IsEqual {
			text += " off " + p.Off.StringFixed(2)
		}
		list = append(list, text)
	}
	return strings.Join(list, "\n")
}

// reasonOf gives the reason of the pair of that name.
func reasonOf(t testing.TB, a Account, name string) Pair {
	t.Helper()
	for _, p := range a.Pairs {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no pair %q in\n%s", name, show(a))
	return Pair{}
}

func hour(d calendar.Day, h int, e energy.Energy) tariff.Slot {
	return tariff.Slot{First: d, Last: d, From: h * 60, To: h*60 + 60, Energy: e}
}
