// Package fill gives the total of one billing period of an instrument whose
// ledger has gaps, and says how well that total is known.
//
// It comes after ledger and before rolling up and comparing. A measured day
// passes untouched; a missing day is estimated by one of a few methods that an
// owner can follow, chosen by trying them all on days that were measured.
package fill

import (
	"errors"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

// ErrNothingMeasured says that no total can be given, because the ledger holds
// no measured day at all, in the period or outside it.
var ErrNothingMeasured = errors.New("nothing measured")

// ErrNoPeriod says that the span holds no day.
var ErrNoPeriod = errors.New("period without a day")

// Request asks for the total of one period.
type Request struct {
	Ledger ledger.Ledger // the whole record, days outside the span included
	Span   calendar.Span // the days of the billing period
	// Others are further instruments that may have measured the missing days.
	Others []ledger.Ledger
	Method Method // the zero value chooses by trial
}

// Day is one day of the period.
type Day struct {
	Day    calendar.Day
	Energy energy.Energy // measured or filled
	State  ledger.State  // as the ledger has it
	Filled bool          // true if Energy is an estimate, wholly or in part
	Method Method        // the method that filled it; empty for a day that was not
}

// Trial tells how one method did on copies of the gap pattern, blanked at
// other places of the record where the truth is known.
type Trial struct {
	Method Method
	Tries  int     // copies of the pattern that could be placed
	RMS    float64 // root mean square error of the pattern's total, kWh
	Mean   float64 // mean error, kWh; positive if the method fills too much
}

// Result is the total of the period and how it came about.
type Result struct {
	Days  []Day         // every day of the span, in order
	Total energy.Energy // the exact sum of Days
	// Measured, Spread and Partial count days by their State. Filled counts
	// days whose Energy is an estimate: missing and partly measured ones.
	Measured, Spread, Filled, Partial int
	Longest                           int    // length in days of the longest run of filled days
	Method                            Method // the method used; empty if nothing was filled
	Chosen                            bool   // true if Method was chosen by trial
	// Standard is the standard uncertainty of Total that comes from filling,
	// in kWh, and DoF its degrees of freedom. Both are 0 if nothing was filled.
	Standard float64
	DoF      float64
	Trials   []Trial // every method that the data allowed, in the order of Methods
	Notices  []remark.Notice
}

// Fill gives the total of r.Span.
//
// A day that is Measured or Spread passes untouched. Every other day is
// estimated; a Partial day keeps what was measured and has only the share of
// its missing hours estimated, so it never comes below what was measured.
//
// The errors are ErrNoPeriod, ErrNothingMeasured and energy.ErrRange.
func Fill(r Request) (Result, error) {
	if r.Span.Days() == 0 {
		return Result{}, ErrNoPeriod
	}
	res := Result{Days: make([]Day, r.Span.Days())}
	for i := range res.Days {
		d := r.Span.First + calendar.Day(i)
		e := r.Ledger.At(d)
		res.Days[i] = Day{Day: d, Energy: e.Energy, State: e.State, Filled: !known(e.State)}
	}
	res.count()
	if res.Filled > 0 {
		rec := newRecord(r)
		if rec.count(rec.lo, rec.hi) == 0 {
			return Result{}, ErrNothingMeasured
		}
		if err := res.estimate(r, rec); err != nil {
			return Result{}, err
		}
	}
	for _, d := range res.Days {
		var err error
		if res.Total, err = res.Total.Add(d.Energy); err != nil {
			return Result{}, err
		}
	}
	return res, nil
}

// known says whether a day of state s needs no filling.
func known(s ledger.State) bool { return s == ledger.Measured || s == ledger.Spread }

// count sets the counts and Longest from Days.
func (res *Result) count() {
	run := 0
	for _, d := range res.Days {
		switch d.State {
		case ledger.Measured:
			res.Measured++
		case ledger.Spread:
			res.Spread++
		case ledger.Partial:
			res.Partial++
		}
		if !d.Filled {
			run = 0
			continue
		}
		res.Filled++
		run++
		res.Longest = max(res.Longest, run)
	}
}

// estimate fills the days that are not known and sets everything that goes
// with it. rec holds at least one known day.
func (res *Result) estimate(r Request, rec *record) error {
	best := res.choose(r, rec)
	kWh := make([]float64, len(rec.gap))
	used := best.fill(rec, rec.gap, 0, kWh)
	for i, at := range rec.gap {
		day := &res.Days[at-rec.start]
		part := r.Ledger.At(day.Day)
		est, err := energy.FromKilowattHours(kWh[i] * rec.share[i])
		if err != nil {
			return err
		}
		if part.State == ledger.Partial {
			if est, err = part.Energy.Add(max(0, est)); err != nil {
				return err
			}
		}
		day.Energy, day.Method = est, used[i]
	}
	res.Method = best.method
	res.Notices = append(res.Notices, res.remarks(r, rec)...)
	return nil
}

// choose tries the candidates and sets Trials, Chosen, Standard and DoF.
func (res *Result) choose(r Request, rec *record) candidate {
	all := candidates(r, rec)
	places := rec.places()
	for i := range all {
		all[i].trial = rec.try(all[i], places)
		res.Trials = append(res.Trials, all[i].trial)
	}
	best := slices.IndexFunc(all, func(c candidate) bool { return c.method == r.Method })
	if best < 0 {
		best = 0
		for i, c := range all {
			if c.trial.Tries > 0 && c.trial.RMS < all[best].trial.RMS {
				best = i
			}
		}
		res.Chosen = true
		if r.Method != Choose {
			res.Notices = append(res.Notices, impossible(r.Method, all[best].method))
		}
	}
	res.Standard, res.DoF = rec.doubt(all[best].trial)
	return all[best]
}
