package series

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/record"
)

// change is a change of the clock, by the clock before it.
type change struct {
	name string
	at   string
	back bool
}

// Dates of the years 2021 to 2024: the second Sunday of March and the first of
// November in the United States, the last Sundays of March and October in the
// European Union and the United Kingdom, the first Sundays of October and April
// in the south-east of Australia (from memory).
var changes = []change{
	{"American spring", "2024-03-10 02:00", false},
	{"American autumn", "2021-11-07 02:00", true},
	{"continental spring", "2024-03-31 02:00", false},
	{"continental autumn", "2023-10-29 03:00", true},
	{"British spring", "2024-03-31 01:00", false},
	{"British autumn", "2023-10-29 02:00", true},
	{"southern spring", "2023-10-01 02:00", false},
	{"southern autumn", "2024-04-07 03:00", true},
}

// reading is one with all that is true of it.
type reading struct {
	wall   int64
	offset int
	hour   int64 // by the clock, of its beginning
	again  bool  // of the second run of that hour
}

// readings gives those of two days around a change.
func (c change) readings(t *testing.T, step int64, ends, byClock bool) (rows []reading) {
	at := clock(t, c.at)
	before, after := 0, 3600
	if c.back {
		before, after = 3600, 0
	}
	turn := at - int64(before)*1000
	at -= at % dayLength
	wall := func(u int64) (int64, int) {
		if u < turn {
			return u + int64(before)*1000, before
		}
		return u + int64(after)*1000, after
	}
	for u := at - int64(before)*1000 - 6*hourMs; u < at+36*hourMs; u += step {
		begin, offset := wall(u)
		r := reading{wall: begin, offset: offset, hour: begin - begin%hourMs, again: c.back && u >= turn && u < turn+hourMs}
		if ends {
			r.wall = begin + step
			if byClock {
				r.wall, r.offset = wall(u + step)
			}
		}
		rows = append(rows, r)
	}
	return rows
}

// want adds readings up as they are known to be.
func want(rows []reading, step int64) map[string]energy.Energy {
	sums := map[string]energy.Energy{}
	for i, r := range rows {
		name := stamp(r.hour)
		if r.again {
			name += "+"
		}
		sums[name] += energy.Energy(i + 1)
	}
	return sums
}

// got gives the hours that have energy.
func got(t *testing.T, s *Sums) map[string]energy.Energy {
	t.Helper()
	sums := map[string]energy.Energy{}
	for k := range s.Channels[0] {
		d := &s.Channels[0][k]
		for h, v := range d.Hours {
			name := stamp(int64(s.First+calendar.Day(k))*dayLength + int64(h)*hourMs)
			if v.Energy != 0 {
				sums[name] = v.Energy
			}
			if d.Turn > 0 && int(d.TurnAt) == h {
				sums[name+"+"] = d.Again.Energy
				if v.Covered != record.Whole || d.Again.Covered != record.Whole {
					t.Errorf("%s covered %d and %d ms", name, v.Covered, d.Again.Covered)
				}
			}
		}
	}
	return sums
}

// TestChangesOfTheClock holds hours that come twice or never to what is true,
// with offsets and without, in every spelling that can be told apart.
func TestChangesOfTheClock(t *testing.T) {
	for _, c := range changes {
		for _, step := range []int64{5 * minute, quarter, 2 * quarter, hourMs} {
			for form := range 24 {
				ends, byClock, newest, zoned, paired := form&1 > 0, form&2 > 0, form&4 > 0, form&8 > 0, form >= 16
				if byClock && !ends || paired && (!c.back || step == hourMs || byClock) {
					continue
				}
				// 2:00, 2:00 in October may be the ends of 1 to 2 in Britain or of 2 to 3 elsewhere.
				if c.name[:7] == "British" && ends && !byClock && step == hourMs {
					continue
				}
				name := fmt.Sprintf("%s, %d minutes, ends %v, by clock %v, newest first %v, zoned %v, paired %v", c.name, step/minute, ends, byClock, newest, zoned, paired)
				t.Run(name, func(t *testing.T) {
					rows := c.readings(t, step, ends, byClock)
					wanted := want(rows, step)
					order := make([]int, len(rows))
					for i := range order {
						order[i] = i
					}
					if paired {
						sortStable(order, rows)
					}
					s := New([]Channel{{}}, Options{Step: step, Ends: ends, Zoned: zoned})
					for k := range order {
						i := order[k]
						if newest {
							i = order[len(order)-1-k]
						}
						s.Add(&Row{Wall: rows[i].wall, Offset: rows[i].offset, Line: k + 1, Figures: []int64{int64(i + 1)}, Have: 1})
					}
					sums := s.Done()
					if d := cmp.Diff(wanted, got(t, &sums)); d != "" {
						t.Error(d)
					}
					if len(sums.Gaps) > 0 {
						t.Errorf("gaps %s", gapsOf(&sums))
					}
					kind := record.ClockOn
					if c.back {
						kind = record.ClockBack
					}
					if len(sums.Oddities) != 1 || sums.Oddities[0].Kind != kind || sums.Oddities[0].Count != 1 {
						t.Errorf("oddities %s", oddities(&sums))
					}
				})
			}
		}
	}
}

// sortStable sorts the places of rows by their stamps, as a spreadsheet does.
func sortStable(order []int, rows []reading) {
	for i := range order {
		for k := i; k > 0 && rows[order[k]].wall < rows[order[k-1]].wall; k-- {
			order[k], order[k-1] = order[k-1], order[k]
		}
	}
}

// TestNoChangeOfTheClock has what looks like a change and is none.
func TestNoChangeOfTheClock(t *testing.T) {
	for _, c := range []struct{ name, lines, gaps, odds string }{
		{"an hour lost on a weekday", evenly(t, "2024-03-13 00:00", quarter, 8, 1) + evenly(t, "2024-03-13 03:00", quarter, 8, 1), "02:00:00–03:00:00", ""},
		{"an hour lost in autumn", evenly(t, "2021-11-07 00:00", quarter, 4, 1) + evenly(t, "2021-11-07 02:00", quarter, 8, 1), "01:00:00–02:00:00", ""},
		{"an hour lost at noon", evenly(t, "2024-03-10 08:00", quarter, 16, 1) + evenly(t, "2024-03-10 13:00", quarter, 8, 1), "12:00:00–13:00:00", ""},
		{"an hour again on a weekday", evenly(t, "2024-10-30 00:00", quarter, 12, 1) + evenly(t, "2024-10-30 02:00", quarter, 8, 9), "", "out-of-order 1 [13], duplicate 4 [13 14 15 16]"},
		{"one time twice", evenly(t, "2024-10-27 00:00", quarter, 9, 1) + evenly(t, "2024-10-27 02:00", quarter, 8, 9), "", "duplicate 1 [10]"},
		{"every time twice", "2024-11-03 00:30 1\n2024-11-03 00:30 1\n2024-11-03 00:45 2\n2024-11-03 00:45 2\n2024-11-03 01:00 3\n2024-11-03 01:00 3\n2024-11-03 01:15 4\n2024-11-03 01:15 4\n2024-11-03 01:30 5\n2024-11-03 01:30 5\n2024-11-03 01:45 6\n2024-11-03 01:45 6\n2024-11-03 02:00 7\n2024-11-03 02:00 7\n", "", "duplicate 7 [2 4 6 8 10 12 14]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := feed(t, Channel{}, Options{Step: quarter}, c.lines)
			if got := gapsOf(&s); got != c.gaps {
				t.Errorf("gaps %s, want %s", got, c.gaps)
			}
			if got := oddities(&s); got != c.odds {
				t.Errorf("oddities %s, want %s", got, c.odds)
			}
		})
	}
}
