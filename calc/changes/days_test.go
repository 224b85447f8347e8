package changes

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/calendar"
	"splittally/calc/ledger"
	"splittally/calc/link"
)

const pasted = "From my phone:\n1 Oct 2025  12.4 kWh\n2 Oct 2025  11.9 kWh\n3 Oct 2025  -\n4 Oct 2025  10.2 kWh (away)\n5 Oct 2025  13.0 kWh\n6 Oct 2025  12.1 kWh"

func withReadings(text string) calc.Case {
	return calc.Case{Monitors: []calc.Monitor{{Name: "Upstairs clamp", Readings: text}}}
}

func TestDays(t *testing.T) {
	mine := withReadings(pasted)
	clean := link.Clean(mine, link.Options{}).Monitors[0].Readings
	replace := func(pairs ...string) string { return strings.NewReplacer(pairs...).Replace(clean) }
	for _, c := range []struct {
		name, theirs string
		want         []Item
	}{
		{"the same figures in another form", strings.ReplaceAll(pasted, " kWh", ""), nil},
		{"one day", replace("11.9", "11.2"), []Item{{"days monitors.0.readings 0 2025-10-02", "Upstairs clamp", "2 Oct 2025", "11.9 kWh", "11.2 kWh"}}},
		{"a day more", replace("2025-10-04", "2025-10-03\t9.9\n2025-10-04"), []Item{{"days monitors.0.readings 0 2025-10-03", "Upstairs clamp", "3 Oct 2025", "", "9.9 kWh"}}},
		{"a day less", replace("2025-10-06\t12.1", ""), []Item{{"days monitors.0.readings 0 2025-10-06", "Upstairs clamp", "6 Oct 2025", "12.1 kWh", ""}}},
		{"two days as one total", replace("2025-10-04\t10.2\n2025-10-05\t13.0", "2025-10-04 to 2025-10-05\t23.4"), []Item{
			{"days monitors.0.readings 0 2025-10-04", "Upstairs clamp", "4 Oct 2025 to 5 Oct 2025", "23.2 kWh in 2 days", "23.4 kWh in 2 days"},
		}},
		{"all of it", "", []Item{{"field monitors.0.readings", "Upstairs clamp", "daily totals", "59.6 kWh in 5 days", ""}}},
	} {
		theirs := withReadings(c.theirs)
		got := Between(mine, theirs)
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s: %s", c.name, diff)
		}
		taken := Take(mine, theirs, keysOf(got))
		if left := Between(taken, theirs); len(left) > 0 {
			t.Errorf("%s: all taken, and it differs: %+v", c.name, left)
		}
		if len(got) == 0 && taken.Monitors[0].Readings != pasted {
			t.Errorf("%s: nothing taken, and the text is another: %q", c.name, taken.Monitors[0].Readings)
		}
	}
}

// Of two days that differ one can be taken and the other left.
func TestOneDayOfTwo(t *testing.T) {
	mine := withReadings(pasted)
	theirs := withReadings(strings.NewReplacer("11.9", "11.2", "13.0", "14.0").Replace(pasted))
	items := Between(mine, theirs)
	if len(items) != 2 {
		t.Fatalf("%+v", items)
	}
	taken := Take(mine, theirs, []string{items[1].Key})
	want := "Day\tkWh\n2025-10-01\t12.4\n2025-10-02\t11.9\n2025-10-04\t10.2\n2025-10-05\t14.0\n2025-10-06\t12.1"
	if taken.Monitors[0].Readings != want {
		t.Errorf("got %q", taken.Monitors[0].Readings)
	}
	if left := Between(taken, theirs); len(left) != 1 || left[0].Key != items[0].Key {
		t.Errorf("left %+v", left)
	}
}

func TestManyDaysAreOneItem(t *testing.T) {
	write := func(by float64) string {
		first, _ := calendar.Date(2026, 10, 3)
		text := "Day\tkWh"
		for d := range 214 {
			text += fmt.Sprintf("\n%s\t%.1f", first+calendar.Day(d), by*(10+float64(d*7%9)))
		}
		return text
	}
	mine, theirs := withReadings(write(1)), withReadings(write(2))
	items := Between(mine, theirs)
	if len(items) != 1 || items[0].What != "214 days, 3 Oct 2026 to 4 May 2027" || items[0].Mine != "2998 kWh in 214 days" {
		t.Fatalf("%+v", items)
	}
	if left := Between(Take(mine, theirs, keysOf(items)), theirs); len(left) > 0 {
		t.Errorf("left %+v", left)
	}
}

// hours are three days hour by hour; one gives the figure of an hour.
func hours(one func(day, hour int) float64) string {
	text := "Time\tkWh"
	for d := range 3 {
		for h := range 24 {
			text += fmt.Sprintf("\n2026-03-%02d %02d:00-%02d:00\t%.2f", d+3, h, h+1, one(d, h))
		}
	}
	return text
}

// Where a day without hours is taken, the hours of the others stay.
func TestHoursOfOtherDaysStay(t *testing.T) {
	mine := withReadings(hours(func(d, h int) float64 { return 0.3 + float64((d*5+h*3)%11)/10 }))
	theirs := link.Clean(mine, link.Options{})
	if items := Between(mine, theirs); len(items) > 0 {
		t.Fatalf("%+v", items)
	}
	lines := strings.Split(theirs.Monitors[0].Readings, "\n")
	lines[2] = "2026-03-04\t25.00"
	theirs.Monitors[0].Readings = strings.Join(lines, "\n")
	items := Between(mine, theirs)
	if len(items) != 1 || items[0].What != "4 Mar 2026" || items[0].Theirs != "25 kWh" {
		t.Fatalf("%+v", items)
	}
	before, _ := link.Days(mine)
	after, _ := link.Days(Take(mine, theirs, keysOf(items)))
	for day := calendar.Day(20515); day < 20518; day++ {
		x, y := before[0][0].At(day), after[0][0].At(day)
		if day == 20516 {
			if y.Energy != 25_000_000_000 || y.State != ledger.Measured || len(after[0][0].On(day)) != 0 {
				t.Errorf("%s: %+v with %d hours", day, y, len(after[0][0].On(day)))
			}
			continue
		}
		x.Line, y.Line = 0, 0
		if diff := cmp.Diff(x, y); diff != "" || len(after[0][0].On(day)) != 24 {
			t.Errorf("%s: %d hours %s", day, len(after[0][0].On(day)), diff)
		}
	}
}

func TestHoursThatDifferAlone(t *testing.T) {
	mine := withReadings(hours(func(d, h int) float64 { return 0.5 }))
	theirs := withReadings(hours(func(d, h int) float64 {
		if d == 1 && h < 2 {
			return 0.4 + 0.2*float64(h)
		}
		return 0.5
	}))
	items := Between(mine, theirs)
	if len(items) != 1 || items[0].What != "4 Mar 2026, its hours" {
		t.Fatalf("%+v", items)
	}
	if left := Between(Take(mine, theirs, keysOf(items)), theirs); len(left) > 0 {
		t.Errorf("left %+v", left)
	}
}

func TestColumns(t *testing.T) {
	mine := withReadings("Day\tLeg A kWh\tLeg B kWh\n2025-02-03\t9.31\t5.12\n2025-02-04\t8.47\t4.90\n2025-02-05\t10.02\t5.01\n2025-02-06\t7.75\t4.41")
	theirs := withReadings(strings.Replace(mine.Monitors[0].Readings, "4.90", "4.80", 1))
	items := Between(mine, theirs)
	if len(items) != 1 || items[0].What != "4 Feb 2025, Leg B" {
		t.Fatalf("%+v", items)
	}
	if diff := cmp.Diff(theirs, Take(mine, theirs, keysOf(items))); diff != "" {
		t.Error(diff)
	}
	theirs = withReadings("Day\tkWh\n2025-02-03\t14.43")
	items = Between(mine, theirs)
	if len(items) != 1 || items[0].Mine != "Leg A 35.55 kWh in 4 days, Leg B 19.44 kWh in 4 days" {
		t.Fatalf("%+v", items)
	}
	if diff := cmp.Diff(theirs, Take(mine, theirs, keysOf(items))); diff != "" {
		t.Error(diff)
	}
}
