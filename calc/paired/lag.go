package paired

import (
	"math"

	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// Lag is by how much the hours of the two are apart.
type Lag struct {
	Known bool
	Count int // hours that are whole in both
	// Hours is by how many hours the instrument's must be moved to fit the
	// meter's best, to half an hour: above zero they must be moved later. 0 if no
	// move fits clearly better than none.
	Hours float64
	// Left is the mean distance of hours that is left, as a part of what it is
	// without a move.
	Left float64
	// Months tells the months apart, if the best move is not the same in all: the
	// clock of one of the two is not changed in spring and autumn.
	Months []MonthLag
}

// MonthLag is the best move of a month.
type MonthLag struct {
	Month calendar.Day // its first day
	Hours float64
}

const (
	farLag      = 14  // hours: as far as zones are apart
	hoursForLag = 72  // hours that both must have, in all and in a month
	lagPart     = 0.6 // to what part the distance must fall
)

// halves is how many moves are tried.
const halves = 4*farLag + 1

// distances adds up, for each move by half hours, how far hours lie apart.
type distances struct {
	sum   [halves]float64
	count [halves]int
}

// best gives the move that fits best, in hours, and what it leaves.
func (d distances) best() (hours, left float64, ok bool) {
	const none = 2 * farLag
	if d.count[none] < hoursForLag {
		return 0, 1, false
	}
	usual := d.sum[none] / float64(d.count[none])
	left = 1
	for k := range d.sum {
		if d.count[k] < hoursForLag || usual == 0 {
			continue
		}
		if part := d.sum[k] / float64(d.count[k]) / usual; part < lagPart && part < left {
			hours, left = float64(k-none)/2, part
		}
	}
	return hours, left, true
}

// lag moves the instrument's hours about.
func (s *sheet) lag() Lag {
	both := s.monitor.Span().Common(s.meter.Span())
	if len(s.monitor.Slots) == 0 || len(s.meter.Slots) == 0 || both.Days() == 0 {
		return Lag{}
	}
	w, hasW := allHours(s.monitor, both)
	r, hasR := allHours(s.meter, both)
	scale := ratio(w, hasW, r, hasR)
	for i := range r {
		r[i] *= scale
	}
	var all distances
	var months []distances
	var names []calendar.Day
	for from := 0; from < len(w); {
		day := both.First + calendar.Day(from/24)
		till := min(len(w), from+24*daysLeft(day))
		d := apart(w, hasW, r, hasR, from, till)
		months, names = append(months, d), append(names, day)
		for k := range all.sum {
			all.sum[k] += d.sum[k]
			all.count[k] += d.count[k]
		}
		from = till
	}
	return told(all, months, names)
}

// told makes a Lag of distances.
func told(all distances, months []distances, names []calendar.Day) (out Lag) {
	out.Count = all.count[2*farLag]
	out.Hours, out.Left, out.Known = all.best()
	differ := false
	first, isFirst := 0.0, true
	for i, d := range months {
		hours, _, ok := d.best()
		if !ok {
			continue
		}
		differ = differ || !isFirst && hours != first
		if isFirst {
			first, isFirst = hours, false
		}
		out.Months = append(out.Months, MonthLag{names[i], hours})
	}
	if !differ {
		out.Months = nil
	}
	return out
}

// daysLeft counts the days of a month from one on.
func daysLeft(d calendar.Day) int {
	_, month, _ := d.Date()
	n := 1
	for {
		if _, m, _ := (d + calendar.Day(n)).Date(); m != month {
			return n
		}
		n++
	}
}

// apart adds up the distances of the hours from one to before another.
func apart(w []float64, hasW []bool, r []float64, hasR []bool, from, till int) (d distances) {
	for t := from; t < till; t++ {
		if !hasW[t] {
			continue
		}
		for k := range d.sum {
			half := k - 2*farLag
			a := t + half>>1
			if a < 0 || a+half&1 >= len(r) || !hasR[a] {
				continue
			}
			x := r[a]
			if half&1 == 1 {
				if !hasR[a+1] {
					continue
				}
				x = (x + r[a+1]) / 2
			}
			d.sum[k] += math.Abs(w[t] - x)
			d.count[k]++
		}
	}
	return d
}

// ratio is that of the sums of hours that both have.
func ratio(w []float64, hasW []bool, r []float64, hasR []bool) float64 {
	a, b := 0.0, 0.0
	for i := range w {
		if hasW[i] && hasR[i] {
			a += w[i]
			b += r[i]
		}
	}
	if b <= 0 || a <= 0 {
		return 1
	}
	return a / b
}

// allHours gives the kWh of each hour of a span, and which are whole.
func allHours(l ledger.Ledger, span calendar.Span) (kWh []float64, has []bool) {
	kWh, has = make([]float64, 24*span.Days()), make([]bool, 24*span.Days())
	for d := span.First; d < span.End; d++ {
		at := 24 * int(d-span.First)
		fillHours(l, d, kWh[at:at+24], has[at:at+24])
	}
	return kWh, has
}

// fillHours adds up the hours of a day. An hour that came twice, or that no
// readings fill, is not whole.
func fillHours(l ledger.Ledger, d calendar.Day, kWh []float64, has []bool) {
	var minutes, twice [24]int
	for _, s := range l.On(d) {
		h := s.From / 60
		if h > 23 || s.To > 60*(h+1) {
			continue // longer than an hour: it tells too little
		}
		if s.Again {
			twice[h]++
		}
		if s.Short > 0 {
			continue
		}
		minutes[h] += s.To - s.From
		kWh[h] += s.Energy.KilowattHours()
	}
	for h := range has {
		has[h] = minutes[h] == 60 && twice[h] == 0
	}
}
