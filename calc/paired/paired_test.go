package paired

import (
	"math"
	"slices"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

const from = calendar.Day(19000)

// pair makes ledgers of an invented home of so many days, whose monitor reads 1 %
// high and scatters by 0.5 %, after a change of its hours.
func pair(seed uint64, days, places int, slots bool, change func(true_, hours []float64)) (monitor, meter ledger.Ledger) {
	h := invent(seed, days)
	hours := seen(h.hours, 1.01, 0, 0.005, 0, false, seed)
	if change != nil {
		change(h.hours, hours)
	}
	return ledgerOf(h.first, hours, places, slots), ledgerOf(h.first, h.hours, places, slots)
}

func day(hours []float64, d int) []float64 { return hours[24*d : 24*d+24] }

func TestDaysThatDisagree(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(true_, hours []float64)
		want   map[int]Kind // by day
	}{
		{"none", nil, nil},
		{"nothing counted", func(_, h []float64) { clear(day(h, 20)) }, map[int]Kind{20: Nothing}},
		{"twice", func(_, h []float64) {
			for i := range day(h, 31) {
				day(h, 31)[i] *= 2
			}
		}, map[int]Kind{31: Doubled}},
		{"half lost", func(_, h []float64) { clear(day(h, 12)[12:]) }, map[int]Kind{12: LacksPart}},
		{"the meter's record lacks the evening", func(h, _ []float64) { clear(day(h, 40)[17:23]) }, map[int]Kind{40: MeterPart}},
		{"two days swapped", func(_, h []float64) {
			a := slices.Clone(day(h, 15))
			copy(day(h, 15), day(h, 18))
			copy(day(h, 18), a)
		}, map[int]Kind{15: Swapped, 18: Swapped}},
		{"a week a day late", func(_, h []float64) {
			for d := 40; d > 30; d-- {
				copy(day(h, d), day(h, d-1))
			}
		}, map[int]Kind{32: Shifted, 33: Shifted, 34: Shifted}},
		{"an evening in the day after", func(_, h []float64) {
			for k := 16; k < 24; k++ {
				day(h, 23)[k-16] += day(h, 22)[k]
				day(h, 22)[k] = 0
			}
		}, map[int]Kind{22: Moved, 23: Moved}},
	} {
		t.Run(c.name, func(t *testing.T) {
			monitor, meter := pair(3, 60, 3, true, c.change)
			r, _ := Compare(monitor, meter, Options{Confidence: 0.95})
			got := map[int]Odd{}
			for _, o := range r.Odd {
				got[int(o.Day.Day-from)] = o
			}
			for d, kind := range c.want {
				if got[d].Kind != kind {
					t.Errorf("day %d is %q, want %q; %+v", d, got[d].Kind, kind, got[d])
				}
			}
			if c.name != "a week a day late" && len(got) != len(c.want) {
				t.Errorf("%d days disagree, want %d: %+v", len(got), len(c.want), r.Odd)
			}
			if math.Abs(r.Percent.Value-1) > r.Percent.Expanded+0.1 {
				t.Errorf("usual error %+v, want 1 %%", r.Percent)
			}
		})
	}
}

// The hours that are lost are told, and the day that caught up.
func TestWhatOddDaysLackIsTold(t *testing.T) {
	monitor, meter := pair(3, 60, 3, true, func(_, h []float64) { clear(day(h, 12)[9:15]) })
	r, _ := Compare(monitor, meter, Options{Confidence: 0.95})
	if len(r.Odd) != 1 || !slices.Equal(r.Odd[0].Hours, []int{9, 10, 11, 12, 13, 14}) {
		t.Errorf("%+v", r.Odd)
	}
	monitor, meter = pair(5, 60, 2, false, nil)
	lost := monitor.Days[29].Energy
	monitor.Days[29] = ledger.Entry{}
	monitor.Days[30].Energy += lost
	r, _ = Compare(monitor, meter, Options{Confidence: 0.95})
	if len(r.Odd) != 1 || r.Odd[0].Kind != CatchUp || r.Odd[0].With != from+29 {
		t.Errorf("%+v", r.Odd)
	}
}

// One record beside itself has no error, no scatter and no day that disagrees;
// nor has it if one side is rounded to tenths.
func TestOneRecordBesideItself(t *testing.T) {
	h := invent(8, 50)
	fine := ledgerOf(h.first, h.hours, 3, true)
	coarse := ledgerOf(h.first, h.hours, 1, false)
	for _, l := range []ledger.Ledger{fine, coarse} {
		r, _ := Compare(l, fine, Options{Confidence: 0.95})
		if len(r.Odd) > 0 || r.Weekdays.Shows || r.Cut.Known || r.Drift.Shows() && math.Abs(r.Drift.Value) > 0.1 || math.Abs(r.Percent.Value) > 0.1 {
			t.Errorf("%+v", r)
		}
		if r.Lag.Hours != 0 {
			t.Errorf("lag %+v", r.Lag)
		}
	}
	r, _ := Compare(fine, fine, Options{Confidence: 0.95})
	if r.Monitor != r.Meter || r.Percent.Value != 0 || r.Percent.Expanded != 0 || r.Scatter != 0 {
		t.Errorf("%+v", r)
	}
}

// A clock that is off shows by the hours, and the way it is off.
func TestHoursApart(t *testing.T) {
	for _, by := range []int{-8, -1, 1, 2, 12} {
		monitor, meter := pair(9, 40, 3, true, func(_, h []float64) {
			c := slices.Clone(h)
			for i := range h { // what happened at i is stamped by hours earlier
				h[i] = c[min(len(c)-1, max(0, i+by))]
			}
		})
		r, _ := Compare(monitor, meter, Options{Confidence: 0.95})
		if !r.Lag.Known || r.Lag.Hours != float64(by) || r.Lag.Left > 0.3 || len(r.Lag.Months) > 0 {
			t.Errorf("by %d hours: %+v", by, r.Lag)
		}
	}
	monitor, meter := pair(9, 40, 3, true, func(_, h []float64) {
		c := slices.Clone(h)
		for i := range len(h) - 1 {
			h[i] = (c[i] + c[i+1]) / 2
		}
	})
	if r, _ := Compare(monitor, meter, Options{Confidence: 0.95}); r.Lag.Hours != 0.5 {
		t.Errorf("half an hour: %+v", r.Lag)
	}
	monitor, meter = pair(9, 200, 3, true, func(_, h []float64) {
		for i := 24 * 100; i < len(h)-1; i++ {
			h[i] = h[i+1]
		}
	})
	if r, _ := Compare(monitor, meter, Options{Confidence: 0.95}); len(r.Lag.Months) < 6 || r.Lag.Months[0].Hours != 0 || r.Lag.Months[5].Hours != 1 {
		t.Errorf("a clock that is not changed: %+v", r.Lag)
	}
}

// Without hours the days themselves show that they are cut apart, if the part cut
// off holds much of a day's energy: six hours of the evening hold half of it.
func TestDaysCutApart(t *testing.T) {
	for by, part := range map[int]float64{-24: -1, -6: -0.5, 24: 1} {
		monitor, meter := pair(10, 60, 2, false, func(_, h []float64) {
			c := slices.Clone(h)
			for i := range h {
				h[i] = c[min(len(c)-1, max(0, i+by))]
			}
		})
		r, _ := Compare(monitor, meter, Options{Confidence: 0.95})
		if !r.Cut.Known || math.Abs(r.Cut.Value-part) > 0.15 {
			t.Errorf("by %d hours: %+v", by, r.Cut)
		}
	}
}

func TestDriftAndWeekends(t *testing.T) {
	monitor, meter := pair(11, 120, 2, false, func(_, h []float64) {
		for i := range h {
			h[i] *= 1 + 0.01*float64(i)/24/30 // 1 % a month
		}
	})
	r, _ := Compare(monitor, meter, Options{Confidence: 0.95})
	if !r.Drift.Shows() || math.Abs(r.Drift.Value-1.01) > r.Drift.Expanded {
		t.Errorf("drift %+v", r.Drift)
	}
	monitor, meter = pair(12, 60, 2, false, func(_, h []float64) {
		for i := range h {
			if w := (from + calendar.Day(i/24)).Weekday(); w == 0 {
				h[i] *= 0.98
			}
		}
	})
	r, _ = Compare(monitor, meter, Options{Confidence: 0.95})
	if !r.Weekdays.Shows || r.Weekdays.Off[0] > -0.1 {
		t.Errorf("weekdays %+v", r.Weekdays)
	}
}

func TestTooFewDays(t *testing.T) {
	monitor, meter := pair(13, 30, 2, false, nil)
	short := ledger.Ledger{First: meter.First + 28, Days: meter.Days[28:]}
	if _, done := Compare(monitor, short, Options{Confidence: 0.95}); done {
		t.Error("two days compared")
	}
	r, done := Compare(monitor, ledger.Ledger{First: meter.First + 25, Days: meter.Days[25:]}, Options{Confidence: 0.95})
	if !done || len(r.Days) != 5 || r.Drift.Known || r.Weekdays.Known || r.Lag.Known {
		t.Errorf("%+v", r)
	}
	var zero ledger.Ledger
	for d := range calendar.Day(40) {
		zero.Put(from+d, ledger.Entry{State: ledger.Measured})
	}
	if r, _ := Compare(monitor, zero, Options{Confidence: 0.95}); r.Percent.Known {
		t.Errorf("a percentage of nothing: %+v", r.Percent)
	}
	if r, _ := Compare(zero, zero, Options{Confidence: 0.95}); r.Monitor != energy.Energy(0) || len(r.Odd) > 0 {
		t.Errorf("nothing beside nothing: %+v", r)
	}
}

func BenchmarkYearOfHours(b *testing.B) {
	monitor, meter := pair(3, 365, 3, true, nil)
	for b.Loop() {
		Compare(monitor, meter, Options{Confidence: 0.95})
	}
}
