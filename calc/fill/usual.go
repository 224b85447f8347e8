package fill

import (
	"math"

	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// Usual tells what stretches of time that nobody measured are likely to have
// brought, by the usual shape of the days of a record.
type Usual struct {
	ledger   ledger.Ledger
	rec      *record
	tells    []*told // by day, of those that are covered in part
	variance float64 // of what a day of the mean level has beyond the usual
	fade     float64 // its correlation from one day to the next
}

// UsualOf learns the days of a ledger. ok is false if it tells no hours. It
// takes about 1 kB for each day of the ledger.
func UsualOf(l ledger.Ledger) (u *Usual, ok bool) {
	n := len(l.Days)
	rec := &record{first: l.First, kWh: make([]float64, n), known: make([]bool, n), whole: make([]bool, n)}
	if rec.readHours(l); rec.hours == nil {
		return nil, false
	}
	u = &Usual{ledger: l, rec: rec}
	u.tells = rec.tellPartly(l)
	if rec.shape == nil {
		return nil, false
	}
	u.learnDays()
	return u, true
}

// learnDays sets variance and fade.
func (u *Usual) learnDays() {
	usual := usualSpread * u.rec.shape.level
	square, n := usual*usual, 1.0
	next, before, last := 0.0, 0.0, -2
	for t := range u.rec.hours {
		b := &u.rec.hours[t]
		if !b.fine || b.covered() < mostlyCovered {
			continue
		}
		more := -u.total(t)
		for h, all := range b.all {
			more += all * b.kWh[h] / math.Max(b.got[h], 1e-9)
			if b.got[h] == 0 {
				more += all * u.rec.shape.usual[t][h]
			}
		}
		more /= u.rec.shape.scale(t)
		square, n = square+more*more, n+1
		if last == t-1 {
			next += more * before
		}
		before, last = more, t
	}
	u.variance = square / n
	u.fade = math.Max(0, math.Min(0.9, next/square))
}

// total gives what day t usually brings, all hours that it has.
func (u *Usual) total(t int) float64 {
	sum := 0.0
	for h, x := range u.rec.shape.usual[t] {
		sum += x * u.length(t, h)
	}
	return sum
}

// length gives how long an hour of day t is.
func (u *Usual) length(t, h int) float64 {
	if b := &u.rec.hours[t]; b.has {
		return b.all[h]
	}
	return 1
}

// Between estimates the energy of a stretch that no reading covers, in kWh, and
// the standard uncertainty of that. from and to are milliseconds of the local
// clock, as record.Gap has them; what lies outside the ledger counts nothing.
//
// On a day covered in part it is the stretch's part of all that is missing
// there, in proportion to what is usual; what is missing follows from the hours
// that were covered and, the fewer they are, from the usual day.
func (u *Usual) Between(from, to int64) (kWh, standard float64) {
	variance, run := 0.0, 0.0
	for d := dayOf(from); d <= dayOf(to-1) && d < u.ledger.Span().End; d++ {
		run *= u.fade
		if d < u.ledger.First {
			continue
		}
		begin := int64(d) * dayLength
		x, v := u.onDay(int(d-u.rec.first), float64(max(0, from-begin))/hourLength, float64(min(dayLength, to-begin))/hourLength)
		kWh += x
		own := math.Sqrt(v)
		variance += v + 2*run*own
		run += own
	}
	return kWh, math.Sqrt(variance)
}

// Lengths in milliseconds.
const (
	hourLength = 3_600_000
	dayLength  = 24 * hourLength
)

func dayOf(at int64) calendar.Day {
	d, _ := calendar.At(at)
	return d
}

// onDay gives what a stretch of one day brought, from and to in hours of the
// clock, and the variance of that.
func (u *Usual) onDay(t int, from, to float64) (kWh, variance float64) {
	s, b := u.rec.shape, &u.rec.hours[t]
	part, missing := 0.0, 0.0 // what is usual for the stretch and for all that is missing
	for h, x := range s.usual[t] {
		x = max(0, x)
		lost := 1.0
		if b.has {
			lost = b.all[h] - b.got[h]
		}
		missing += x * lost
		part += x * min(lost, max(0, min(to, float64(h+1))-max(from, float64(h))))
	}
	day := u.variance * math.Pow(s.scale(t), 2)
	o := u.tells[t]
	if o == nil || missing <= 0 {
		if missing <= 0 {
			return part, 0
		}
		return part, day * part / missing * part / missing
	}
	keep := day / (day + o.variance)
	usual := u.total(t)
	all := usual + keep*(o.kWh-usual)
	for _, x := range b.kWh {
		all -= x
	}
	share := part / missing
	return share * max(0, all), share * keep * o.variance
}

// Expect gives what a stretch usually brings, in kWh, and the standard deviation
// of what it brings about that, whether or not readings cover it. from and to
// are as for Between.
func (u *Usual) Expect(from, to int64) (kWh, standard float64) {
	s, variance := u.rec.shape, 0.0
	for d := max(dayOf(from), u.ledger.First); d <= dayOf(to-1) && d < u.ledger.Span().End; d++ {
		t, begin := int(d-u.rec.first), int64(d)*dayLength
		load, own := 0.0, 0.0
		for h, x := range s.usual[t] {
			at := begin + int64(h)*hourLength
			part := float64(max(0, min(to, at+hourLength)-max(from, at))) / hourLength
			kWh += part * x
			load += part * s.load[h]
			own += part * part * s.spread.Row(h)[h]
		}
		variance += (own + load*load*u.variance) * math.Pow(s.scale(t), 2)
	}
	return kWh, math.Sqrt(variance)
}
