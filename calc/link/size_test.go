package link

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/gain"
	"splittally/calc/record"
	"splittally/calc/tariff"
)

// drawnDays draws days of a home as two monitors show them: use that leans on
// the day of the week and on the weather of the days before, the second monitor
// off by 1.5 % and by a little that is its own.
func drawnDays(r *rand.Rand, days, places int) (one, two string) {
	first, _ := calendar.Date(2026, 3, 3)
	var a, b strings.Builder
	weather := 0.0
	for d := range days {
		weather = 0.7*weather + 0.12*r.NormFloat64()
		kWh := 21 * (1 + weather + 0.1*r.NormFloat64())
		if day := first + calendar.Day(d); day.Weekday() == 0 || day.Weekday() == 6 {
			kWh *= 1.15
		}
		fmt.Fprintf(&a, "%s  %.*f kWh\n", (first + calendar.Day(d)).Long(), places, kWh)
		fmt.Fprintf(&b, "%s  %.*f kWh\n", (first + calendar.Day(d)).Long(), places, kWh*(1.015+0.006*r.NormFloat64()))
	}
	return a.String(), b.String()
}

// twoMonths is what the size is promised of: two months, two monitors, bills with
// their lines, checks of two legs and a simple tariff.
func twoMonths(places int) calc.Case {
	one, two := drawnDays(rand.New(rand.NewPCG(7, uint64(places))), 61, places)
	leg := func(name string, pairs ...string) gain.Leg {
		l := gain.Leg{Name: name}
		for _, p := range pairs {
			reference, monitor, _ := strings.Cut(p, " ")
			l.Pairs = append(l.Pairs, gain.Pair{Reference: reference, Monitor: monitor})
		}
		return l
	}
	lines := func(energy, fixed, tax string) []billing.Line {
		return []billing.Line{{Name: "Energy charge", Amount: energy}, {Name: "Customer charge", Amount: fixed}, {Name: "Sales tax", Amount: tax}}
	}
	return calc.Case{
		Title: "Spring", Today: "2026-05-06",
		Monitors: []calc.Monitor{{Name: "Panel clamp", Accuracy: "2", Readings: one}, {Name: "Second clamp", Accuracy: "1", Readings: two}},
		Meter:    calc.Meter{Class: "0.5"},
		Periods: []billing.Period{
			{From: "2026-03-03", To: "2026-04-02", Days: "30", KWh: "655", Lines: lines("91.70", "12.50", "5.21"), Total: "109.41", Previous: "40612", Present: "41267"},
			{From: "2026-04-02", To: "2026-05-03", Days: "31", KWh: "648", Lines: lines("90.72", "12.50", "5.16"), Total: "108.38", Previous: "41267", Present: "41915"},
		},
		Checks: gain.Checks{
			Voltmeter: gain.Accuracy{Percent: "0.8", Digits: "3"},
			Legs: []gain.Leg{
				leg("Leg A", "121.3 119.8", "121.1 119.7", "120.9 119.4"),
				leg("Leg B", "122.0 121.9", "121.8 121.6", "121.9 121.7"),
			},
		},
		Price: tariff.Flat{PerKWh: "0.14", Fixed: "12.50", Tax: "5", Currency: "USD"},
	}
}

// drawnRecord is a file of hours, in whole watt-hours.
func drawnRecord(days int) string {
	r := rand.New(rand.NewPCG(3, 3))
	c := record.Channel{Name: "House", Role: record.Import, Unit: "kWh", Rounding: 500_000, Sums: true, First: 20_000}
	level := 0.5
	for range days {
		var d record.Day
		for h := range d.Hours {
			level = 0.8*level + 0.2*(0.3+0.5*float64(h)/24) + 0.15*r.NormFloat64()
			level = max(level, 0.08)
			d.Hours[h] = record.Hour{Covered: record.Whole, Energy: energy.Energy(level*1000) * energy.WattHour}
		}
		c.Days = append(c.Days, d)
	}
	return record.Format(record.Record{Source: record.Source{File: "hours.csv", Rows: 24 * days, Step: 3600, Zone: "the wall clock, as written"}, Channels: []record.Channel{c}})
}

func TestSizes(t *testing.T) {
	year := func(places int) calc.Case {
		one, _ := drawnDays(rand.New(rand.NewPCG(5, uint64(places))), 365, places)
		return calc.Case{Monitors: []calc.Monitor{{Readings: one}}}
	}
	hours := calc.Case{Monitors: []calc.Monitor{{Record: drawnRecord(365)}}}
	for _, c := range []struct {
		what string
		c    calc.Case
		o    Options
		most int
	}{
		{"two months, two monitors, 0.1 kWh", twoMonths(1), Options{}, 700},
		{"two months, two monitors, 0.01 kWh", twoMonths(2), Options{}, 700},
		{"two months, two monitors, 0.001 kWh", twoMonths(3), Options{}, 700},
		{"the same with names", twoMonths(3), Options{Names: true}, 700},
		{"a year of one monitor, 0.1 kWh", year(1), Options{}, 2000},
		{"a year of one monitor, 0.01 kWh", year(2), Options{}, 2000},
		{"a year of one monitor, 0.001 kWh", year(3), Options{}, 2000},
		{"a year of hours from a file, days alone", hours, Options{}, 2000},
		{"a year of hours from a file", hours, Options{Hours: true}, 16000},
	} {
		n := len(Write(c.c, c.o))
		t.Logf("%5d characters: %s", n, c.what)
		if n > c.most {
			t.Errorf("%s: %d characters, want at most %d", c.what, n, c.most)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	c := twoMonths(2)
	for b.Loop() {
		Write(c, Options{})
	}
}

func BenchmarkRead(b *testing.B) {
	link := Write(twoMonths(2), Options{})
	for b.Loop() {
		if _, err := Read(link); err != nil {
			b.Fatal(err)
		}
	}
}
