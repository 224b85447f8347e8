package correct

import (
	"cmp"
	"math"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/sorted"
	"splittally/calc/uncertainty"
)

// Reading is one day of an instrument's history before it is corrected.
type Reading struct {
	Day      calendar.Day
	Energy   energy.Energy
	State    ledger.State
	Filled   bool          // Energy is an estimate, wholly or in part
	Rounding energy.Energy // half-width of what the last digit hid
	// Standard is the day's standard uncertainty beside its rounding, in kWh:
	// of filling, or of being a share of a longer total. DoF are its degrees of
	// freedom; 0 is +Inf.
	Standard, DoF float64
}

// History gives every day of a ledger with a reading, and the filled days of
// the periods, in order.
//
// A share of a total over n days is that day's use within 0.35·√((n−1)/n) of
// it, as days vary. Of filled days fill knows the doubt of their sum, S; each
// day is given its portion of S², by the square of what was estimated of it.
// That is what days that err independently come to; it is too wide where their
// errors go together. Where two periods fill a day, the one that knows it
// better counts.
func History(l ledger.Ledger, fills []fill.Result) []Reading {
	filled := map[calendar.Day]Reading{}
	for _, f := range fills {
		for _, r := range filledDays(l, f) {
			if known, seen := filled[r.Day]; !seen || r.Standard < known.Standard {
				filled[r.Day] = r
			}
		}
	}
	var out []Reading
	for i, e := range l.Days {
		r := Reading{Day: l.First + calendar.Day(i), Energy: e.Energy, State: e.State, Rounding: e.Rounding}
		if n := float64(e.Total.Days()); e.State == ledger.Spread && n > 1 {
			r.Standard = ledger.DailySpread * math.Abs(e.Energy.KilowattHours()) * math.Sqrt((n-1)/n)
		}
		if _, is := filled[r.Day]; !is && e.State != ledger.Missing {
			out = append(out, r)
		}
	}
	for _, r := range filled {
		out = append(out, r)
	}
	sorted.Stable(out, func(a, b Reading) int { return cmp.Compare(a.Day, b.Day) })
	return out
}

// filledDays gives the estimated days of one period with their doubt.
func filledDays(l ledger.Ledger, f fill.Result) []Reading {
	var out []Reading
	var estimated []float64
	var squares float64
	for _, d := range f.Days {
		if !d.Filled {
			continue
		}
		at := l.At(d.Day)
		part := d.Energy.KilowattHours() - at.Energy.KilowattHours()
		out = append(out, Reading{Day: d.Day, Energy: d.Energy, State: d.State, Filled: true, Rounding: at.Rounding, DoF: f.DoF})
		estimated = append(estimated, part)
		squares += part * part
	}
	for i := range out {
		portion := 1 / float64(len(out))
		if squares > 0 {
			portion = estimated[i] * estimated[i] / squares
		}
		out[i].Standard = f.Standard * math.Sqrt(portion)
	}
	return out
}

// correctDays multiplies the history with the factor. The doubt of a day is its
// rounding, its filling, the factor's relative uncertainty and, as a fraction
// of the day, what the checks did not see. A day that would not fit into an
// Energy is left out.
func (c *Correction) correctDays(history []Reading, factor ratio, unseen, confidence float64) {
	relative := math.Hypot(c.Standard/c.Factor, unseen)
	known := coverages{confidence: confidence, at: map[float64]float64{}}
	corrected := factor.each()
	for _, r := range history {
		day := Day{Day: r.Day, Was: r.Energy, Filled: r.Filled, State: r.State}
		var err error
		if day.Corrected, err = corrected(r.Energy); err != nil {
			continue
		}
		u, dof := combined(
			variance{c.Factor * r.Rounding.KilowattHours() / math.Sqrt(3), 0}, // rectangular
			variance{c.Factor * r.Standard, r.DoF},
			variance{relative * day.Corrected.KilowattHours(), c.DoF})
		day.Expanded, err = energy.FromKilowattHours(u * known.coverage(dof))
		day.IsUnlimited = err != nil
		c.Days = append(c.Days, day)
	}
}

// variance is a standard uncertainty and its degrees of freedom, 0 for +Inf.
type variance struct{ standard, dof float64 }

// combined is uncertainty.Budget.Combined for causes that share nothing,
// without the names and lists that hundreds of days would need.
func combined(parts ...variance) (standard, dof float64) {
	var squares, fourths float64
	for _, p := range parts {
		v := p.standard * p.standard
		squares += v
		if p.dof > 0 {
			fourths += v * v / p.dof
		}
	}
	if fourths == 0 {
		return math.Sqrt(squares), math.Inf(1)
	}
	return math.Sqrt(squares), squares * squares / fourths
}

// coverages remembers coverage factors at one confidence, because one costs
// more than all else of a day.
type coverages struct {
	confidence float64
	at         map[float64]float64
}

// coverage gives k for the degrees of freedom cut down to the next whole number,
// as JCGM 100:2008 G.4.1 allows, and above 30 to the next ten, which makes k at
// most 1 % larger than need be.
func (c coverages) coverage(dof float64) float64 {
	switch {
	case dof >= 30 && dof < 1e6: // beyond, and +Inf, k is that of the normal distribution
		dof = 10 * math.Floor(dof/10)
	case dof >= 1 && dof < 30:
		dof = math.Floor(dof)
	}
	k, known := c.at[dof]
	if !known {
		k = uncertainty.Coverage(c.confidence, dof)
		c.at[dof] = k
	}
	return k
}
