package interval_test

import (
	"math/rand/v2"
	"time"

	"splittally/calc/record"
	"splittally/calc/zone"
)

// formsHome is an invented home with one clock: what its meter would have shown
// is known for every interval.
type formsHome struct {
	clock    zone.Rules
	from, to int64 // Unix seconds
	step     int64 // seconds
	turns    bool  // a clock is changed within
}

// at gives the time by the wall clock, in seconds since 1970-01-01.
func (h *formsHome) at(unix int64) int64 {
	offset, _, _ := h.clock.At(unix)
	return unix + int64(offset)
}

// again says whether the clock shows an hour for the second time, and nearTurn
// whether it was changed or will be within some hours.
func (h *formsHome) again(unix int64) bool {
	before := h.clock.Before
	for _, c := range h.clock.Changes {
		if unix >= c.At && unix < c.At+int64(before-c.Offset) {
			return true
		}
		before = c.Offset
	}
	return false
}

func (h *formsHome) nearTurn(unix, hours int64) bool {
	for _, c := range h.clock.Changes {
		if unix > c.At-hours*3600 && unix < c.At+hours*3600 {
			return true
		}
	}
	return false
}

// summer is when clocks are changed: on the nth Sunday of a month (−1 the last),
// at so many seconds after midnight of the standard clock.
type summer struct {
	offset      int
	on, onNth   int
	onAt        int
	off, offNth int
	offAt       int // by the standard clock as well
}

// Clocks of both halves of the world, of public knowledge (from memory).
var summers = []summer{
	{offset: 0, on: 3, onNth: -1, onAt: 1, off: 10, offNth: -1, offAt: 1},
	{offset: 3600, on: 3, onNth: -1, onAt: 2, off: 10, offNth: -1, offAt: 2},
	{offset: 7200, on: 3, onNth: -1, onAt: 3, off: 10, offNth: -1, offAt: 3},
	{offset: -5 * 3600, on: 3, onNth: 2, onAt: 2, off: 11, offNth: 1, offAt: 1},
	{offset: -8 * 3600, on: 3, onNth: 2, onAt: 2, off: 11, offNth: 1, offAt: 1},
	{offset: 10 * 3600, on: 10, onNth: 1, onAt: 2, off: 4, offNth: 1, offAt: 2},
	{offset: 34_200, on: 10, onNth: 1, onAt: 2, off: 4, offNth: 1, offAt: 2},
	{offset: 12 * 3600, on: 9, onNth: -1, onAt: 2, off: 4, offNth: 1, offAt: 2},
}

func sunday(year, month, nth int) int64 {
	d := time.Date(year, time.Month(month), 1, 0, 0, 0, 0, time.UTC)
	if nth < 0 {
		d = d.AddDate(0, 1, -7)
		nth = 1
	}
	d = d.AddDate(0, 0, (7-int(d.Weekday()))%7+7*(nth-1))
	return d.Unix()
}

// rules gives the changes of the years around one.
func (s summer) rules(year int) (z zone.Rules) {
	z.Name = "the home's clock"
	for y := year - 1; y <= year+1; y++ {
		on := zone.Change{At: sunday(y, s.on, s.onNth) + int64(s.onAt*3600-s.offset), Offset: s.offset + 3600}
		off := zone.Change{At: sunday(y, s.off, s.offNth) + int64(s.offAt*3600-s.offset), Offset: s.offset}
		if on.At < off.At {
			z.Changes = append(z.Changes, on, off)
		} else {
			z.Changes = append(z.Changes, off, on)
		}
	}
	z.Before = s.offset
	if z.Changes[0].Offset == s.offset {
		z.Before += 3600
	}
	return z
}

// drawHome draws a home, its clock, its spacing and a span of 2 to 60 days with
// at most some thousand readings.
func drawHome(r *rand.Rand) *formsHome {
	h := &formsHome{step: []int64{60, 120, 300, 300, 600, 900, 900, 900, 1800, 1800, 3600, 3600, 3600, 3600, 7200}[r.IntN(15)]}
	year := 2015 + r.IntN(12)
	if r.IntN(4) > 0 {
		h.clock = summers[r.IntN(len(summers))].rules(year)
	} else {
		h.clock = zone.Rules{Name: "the home's clock", Before: []int{0, 19_800, -10_800, 28_800}[r.IntN(4)]}
	}
	days := int64(2 + r.IntN(min(59, int(4000*h.step/86_400))))
	h.turns = len(h.clock.Changes) > 0 && h.step <= 3600 && r.IntN(2) == 0
	day := int64(r.IntN(365))*86_400 + time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC).Unix()
	if h.turns {
		c := h.clock.Changes[2+r.IntN(2)]
		day = (c.At+int64(c.Offset))/86_400*86_400 - int64(1+r.IntN(int(days)-1))*86_400
	}
	h.from, h.to = h.unix(day), h.unix(day+days*86_400)
	if r.IntN(4) == 0 {
		h.from += int64(r.IntN(20)) * max(3600, h.step)
	}
	if r.IntN(4) == 0 {
		h.to -= int64(r.IntN(20)) * max(3600, h.step)
	}
	for _, c := range h.clock.Changes {
		if c.At > h.from && c.At < h.to {
			if h.step > 3600 {
				h.step = 3600
			}
			h.turns = true
		}
	}
	h.turns = h.turns && (h.at(h.to)-h.to != h.at(h.from)-h.from)
	return h
}

// unix turns a time of the wall clock into Unix time, away from changes.
func (h *formsHome) unix(wall int64) int64 {
	u := wall - int64(h.clock.Before)
	for range 3 {
		offset, _, _ := h.clock.At(u)
		u = wall - int64(offset)
	}
	return u
}

// formsHour is the truth of an hour. num is in µWh / 3600, which power over
// seconds gives exactly.
type formsHour struct {
	num     int64
	covered int64 // seconds
	shared  bool  // in part an even share of something longer
	loose   bool  // whatever a reading here is worth: a register began anew
}

// formsSpan is what one reading covers, with its energy in µWh / 3600.
type formsSpan struct {
	from, to int64
	num      int64
	loose    bool
}

// hourKey names an hour of the wall clock; the last bit says its second run.
func (h *formsHome) hourKey(unix int64) int64 {
	k := (h.at(unix) - (h.at(unix)%3600+3600)%3600) / 3600 * 2
	if h.again(unix) {
		k++
	}
	return k
}

// hours adds spans up by hours of the wall clock.
func (h *formsHome) hours(spans []formsSpan) map[int64]*formsHour {
	sums := map[int64]*formsHour{}
	for _, s := range spans {
		for u := s.from; u < s.to; {
			next := min(s.to, u+3600-(h.at(u)%3600+3600)%3600)
			k := h.hourKey(u)
			x := sums[k]
			if x == nil {
				x = &formsHour{}
				sums[k] = x
			}
			if u == s.from && next == s.to {
				x.num += s.num
			} else {
				x.num += int64(float64(s.num) / float64(s.to-s.from) * float64(next-u))
				x.shared = true
			}
			x.covered += next - u
			x.loose = x.loose || s.loose
			u = next
		}
	}
	return sums
}

// formsGaps are the stretches that no channel covers.
func formsGaps(channels [][]formsSpan) (gaps [][2]int64) {
	at := make([]int, len(channels))
	var end int64
	for {
		best := -1
		for c, i := range at {
			if i < len(channels[c]) && (best < 0 || channels[c][i].from < channels[best][at[best]].from) {
				best = c
			}
		}
		if best < 0 {
			return gaps
		}
		s := channels[best][at[best]]
		if end != 0 && s.from > end {
			gaps = append(gaps, [2]int64{end, s.from})
		}
		end = max(end, s.to)
		at[best]++
	}
}

// load draws mean powers in watts for n readings: a base, appliances, sunshine.
func (h *formsHome) load(r *rand.Rand, role record.Role, at []int64) []float64 {
	w := make([]float64, len(at))
	base, size := 40+r.Float64()*400, 500+r.Float64()*3000
	on := 0.0
	for i, u := range at {
		hour := float64(h.at(u)%86_400) / 3600
		sun := max(0, 1-(hour-12)*(hour-12)/36) * size
		if r.IntN(12) == 0 {
			on = 0
			if r.IntN(3) == 0 {
				on = r.Float64() * size
			}
		}
		switch role {
		case record.Production:
			w[i] = sun * (0.6 + 0.4*r.Float64())
		case record.Export:
			w[i] = max(0, sun*0.7*(0.5+r.Float64())-200)
		case record.Circuit:
			w[i] = on / 4
		default:
			w[i] = base*(0.8+0.4*r.Float64()) + on
		}
	}
	return w
}
