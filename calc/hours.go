package calc

import (
	"fmt"
	"math"

	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/uncertainty"
)

// addUnknownHour is the doubt of a read at an unknown hour: up to half a day's
// energy at either end. The period is left at its midnights, where most meters
// that report by themselves are read; two reads by hand are mostly at like hours
// of the day, so that what a late one misses at one end it has at the other.
// The read between two periods is one cause and all but drops out of their sum.
//
// Where the readings tell the hours around a midnight, it is those that count,
// else half of the period's mean day.
func (t *total) addUnknownHour(l ledger.Ledger, bill billing.Statement, span calendar.Span) {
	each := t.Filled.Total.KilowattHours() / float64(len(t.Filled.Days))
	midnights := [2]calendar.Day{span.First, span.End}
	for k, e := range ends(bill) {
		half, known := aroundMidnight(l, midnights[k])
		if !known {
			half = math.Abs(each) / 2
		}
		t.amount.Add(uncertainty.Part{
			Source: e.read + ", hour", Name: "Hour of the " + e.words + " unknown",
			HalfWidth: half, Unit: "kWh", Sensitivity: e.sign, Distribution: uncertainty.Rectangular,
			Reducible: true, Remedy: "say at what hour the meter was read",
		})
	}
}

// halfDay is how far from midnight a read at an unknown hour is looked for, in
// minutes.
const halfDay = 720

// aroundMidnight gives what lies between the midnight that begins day d and a
// read at any hour within half a day of it, in kWh: the half-width of a
// rectangle with the standard deviation about nothing of what lies between, all
// hours alike. known is false if the readings do not tell all of those hours.
func aroundMidnight(l ledger.Ledger, d calendar.Day) (half float64, known bool) {
	var square float64
	var last [2]float64
	for at := 60; at <= halfDay; at += 60 {
		after, _, ok := inSlots(l, d, 0, at)
		before, _, ok2 := inSlots(l, d-1, 2*halfDay-at, 2*halfDay)
		if !ok || !ok2 {
			return 0, false
		}
		for k, x := range [2]float64{after.KilowattHours(), before.KilowattHours()} {
			square += (last[k]*last[k] + last[k]*x + x*x) / 3 // the mean over an hour evenly used
			last[k] = x
		}
	}
	return math.Sqrt(3 * square / (2 * halfDay / 60)), true
}

// slotShape is hourShape for the part of a stretch that a read cuts: 0.4 to 1.05
// in the hours of four homes whose halves are known.
const slotShape = 0.85

// mostShort is 1 over the part of a slot that may be lost for the rest to stand
// for all of it.
const mostShort = 10

// inSlots adds up what day d brought from and up to minutes of its clock. Where a
// slot is cut, or lacks a little, it is taken as evenly used; doubt is the standard uncertainty of
// that, in kWh. known is false if the readings do not cover all of the stretch.
func inSlots(l ledger.Ledger, d calendar.Day, from, to int) (sum energy.Energy, doubt float64, known bool) {
	e, slots := l.At(d), l.On(d)
	if len(slots) == 0 {
		return 0, 0, false
	}
	if e.State == ledger.Partial && !coversAll(e, slots, from, to) {
		return 0, 0, false
	}
	for _, s := range slots {
		if s.To <= from || s.From >= to {
			continue
		}
		part := float64(min(s.To, to)-max(s.From, from)) / float64(s.To-s.From)
		lost := float64(s.Short) / 60000 / float64(s.To-s.From)
		if part == 1 && lost == 0 {
			sum += s.Energy
			continue
		}
		sum += share(s.Energy, part/(1-lost))
		kWh := math.Abs(s.Energy.KilowattHours())
		doubt = math.Hypot(doubt, slotShape*kWh*math.Hypot(part*(1-part), lost*part))
		if s.Again && part < 1 { // the clock showed this time twice
			doubt = math.Hypot(doubt, kWh/2)
		}
	}
	return sum, doubt, true
}

// coversAll says whether readings cover all of a stretch of a partly measured
// day. That a whole day has no slot for an hour means that the hour never was.
func coversAll(e ledger.Entry, slots []ledger.Slot, from, to int) bool {
	at, twice := from, 0
	for _, s := range slots {
		if s.To <= from || s.From >= to {
			continue
		}
		if mostShort*int(s.Short) > 60000*(s.To-s.From) {
			return false
		}
		if e.Turn < 0 && at == 60*int(e.TurnAt) && s.From == at+60 {
			at = s.From
		}
		if s.From > at {
			return false
		}
		if s.Again {
			twice += s.To - s.From
		}
		at = max(at, s.To)
	}
	if e.Turn > 0 && 60*int(e.TurnAt) < to && 60*(int(e.TurnAt)+1) > from && twice < 60 {
		return false
	}
	return at >= to
}

// hourShape is how far the share of a day's energy used before an hour lies
// from the share of the day gone by, for a part f of the day: about
// hourShape·f·(1−f) of the day's energy. It was found on the half-hours of four
// homes, where it is 0.5 to 1.2 (root mean square over days).
const hourShape = 0.85

// cut is the part of a day, at one end of a period, that lies between midnight
// and the read.
type cut struct {
	energy energy.Energy
	doubt  float64 // half-width of a normal distribution, kWh
	what   string  // what the doubt is of
	known  bool
}

// moveToHour takes the period from hour to hour instead of midnight to
// midnight, offset hours from the midnights that begin and end the span: it
// trades the part of a day at its start for the like part at its end. Where the
// readings tell the hours of that part it is their sum, and only the stretch
// that the read falls into is taken as evenly used; else all of the day is. The
// budget says which.
func (t *total) moveToHour(w *work, i, p int, span calendar.Span, offset float64) error {
	if offset == 0 {
		return nil
	}
	at := calendar.Span{First: span.First, End: span.End + 1} // the days cut at the start and at the end
	if offset < 0 {
		at = calendar.Span{First: span.First - 1, End: span.End}
	}
	l := w.f.Instruments[i].Ledger
	cuts := [2]cut{cutByHours(l, at.First, offset), cutByHours(l, at.Last(), offset)}
	if !cuts[0].known || !cuts[1].known {
		longer, err := w.fill(fill.Request{Ledger: l, Span: at, Others: w.others(i), Method: w.method(i)})
		if err != nil {
			return err
		}
		for k, day := range [2]energy.Energy{longer.Days[0].Energy, longer.Days[len(longer.Days)-1].Energy} {
			if !cuts[k].known {
				cuts[k] = cutEvenly(day, offset)
			}
		}
	}
	forward := energy.Energy(1)
	if offset < 0 {
		forward = -1
	}
	t.amount.Energy += forward * (cuts[1].energy - cuts[0].energy)
	for k, e := range ends(w.f.Periods[p]) {
		if cuts[k].doubt == 0 {
			continue
		}
		t.amount.Add(uncertainty.Part{
			Source:    fmt.Sprintf("%s, part of the day, instrument %d", e.read, i),
			Name:      cuts[k].what + " cut by the " + e.words,
			HalfWidth: cuts[k].doubt,
			Unit:      "kWh", Sensitivity: e.sign, Distribution: uncertainty.Normal,
		})
	}
	return nil
}

// cutByHours takes a cut from the readings of a day, if they tell all of it.
func cutByHours(l ledger.Ledger, d calendar.Day, offset float64) cut {
	from, to := 0, int(math.Round(60*offset))
	if offset < 0 {
		from, to = 2*halfDay+to, 2*halfDay
	}
	c := cut{what: "Part of an hour"}
	c.energy, c.doubt, c.known = inSlots(l, d, from, to)
	return c
}

// cutEvenly takes a cut of a day as if use were even through it.
func cutEvenly(day energy.Energy, offset float64) cut {
	part := math.Abs(offset) / 24
	return cut{
		energy: share(day, part), what: "Part of the day",
		doubt: hourShape * part * (1 - part) * math.Abs(day.KilowattHours()),
	}
}

// share gives a part of a day, to the microwatt-hour.
func share(day energy.Energy, part float64) energy.Energy {
	return energy.Energy(math.RoundToEven(float64(day) * part))
}
