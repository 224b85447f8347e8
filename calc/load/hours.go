package load

import (
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// Day is a day of hours by the local clock.
type Day struct {
	Day   calendar.Day
	Hours [24]Hour
	// Again is the second run of hour AgainAt, if the clock was set back.
	Again   Hour
	AgainAt int8 // -1 if no hour came twice
	// IsWhole says that all of the day was measured by the hour: one that is not
	// in it never was, as the clock was set forward.
	IsWhole bool
}

// Hour is an hour of a day.
type Hour struct {
	Energy  energy.Energy // of what is covered
	Covered int32         // milliseconds; 0 if nothing is known
}

// Whole is the length of an hour in milliseconds.
const Whole = 3_600_000

// Counts says whether enough of the hour is covered to tell its power.
func (h Hour) Counts() bool { return h.Covered >= Whole/2 }

// Watts gives the mean power over the covered time, which must not be 0.
func (h Hour) Watts() float64 { return float64(h.milliwatts()) / 1000 }

// milliwatts bounds the power to what fits into a key; no home comes near.
func (h Hour) milliwatts() int64 {
	const most = 1 << 38 // 275 MW
	p := math.Round(float64(h.Energy) * 3600 / float64(h.Covered))
	return int64(math.Max(-most, math.Min(most, p)))
}

// Run gives the energy of an hour by the clock, and how much of it is covered,
// both of its runs together.
func (d *Day) Run(hour int) Hour {
	h := d.Hours[hour]
	if int(d.AgainAt) == hour {
		h.Energy = sum(h.Energy, d.Again.Energy)
		h.Covered += d.Again.Covered
	}
	return h
}

// hours adds the slots up by the hour. A slot of up to an hour that lies in two
// is split by minutes; a longer one tells of no hour and is left out.
func hours(l ledger.Ledger) []Day {
	var out []Day
	long := calendar.Day(math.MinInt32) // the last day that has a longer one
	for i := range l.Slots {
		s := &l.Slots[i]
		length := s.To - s.From
		n := len(out)
		if length <= 0 || length > 60 || s.From < 0 || s.To > 24*60 {
			if long = s.Day; n > 0 && out[n-1].Day == long {
				out[n-1].IsWhole = false
			}
			continue
		}
		if n == 0 || out[n-1].Day != s.Day {
			if out == nil {
				out = make([]Day, 0, len(l.Slots)/24+1)
			}
			out = append(out, Day{Day: s.Day, AgainAt: -1, IsWhole: l.At(s.Day).State == ledger.Measured && long != s.Day})
		}
		d := &out[len(out)-1]
		covered := int32(length)*60_000 - s.Short
		first, second := s.From/60, (s.To-1)/60
		if first == second {
			d.add(first, Hour{s.Energy, covered}, s.Again)
			continue
		}
		// Quotient and remainder apart: the product would not fit for a large energy.
		part := energy.Energy(second*60 - s.From)
		of := energy.Energy(length)
		head := Hour{s.Energy/of*part + s.Energy%of*part/of, int32(int64(covered) * int64(part) / int64(of))}
		d.add(first, head, s.Again)
		d.add(second, Hour{s.Energy - head.Energy, covered - head.Covered}, s.Again)
	}
	return out
}

// add adds a stretch to an hour. Should clocks be set back over more than one
// hour, the second runs of the others are added to the first: both power and
// energy of the hour by the clock stay true.
func (d *Day) add(hour int, h Hour, again bool) {
	if h.Covered <= 0 {
		return
	}
	to := &d.Hours[hour]
	if again {
		if d.AgainAt < 0 {
			d.AgainAt = int8(hour)
		}
		if int(d.AgainAt) == hour {
			to = &d.Again
		}
	}
	to.Energy = sum(to.Energy, h.Energy)
	to.Covered += h.Covered
}

// sum adds two energies, and stays at the end of what fits.
func sum(a, b energy.Energy) energy.Energy {
	both, err := a.Add(b)
	switch {
	case err == nil:
		return both
	case b < 0:
		return math.MinInt64 + 1
	}
	return math.MaxInt64
}

// key is a counted hour as one number, so that sorting is fast: its power in
// milliwatts above, where it is below.
type key int64

const (
	placeBits = 24
	runs      = 25 // places of a day: 24 hours, and the second run of one
)

func keyOf(h Hour, place int) key { return key(h.milliwatts()<<placeBits | int64(place)) }

func (k key) watts() float64 { return float64(k>>placeBits) / 1000 }

// place gives the index of the hour's day, and the hour by the clock.
func (k key) place(days []Day) (day, hour int) {
	at := int(k & (1<<placeBits - 1))
	day, hour = at/runs, at%runs
	if hour == 24 {
		hour = int(days[day].AgainAt)
	}
	return day, hour
}

// sorted gives the hours that count, by power. A ledger has far fewer days than
// there are places; what is beyond is left out.
func sorted(days []Day) []key {
	days = days[:min(len(days), 1<<placeBits/runs)]
	n := 0
	for i := range days {
		for h := range days[i].Hours {
			if days[i].Hours[h].Counts() {
				n++
			}
		}
		if days[i].Again.Counts() {
			n++
		}
	}
	keys := make([]key, 0, n)
	for i := range days {
		d := &days[i]
		for h := range d.Hours {
			if d.Hours[h].Counts() {
				keys = append(keys, keyOf(d.Hours[h], i*runs+h))
			}
		}
		if d.Again.Counts() {
			keys = append(keys, keyOf(d.Again, i*runs+24))
		}
	}
	slices.Sort(keys)
	return keys
}
