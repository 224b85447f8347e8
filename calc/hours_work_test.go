package calc_test

import (
	"fmt"
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// hoursAround writes a record from 1 October to 20 November 2024, an hour of
// which brings its day's number since then times ten watt-hours, plus its own
// number of watt-hours. 3 November has 25 hours: one o'clock comes twice.
func hoursAround() (text string, sum func(from, to calendar.Day, hour int) energy.Energy) {
	first, _ := calendar.Date(2024, 10, 1)
	turn, _ := calendar.Date(2024, 11, 3)
	at := func(d calendar.Day, h int) energy.Energy {
		return energy.Energy(10*int(d-first)+h) * energy.WattHour
	}
	var b strings.Builder
	b.WriteString("channel import\nrounding 0.0005\n")
	for d := first; d <= first+50; d++ {
		b.WriteString(d.String())
		if d == turn {
			b.WriteString(" twice:1")
		}
		for h := range 24 {
			fmt.Fprintf(&b, " %s", at(d, h).Decimal())
			if d == turn && h == 1 {
				fmt.Fprintf(&b, " %s", at(d, h).Decimal())
			}
		}
		b.WriteString("\n")
	}
	// From an hour of one day up to the same hour of another.
	return b.String(), func(from, to calendar.Day, hour int) (all energy.Energy) {
		for d := from; d <= to; d++ {
			for h := range 24 {
				if d == from && h < hour || d == to && h >= hour {
					continue
				}
				all += at(d, h)
				if d == turn && h == 1 {
					all += at(d, h)
				}
			}
		}
		return all
	}
}

// A period from nine to nine is the sum of those hours, to the microwatt-hour,
// whichever way its dates are counted and whether or not an end lies on the day
// of 25 hours; only a read within an hour leaves some doubt.
func TestFromHourToHour(t *testing.T) {
	text, sum := hoursAround()
	for _, c := range []struct{ from, to, hour, convention string }{
		{"2024-10-05", "2024-11-03", "9:00", "last-excluded"},
		{"2024-11-03", "2024-11-12", "9:00", "last-excluded"},
		{"2024-10-05", "2024-11-10", "21:00", "last-excluded"},
		{"2024-10-05", "2024-11-03", "21:00", "both-belong"},
	} {
		one := calc.Case{
			Monitors: []calc.Monitor{{Record: text}},
			Periods:  []billing.Period{{From: c.from, To: c.to, KWh: "300", ReadHour: c.hour, Convention: c.convention}},
		}
		f := calc.Work(one)
		if len(f.Problems) > 0 || len(f.Instruments) != 1 {
			t.Fatalf("%v: problems %v", c, f.Problems)
		}
		from, _ := calendar.ParseISO(c.from)
		to, _ := calendar.ParseISO(c.to)
		var hour int
		fmt.Sscan(c.hour, &hour)
		if c.convention == "both-belong" {
			from--
		}
		got := f.Instruments[0].Results[0].Compared.Indicated
		if want := sum(from, to, hour); got.Energy != want {
			t.Errorf("%v: %s, want %s", c, got.Energy, want)
		}
		for _, p := range got.Budget {
			if strings.HasPrefix(p.Name, "Part of") {
				t.Errorf("%v: doubt of an hour that was not cut: %+v", c, p)
			}
		}
		one.Periods[0].ReadHour = strings.Replace(c.hour, ":00", ":30", 1)
		if text := fmt.Sprint(calc.Work(one).Instruments[0].Results[0].Compared.Indicated.Budget); !strings.Contains(text, "Part of an hour cut by the read") {
			t.Errorf("%v: no doubt of the hour that was cut: %s", c, text)
		}
	}
}
