package intake

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zones are the outside check of what clocks show

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// reading is the energy between two moments, in Wh.
type reading struct {
	from, to time.Time
	wh       int
}

// readings gives what was used in steps of some minutes over three local days,
// the middle one of which is given.
func readings(zone *time.Location, day string, step int) []reading {
	middle, err := time.ParseInLocation(time.DateOnly, day, zone)
	if err != nil {
		panic(err)
	}
	var out []reading
	y, m, d := middle.Date()
	end := time.Date(y, m, d+2, 0, 0, 0, 0, zone)
	for at, i := time.Date(y, m, d-1, 0, 0, 0, 0, zone), 0; at.Before(end); i++ {
		next := at.Add(time.Duration(step) * time.Minute)
		out = append(out, reading{at, next, 100 + i*611%397})
		at = next
	}
	return out
}

// slotsOf gives the slots that readings are by the clock of their zone.
func slotsOf(rs []reading) []ledger.Slot {
	var out []ledger.Slot
	seen := map[string]bool{}
	for _, r := range rs {
		y, m, d := r.from.Date()
		day, _ := calendar.Date(y, int(m), d)
		shown := r.from.Format("2006-01-02 15:04")
		from := r.from.Hour()*60 + r.from.Minute()
		out = append(out, ledger.Slot{
			Day: day, From: from, To: from + int(r.to.Sub(r.from).Minutes()),
			Energy: energy.Energy(r.wh) * energy.WattHour, Again: seen[shown],
		})
		seen[shown] = true
	}
	return out
}

// clockManners are the ways to write readings, a text of each.
var clockManners = map[string]func(rs []reading) string{
	"starts": func(rs []reading) string {
		return lined("start,kWh", rs, func(r reading) string { return shown(r.from) + "," + thousandths(r.wh) })
	},
	"starts, latest first": func(rs []reading) string {
		turned := slices.Clone(rs)
		slices.Reverse(turned)
		return lined("start,kWh", turned, func(r reading) string { return shown(r.from) + "," + thousandths(r.wh) })
	},
	"starts with offsets": func(rs []reading) string {
		return lined("start,kWh", rs, func(r reading) string { return r.from.Format(time.RFC3339) + "," + thousandths(r.wh) })
	},
	"ends": func(rs []reading) string {
		return lined("interval end,kWh", rs, func(r reading) string { return shown(r.to) + "," + thousandths(r.wh) })
	},
	"ends with offsets": func(rs []reading) string {
		return lined("interval end,kWh", rs, func(r reading) string { return r.to.Format(time.RFC3339) + "," + thousandths(r.wh) })
	},
	"starts and ends": func(rs []reading) string {
		return lined("from,to,kWh", rs, func(r reading) string { return shown(r.from) + "," + shown(r.to) + "," + thousandths(r.wh) })
	},
	"mean powers": func(rs []reading) string {
		return lined("start,kW", rs, func(r reading) string {
			return shown(r.from) + "," + thousandths(r.wh*60/int(r.to.Sub(r.from).Minutes()))
		})
	},
	"register": func(rs []reading) string { return reads("time,meter reading kWh", rs) },
	// A read is of its moment, whatever the heading says of ends.
	"register by ends": func(rs []reading) string { return reads("interval end,meter reading kWh", rs) },
	"since midnight": func(rs []reading) string {
		sum, day := 0, 0
		return lined("time,kWh today", rs, func(r reading) string {
			if r.from.Day() != day {
				sum, day = 0, r.from.Day()
			}
			sum += r.wh
			return shown(r.to) + "," + thousandths(sum)
		})
	},
}

// reads writes what a register showed at the beginning of each reading, and at
// the end of the last.
func reads(heading string, rs []reading) string {
	read := 8_400_000
	return lined(heading, append(slices.Clone(rs), reading{from: rs[len(rs)-1].to}), func(r reading) string {
		read += r.wh
		return shown(r.from) + "," + thousandths(read-r.wh)
	})
}

func lined(heading string, rs []reading, line func(reading) string) string {
	var out strings.Builder
	out.WriteString(heading + "\n")
	for _, r := range rs {
		out.WriteString(line(r) + "\n")
	}
	return out.String()
}

func shown(t time.Time) string { return t.Format("2006-01-02 15:04") }

func thousandths(n int) string { return fmt.Sprintf("%d.%03d", n/1000, n%1000) }

func zoneOf(t *testing.T, name string) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

// TestSlotsByTheClock writes days on which clocks are changed in every manner
// and wants each stretch where the zone's clock has it.
func TestSlotsByTheClock(t *testing.T) {
	for _, c := range []struct{ zone, day string }{
		{"Europe/Berlin", "2024-01-17"},
		{"Europe/Berlin", "2024-03-31"},
		{"Europe/Berlin", "2024-10-27"},
		{"America/New_York", "2024-03-10"},
		{"America/New_York", "2024-11-03"},
		{"Australia/Sydney", "2024-04-07"},
		{"Australia/Sydney", "2024-10-06"},
	} {
		for _, step := range []int{15, 30, 60} {
			rs := readings(zoneOf(t, c.zone), c.day, step)
			for manner, text := range clockManners {
				t.Run(fmt.Sprintf("%s %s, %d minutes, %s", c.zone, c.day, step, manner), func(t *testing.T) {
					r := Read(text(rs), Options{Path: "m"})
					if len(r.Ledgers) != 1 || len(r.Problems) > 0 || r.Ledgers[0].Count(r.Ledgers[0].Span(), ledger.Measured) != 3 {
						t.Fatalf("not three measured days\n%s", printed(r))
					}
					checkSlots(t, r.Ledgers[0])
					if d := cmp.Diff(slotsOf(rs), r.Ledgers[0].Slots); d != "" {
						t.Error(d)
					}
				})
			}
		}
	}
}

// checkSlots checks what holds of the slots of every ledger.
func checkSlots(t interface {
	Helper()
	Fatalf(string, ...any)
}, l ledger.Ledger,
) {
	t.Helper()
	for i, s := range l.Slots {
		if s.From < 0 || s.To <= s.From || s.To > min(dayLength, s.From+longestSlot) {
			t.Fatalf("no stretch of a day: %+v", s)
		}
		if i == 0 {
			continue
		}
		if b := l.Slots[i-1]; s.Day < b.Day || s.Day == b.Day && s.From < b.To && !s.Again {
			t.Fatalf("out of order: %+v, %+v", b, s)
		}
	}
	for i, e := range l.Days {
		day := l.First + calendar.Day(i)
		sum := energy.Energy(0)
		for _, s := range l.On(day) {
			sum += s.Energy
		}
		switch e.State {
		case ledger.Measured:
			if len(l.On(day)) > 0 && sum != e.Energy {
				t.Fatalf("%s: slots of %s, the day has %s", day, sum.Decimal(), e.Energy.Decimal())
			}
		case ledger.Partial:
		default:
			if len(l.On(day)) > 0 {
				t.Fatalf("%s has slots, but is in state %d", day, e.State)
			}
		}
	}
}

// TestSlotsAddUp leaves lines out of texts of any days in any manner.
func TestSlotsAddUp(t *testing.T) {
	zones := []string{"Europe/Berlin", "Europe/London", "Europe/Helsinki", "America/New_York", "America/Los_Angeles", "Australia/Lord_Howe", "Asia/Tokyo"}
	manners := make([]string, 0, len(clockManners))
	for m := range clockManners {
		manners = append(manners, m)
	}
	slices.Sort(manners)
	rapid.Check(t, func(t *rapid.T) {
		zone, err := time.LoadLocation(rapid.SampledFrom(zones).Draw(t, "zone"))
		if err != nil {
			t.Fatal(err)
		}
		day := time.Date(2023, 1, 1+rapid.IntRange(0, 1000).Draw(t, "day"), 0, 0, 0, 0, time.UTC)
		if rapid.Bool().Draw(t, "Sunday") {
			day = day.AddDate(0, 0, (7-int(day.Weekday()))%7)
		}
		rs := readings(zone, day.Format(time.DateOnly), rapid.SampledFrom([]int{5, 15, 30, 60, 120}).Draw(t, "minutes"))
		whole := len(rs)
		for range rapid.IntRange(0, 4).Draw(t, "times that lines are left out") {
			at := rapid.IntRange(0, len(rs)-1).Draw(t, "from")
			rs = slices.Delete(rs, at, min(len(rs), at+rapid.IntRange(1, 20).Draw(t, "lines")))
			if len(rs) < whole/2 {
				return
			}
		}
		manner := rapid.SampledFrom(manners).Draw(t, "manner")
		for _, l := range Read(clockManners[manner](rs), Options{Path: "m"}).Ledgers {
			checkSlots(t, l)
		}
	})
}
